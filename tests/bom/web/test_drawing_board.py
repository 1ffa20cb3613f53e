"""The drawing board: seams are typed, patches get letters, and the drawing is kept and used."""

from __future__ import annotations

import json
from typing import Any

import pytest
import time_machine
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bom.domain.chain import work_of
from bom.domain.freezing import freeze_fabric
from bom.models import AuditEntry, Program
from patterns.models import Block
from tests.bom.web.designers import NOW, YEAR, as_, editor_of, placed, small_program
from tests.cast import dora, olga, person
from tests.factories import make_block, nine_patch, square

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
NEW = f"{YEAR}draw/"


@pytest.fixture(autouse=True)
def _today() -> object:
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.fixture
def client(program: Program) -> Client:
    return as_(dora())


def send(client: Client, act: str, address: str = NEW, **typed: Any) -> Any:
    """Send the whole board with what is typed anew, as its form does."""
    form = client.get(address).context["form"]
    data = {name: form[name].value() or "" for name in form.fields}
    return client.post(address, {**data, "act": act, **typed}, follow=True)


def draw(client: Client, *seams: tuple[str, str], address: str = NEW) -> Any:
    for start, end in seams:
        page = send(client, "seam", address, start=start, end=end)
        assert not page.context["form"].errors
    return page


def kept_halves(client: Client) -> Block:
    draw(client, ("0, 2", "4, 2"))
    send(client, "keep", name="Two Halves")
    return Block.objects.get(name="Two Halves")


def texts(page: Any) -> str:
    return str(page.content.decode())


def test_seams_make_patches_and_units_are_found(client: Client, program: Program) -> None:
    page = draw(client, ("0, 0", "4, 4"), ("4, 0", "0, 4"))
    assert page.context["count"] == 4
    (field, *_rest) = [name for name in page.context["form"].fields if name.startswith("letter_")]
    page = send(client, "show", **{field: "B"})
    assert page.context["found"].units[0][:2] == ("Quarter-square triangle A B", 1)
    assert "it goes together" in texts(page)


def test_a_seam_is_taken_back_and_letters_stay(client: Client, program: Program) -> None:
    draw(client, ("2, 0", "2, 4"), ("0, 2", "4, 2"))
    page = send(client, "take", taken="0, 2 to 4, 2")
    assert page.context["count"] == 2
    assert "0, 2 to 4, 2" not in texts(page)


def test_many_patches_get_a_letter_by_their_numbers(client: Client, program: Program) -> None:
    draw(client, ("1, 0", "1, 4"), ("2, 0", "2, 4"), ("3, 0", "3, 4"))
    page = send(client, "show", many="1, 3 to 4", many_letter="B")
    assert [patch.fabric for patch in page.context["board"].divided().patches] == ["B", "A", "B", "B"]
    for typed in ("5", "3 to 2", "x", "0", "1, 9"):
        page = send(client, "show", many=typed, many_letter="C")
        assert page.context["form"].errors["many"] == ["Write numbers from 1 to 4: 2, 5 to 8."]


def test_an_open_end_is_named_and_is_not_kept(client: Client, program: Program) -> None:
    page = draw(client, ("0, 0", "3, 1 1/2"))
    assert page.context["loose"] == ["A seam ends at 3, 1 1/2 and meets nothing: it makes no patch yet."]
    page = send(client, "keep", name="Open")
    assert page.context["form"].non_field_errors() == [
        "A seam ends at 3, 1 1/2 and meets nothing: draw it on, or take it back."
    ]
    assert not Block.objects.filter(name="Open").exists()


@pytest.mark.parametrize(
    ("typed", "fault"),
    [
        ({"start": "3 1", "end": "4, 2"}, ("start", "Write a point as across, down")),
        ({"start": "3, 1"}, ("end", "the other end")),
        ({}, ("start", "where the seam begins")),
        ({"start": "0, 0", "end": "9, 1"}, ("end", "End the seam inside the grid")),
        ({"start": "1, 1", "end": "1, 1"}, ("end", "two different ends")),
        ({"start": "0, 0", "end": "4, 4", "across": "40"}, ("across", "from 2 to 16")),
    ],
)
def test_bad_input_names_the_field_and_keeps_what_was_typed(
    client: Client, typed: dict[str, str], fault: tuple[str, str]
) -> None:
    page = send(client, "seam", **typed)
    form = page.context["form"]
    assert fault[1] in " ".join(form.errors[fault[0]])
    assert {name: form[name].value() for name in typed} == typed
    assert page.context["count"] == 1


