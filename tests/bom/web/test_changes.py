"""Changing what is drawn: everything follows, and everything can be taken back."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

import pytest
import time_machine
from django.test import Client

from bom.domain.chain import work_of
from bom.domain.freezing import freeze_fabric
from bom.models import AuditEntry, Program
from patterns.models import Collection, Fabric, PlacedBlock
from tests.bom.web.designers import (
    NOW,
    YEAR,
    as_,
    block_data,
    placed,
    quilt_data,
    small_program,
)
from tests.cast import dora, olga

pytestmark = pytest.mark.django_db


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


@pytest.fixture
def nine_patch(program: Program) -> PlacedBlock:
    return placed(program, "Nine Patch")


def change_block(client: Client, block: PlacedBlock, **changed: Any) -> Any:
    address = f"{YEAR}blocks/{block.pk}/"
    return client.post(address, block_data(client, block, **changed), follow=True)


def test_a_smaller_block_gets_a_frame_and_its_cut_list_follows(
    client: Client, program: Program, nine_patch: PlacedBlock
) -> None:
    page = change_block(client, nine_patch, own_size="4 1/2", frame_letter="D").content.decode()
    nine_patch.refresh_from_db()
    assert nine_patch.own_size == Fraction(9, 2)
    assert "Installment 2 has another cut list." in page
    assert "Take it back" in page
    sizes = {piece.width for piece in work_of(program).installment(2).pieces["D"]}
    assert Fraction(5, 4) in sizes  # (6 - 4 1/2) / 2 = 3/4 finished, with two seams of 1/4


def test_the_size_of_the_place_is_no_own_size(client: Client, nine_patch: PlacedBlock) -> None:
    change_block(client, nine_patch, own_size="6", turn="1")
    nine_patch.refresh_from_db()
    assert (nine_patch.own_size, nine_patch.turn) == (None, 1)


def test_a_change_is_recorded_with_what_was_before(client: Client, nine_patch: PlacedBlock) -> None:
    change_block(client, nine_patch, letter_B="C")
    entry = AuditEntry.objects.get(verb="changed block")
    assert entry.actor == dora()
    assert entry.subject == f"program:small#block:{nine_patch.pk}"
    assert (entry.facts["before"]["letters"]["B"], entry.facts["after"]["letters"]["B"]) == ("B", "C")


def test_a_change_is_taken_back_once(client: Client, nine_patch: PlacedBlock) -> None:
    slip = change_block(client, nine_patch, letter_B="C").context["done"]
    after_back = client.post(f"{YEAR}take-back/", {"token": slip["token"]}, follow=True)
    nine_patch.refresh_from_db()
    assert nine_patch.letters["B"] == "B"
    assert after_back.context["done"]  # taking back can be taken back
    again = client.post(f"{YEAR}take-back/", {"token": slip["token"]}, follow=True)
    assert "changed again since" in again.content.decode()


def test_a_forged_change_is_refused(client: Client) -> None:
    page = client.post(f"{YEAR}take-back/", {"token": "forged", "next": "https://example.org/"}, follow=True)
    assert page.redirect_chain[-1][0] == YEAR
    assert "cannot be taken back from here" in page.content.decode()


def test_the_need_is_told_before_and_after(client: Client, program: Program) -> None:
    page = client.post(f"{YEAR}quilt/", quilt_data(client, border_width="6"), follow=True).content.decode()
    assert "The quilt is 34" in page  # 22 + 2 x 6 wide, 6 + 2 x 6 high
    assert "needs of fabric are others" in page
    assert "TW-1 Tidewater background" in page


def test_another_method_is_kept_only_where_it_is_not_the_preferred_one(
    client: Client, program: Program
) -> None:
    block = placed(program, "Sawtooth Star")
    form = client.get(f"{YEAR}blocks/{block.pk}/").context["form"]
    number, unit = next((n, unit) for n, unit in enumerate(form.units) if len(unit.methods) > 1)
    change_block(client, block, **{f"method_{number}": unit.methods[1]})
    block.refresh_from_db()
    assert block.methods == {unit.key: unit.methods[1]}
    rows = work_of(program).installment(2).parts[0].recipe.units
    assert unit.methods[1] in {row.method for row in rows}
    change_block(client, block, **{f"method_{number}": unit.methods[0]})
    block.refresh_from_db()
    assert block.methods == {}


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"own_size": "nine"}, "own_size", "for example 2 1/2"),
        ({"own_size": "1/0"}, "own_size", "for example 2 1/2"),
        ({"own_size": "0"}, "own_size", "between 0 and 120"),
        ({"own_size": "9"}, "own_size", "larger than its place of 6 in"),
        ({"own_size": "4"}, "frame_letter", "name the letter of the frame"),
        ({"turn": "4"}, "turn", "not one of the available choices"),
        ({"letter_B": "Z"}, "letter_B", "not one of the available choices"),
        ({"method_0": "magic"}, "method_0", "not one of the available choices"),
    ],
)
def test_bad_input_names_the_field_and_keeps_what_was_typed(
    client: Client, nine_patch: PlacedBlock, *, changed: dict[str, str], field: str, words: str
) -> None:
    answer = change_block(client, nine_patch, **changed)
    form = answer.context["form"]
    typed = next(iter(changed))
    assert words in str(form.errors[field])
    assert form[typed].value() == changed[typed]
    nine_patch.refresh_from_db()
    assert (nine_patch.own_size, nine_patch.turn, nine_patch.letters["B"]) == (None, 0, "B")
    assert not AuditEntry.objects.filter(verb="changed block").exists()


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"block_size": "0"}, "block_size", "between 0 and 120"),
        ({"block_size": ""}, "block_size", "required"),
        ({"border_width": "500"}, "border_width", "between 0 and 120"),
        ({"border_letter": ""}, "border_letter", "Name the fabric letter"),
        ({"sashing_letter": "Q"}, "sashing_letter", "not one of the available choices"),
    ],
)
def test_a_bad_setting_names_the_field(
    client: Client, program: Program, *, changed: dict[str, str], field: str, words: str
) -> None:
    answer = client.post(f"{YEAR}quilt/", quilt_data(client, **changed))
    assert words in str(answer.context["form"].errors[field])
    program.quilt.refresh_from_db()
    assert (program.quilt.block_size, program.quilt.border_width) == (6, 3)


def test_another_fabric_for_a_letter(client: Client, program: Program) -> None:
    harbour = program.quilt.colorways.get(slug="harbour")
    cloth = {row.letter.letter: row.fabric_id for row in harbour.fabrics.select_related("letter")}
    data = {f"letter_{letter}": pk for letter, pk in {**cloth, "D": cloth["C"]}.items()}
    page = client.post(f"{YEAR}fabrics/harbour/", data, follow=True).content.decode()
    assert "needs of fabric are others" in page
    rows = re.findall(r'<th scope="row" class="w">(TW-4 Tidewater frame)</th>.*?</tr>', page)
    assert rows
    assert "nothing<span" in page
    assert harbour.fabrics.get(letter__letter="D").fabric_id == cloth["C"]


def test_a_fabric_of_somebody_else_is_no_choice(client: Client, program: Program) -> None:
    other = Fabric.objects.create(
        collection=Collection.objects.create(owner=olga(), name="Hers"),
        number="1",
        name="Hers",
        colour="#112233",
    )
    harbour = program.quilt.colorways.get(slug="harbour")
    cloth = {row.letter.letter: row.fabric_id for row in harbour.fabrics.select_related("letter")}
    data = {f"letter_{letter}": pk for letter, pk in {**cloth, "D": other.pk}.items()}
    answer = client.post(f"{YEAR}fabrics/harbour/", data)
    assert "letter_D" in answer.context["form"].errors


def test_after_the_freeze_a_size_is_a_stop_that_says_what_it_breaks(
    client: Client, program: Program, nine_patch: PlacedBlock
) -> None:
    freeze_fabric(program, by=dora(), now=NOW)
    answer = change_block(client, nine_patch, own_size="4", frame_letter="D")
    page = answer.content.decode()
    assert "This change would break" in page
    assert {row["number"] for row in answer.context["form"].breaks} >= {"2"}
    assert answer.context["form"]["own_size"].value() == "4"
    nine_patch.refresh_from_db()
    assert nine_patch.own_size is None


def test_after_the_freeze_fabric_and_setting_stop_too(client: Client, program: Program) -> None:
    freeze_fabric(program, by=dora(), now=NOW)
    assert client.post(f"{YEAR}quilt/", quilt_data(client, border_width="4")).context["form"].breaks
    program.quilt.refresh_from_db()
    assert program.quilt.border_width == 3


def test_after_the_freeze_words_pass(client: Client, program: Program) -> None:
    freeze_fabric(program, by=dora(), now=NOW)
    data = {"title": "Second Light", "story": "It dawns.", "tips": ""}
    client.post(f"{YEAR}1/words/", data)
    assert program.installments.get(number=1).title == "Second Light"


def test_a_repeated_block_and_plain_squares_are_chosen_and_taken_back(
    client: Client, program: Program
) -> None:
    block = program.quilt.placed_blocks.get(column=2).block
    asked = quilt_data(client, border_width="6", border_block=block.pk, rows="2", plain_letter="F")
    page = client.post(f"{YEAR}quilt/", {**asked, "border_letter": "D"}, follow=True)
    program.quilt.refresh_from_db()
    assert (program.quilt.border_block, program.quilt.rows) == (block, 2)
    text = page.content.decode()
    assert "Coping strips" in text
    client.post(f"{YEAR}take-back/", {"token": page.context["done"]["token"]}, follow=True)
    program.quilt.refresh_from_db()
    assert (program.quilt.border_block, program.quilt.rows, program.quilt.plain_letter) == (None, 1, "")


def test_a_quilt_smaller_than_its_blocks_is_refused_by_the_field(client: Client, program: Program) -> None:
    page = client.post(f"{YEAR}quilt/", quilt_data(client, columns="2"))
    assert "lies in row 1, column 3" in page.context["form"].errors["columns"][0]


def test_borders_binding_and_sleeve_are_chosen_and_taken_back(client: Client, program: Program) -> None:
    page = client.post(
        f"{YEAR}quilt/",
        quilt_data(
            client,
            second_border_width="1",
            second_border_letter="B",
            second_border_corners="corner squares",
            second_border_corner_letter="C",
            binding_cut="bias",
            sleeve_letter="F",
        ),
        follow=True,
    )
    program.quilt.refresh_from_db()
    assert (program.quilt.second_border_width, program.quilt.binding_cut) == (1, "bias")
    assert "The quilt is 30" in page.content.decode()  # 28 + 2 x 1
    client.post(f"{YEAR}take-back/", {"token": page.context["done"]["token"]}, follow=True)
    program.quilt.refresh_from_db()
    assert (program.quilt.second_border_width, program.quilt.binding_cut) == (0, "straight")
    assert program.quilt.second_border_corners == "butted"


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"second_border_width": "1"}, "second_border_letter", "Name the fabric letter"),
        ({"border_corners": "corner squares"}, "border_corner_letter", "Name the fabric letter"),
        ({"setting": "on point"}, "triangle_letter", "Name the fabric letter"),
        ({"third_border_width": "-1"}, "third_border_width", "for example 2 1/2"),
        ({"binding_cut": "crosswise"}, "binding_cut", "not one of the available choices"),
    ],
)
def test_a_setting_that_does_not_come_out_names_the_field(
    client: Client, *, changed: dict[str, str], field: str, words: str
) -> None:
    form = client.post(f"{YEAR}quilt/", quilt_data(client, **changed)).context["form"]
    assert words in str(form.errors[field])


def test_a_size_beside_the_marks_of_a_ruler_is_said_beside_its_field(
    client: Client, program: Program, nine_patch: PlacedBlock
) -> None:
    assert client.get(f"{YEAR}blocks/{nine_patch.pk}/").context["size_notes"] == ()
    page = change_block(client, nine_patch, own_size="4", frame_letter="D")
    (note,) = page.context["size_notes"]
    assert note.startswith("Its parts are 1 1/3 in, beside the marks of a ruler.")
    assert note.endswith("Nearest sizes that lie on them: 3 3/4 in or 4 1/8 in.")
    assert "beside the marks of a ruler" in page.content.decode()


def test_the_page_shows_the_quilt_and_the_mattress_under_it(client: Client) -> None:
    page = client.get(f"{YEAR}quilt/")
    assert (page.context["bed"], "mattress" in page.content.decode()) == (None, False)
    assert page.content.decode().count("<figure") == 1
    wide = client.post(f"{YEAR}quilt/", quilt_data(client, border_width="20"), follow=True)
    assert (wide.context["bed"].name, wide.context["bed"].drop) == ("crib", Fraction(19, 2))  # 46 in wide
    assert "On a crib mattress" in wide.content.decode()