def test_the_first_button_shows_whatever_was_typed(client: Client, program: Program) -> None:
    page = send(client, "seam", name="Only A Name")  # Enter in any field presses it
    assert (page.context["board"].name, page.context["form"].errors) == ("Only A Name", {})


def test_a_seam_is_drawn_once(client: Client, program: Program) -> None:
    draw(client, ("0, 2", "4, 2"))
    page = send(client, "seam", start="4, 2", end="0, 2")
    assert page.context["form"].errors["end"] == ["This seam is drawn already."]


def test_a_grid_too_small_for_a_seam_is_refused(client: Client, program: Program) -> None:
    draw(client, ("0, 0", "4, 4"))
    page = send(client, "show", across="3")
    assert "A seam ends outside this grid" in page.context["form"].errors["across"][0]
    assert send(client, "show", across="6", down="6").context["grid"] == {"across": "6", "down": "6"}


def test_a_round_of_rectangles_gets_its_order_too(client: Client, program: Program) -> None:
    send(client, "show", across="3", down="3")
    page = draw(client, ("2, 0", "2, 2"), ("3, 2", "1, 2"), ("1, 3", "1, 1"), ("0, 1", "2, 1"))
    assert page.context["count"] == 5
    assert [count for _, count, _ in page.context["found"].units] == [1, 4]


def test_a_drawing_is_kept_with_an_address_of_its_own(client: Client, program: Program) -> None:
    first = kept_halves(client)
    assert (first.owner, first.slug, len(first.drawing["patches"])) == (dora(), "two-halves", 2)
    draw(client, ("0, 1", "4, 1"))
    send(client, "keep", name="Two Halves")
    assert Block.objects.filter(owner=dora(), slug="two-halves-2").exists()
    assert AuditEntry.objects.filter(verb="drew block").count() == 2
    assert client.get(NEW).context["count"] == 1  # the board is free again


def test_a_name_is_asked_for(client: Client, program: Program) -> None:
    draw(client, ("0, 2", "4, 2"))
    assert send(client, "keep").context["form"].errors["name"] == ["Give the block a name."]


def test_a_traditional_block_is_copied(client: Client, program: Program) -> None:
    block = make_block(nine_patch() | {"name": "Old Nine"})
    page = send(client, "keep", f"{NEW}{block.pk}/")
    copy = Block.objects.get(owner=dora(), name="Old Nine")
    assert page.redirect_chain[-1][0] == f"{NEW}{copy.pk}/"
    block.refresh_from_db()
    assert block.owner is None


def test_a_kept_drawing_goes_to_a_place_and_can_be_taken_back(client: Client, program: Program) -> None:
    block, before = kept_halves(client), placed(program, "Nine Patch")
    page = client.post(
        f"{NEW}{block.pk}/", {"act": "use", "place": f"{before.row},{before.column}"}, follow=True
    )
    assert f"Two Halves lies in row {before.row + 1}, column {before.column + 1}." in texts(page)
    now = placed(program, "Two Halves")
    assert (now.pk, now.letters, now.methods) == (before.pk, {"A": "A"}, {})
    client.post(f"{YEAR}take-back/", {"token": page.context["done"]["token"], "next": NEW})
    now.refresh_from_db()
    assert (now.block, now.letters) == (before.block, before.letters)


def test_a_placed_drawing_is_drawn_again_and_the_year_follows(client: Client, program: Program) -> None:
    block, place = kept_halves(client), placed(program, "Nine Patch")
    client.post(f"{NEW}{block.pk}/", {"act": "use", "place": f"{place.row},{place.column}"})
    before = work_of(program).content_hash
    address = f"{NEW}{block.pk}/"
    draw(client, ("2, 0", "2, 4"), address=address)
    form = client.get(address).context["form"]
    field = next(name for name in form.fields if name.startswith("letter_"))
    page = send(client, "keep", address, **{field: "G"})
    assert "Two Halves is kept, with 4 patches." in texts(page)
    assert placed(program, "Two Halves").letters == {"A": "A", "G": "A"}  # the quilt has no G
    assert work_of(program).content_hash != before


def test_the_freeze_stops_both(client: Client, program: Program) -> None:
    block, place = kept_halves(client), placed(program, "Nine Patch")
    client.post(f"{NEW}{block.pk}/", {"act": "use", "place": f"{place.row},{place.column}"})
    freeze_fabric(program, by=dora(), now=NOW)
    star = placed(program, "Ohio Star")
    address = f"{NEW}{block.pk}/"
    page = client.post(address, {"act": "use", "place": f"{star.row},{star.column}"})
    assert "The fabric is frozen. This change would break:" in texts(page)
    draw(client, ("2, 0", "2, 4"), address=address)
    page = send(client, "keep", address)
    assert "The fabric is frozen. This change would break:" in texts(page)
    assert placed(program, "Ohio Star").pk == star.pk
    block.refresh_from_db()
    assert len(block.drawing["patches"]) == 2


def test_a_drawing_goes_out_as_a_file_and_comes_in_again(client: Client, program: Program) -> None:
    draw(client, ("0, 0", "4, 4"))
    for kind in ("json", "svg"):
        send(client, "show", name="There And Back")
        file = client.get(f"{NEW}drawing.{kind}")
        assert f'filename="there-and-back.{kind}"' in file["Content-Disposition"]
        client.post(NEW, {"act": "fresh"})
        upload = SimpleUploadedFile(f"x.{kind}", file.content)
        page = client.post(NEW, {"act": "read", "file": upload}, follow=True)
        assert (page.context["count"], page.context["board"].name) == (2, "There And Back")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"no drawing", "neither a drawing file"),
        (b"\xff\xfe", "neither a drawing file"),
        (b"[" * 100_000, "neither a drawing file"),
        (b" " * 200_001, "larger than 200 kB"),
        (b'{"name": "X", "grid": [2, 2], "patches": []}', "patches"),
        (b'<!DOCTYPE a [<!ENTITY b "c">]><svg>&b;</svg>', "plain SVG"),
        (json.dumps({"name": "x" * 121, "grid": [3, 3], "patches": nine_patch()["patches"]}).encode(), "120"),
    ],
)
def test_a_bad_file_is_refused_with_its_reason(client: Client, data: bytes, words: str) -> None:
    page = client.post(NEW, {"act": "read", "file": SimpleUploadedFile("x", data)})
    assert words in " ".join(page.context["files"].errors["file"])
    assert page.context["count"] == 1


def test_the_editor_looks_and_does_not_draw(program: Program) -> None:
    block = make_block(nine_patch(), dora())
    editor = as_(editor_of(program))
    page = editor.get(f"{NEW}{block.pk}/")
    assert page.status_code == 200
    assert b"Keep this drawing" not in page.content
    assert editor.post(NEW, {"act": "keep"}).status_code == 404
    assert editor.get(f"{NEW}{block.pk}/drawing.json").json()["name"] == "Nine Patch"


@pytest.mark.parametrize("path", ["", "drawing.json", "drawing.svg"])
def test_others_are_kept_out(program: Program, path: str) -> None:
    assert as_(olga()).get(NEW + path).status_code == 404
    assert as_(olga()).post(NEW + path).status_code in {404, 405}
    assert Client().get(NEW + path)["Location"].startswith("/sign-in/")


def test_a_drawing_of_somebody_else_is_unknown(client: Client, program: Program) -> None:
    block = make_block(nine_patch(), person("Edith"))
    for path in ("", "drawing.json"):
        assert client.get(f"{NEW}{block.pk}/{path}").status_code == 404
    assert client.post(f"{NEW}{block.pk}/", {"act": "keep"}).status_code == 404


@pytest.mark.parametrize("path", ["", "drawing.json"])
def test_a_block_of_more_seams_than_a_board_holds_says_so(client: Client, path: str) -> None:
    strips = [square("A", x, 0) for x in range(302)]
    block = make_block({"name": "Endless", "grid": [302, 1], "patches": strips}, dora())
    page = client.get(f"{NEW}{block.pk}/{path}", follow=True)
    assert page.redirect_chain == [(f"{YEAR}blocks/", 302)]
    assert "more than one block holds" in texts(page)


def test_the_blocks_page_leads_to_it(client: Client, program: Program) -> None:
    assert f'href="{NEW}">Draw a block</a>' in texts(client.get(f"{YEAR}blocks/"))


def test_a_drawing_beside_the_marks_of_a_ruler_says_so(client: Client, program: Program) -> None:
    assert draw(client, ("0, 2", "4, 2")).context["found"].notes == ()
    page = draw(client, ("0, 1/5", "4, 1/5"))
    (note,) = page.context["found"].notes
    assert note.startswith("Its parts are ")
    assert "beside the marks of a ruler" in page.content.decode()
