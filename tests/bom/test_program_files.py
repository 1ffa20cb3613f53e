"""The program file: nothing is lost, nothing unknown is taken, and a refusal writes nothing."""

from __future__ import annotations

import copy
import json
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest

from bom.domain.planning import move_installment, schedule_by_rule
from bom.domain.program_files import export_program, import_program, with_first_day
from bom.errors import BadProgramFile
from bom.models import AuditEntry, Program
from patterns.engine.measure import centimetres
from patterns.models import Block, Collection, Fabric, PlacedBlock, Quilt, User
from tests.cast import dora, olga
from tests.factories import make_program, nine_patch

NOW = datetime(2027, 1, 1, 12, tzinfo=UTC)
PROGRAMS = Path(__file__).parents[2] / "fixtures" / "programs"
pytestmark = pytest.mark.django_db


def small_file() -> dict[str, Any]:
    """Write the small program, dated and with one move, through JSON."""
    program = make_program(title="Small Tide ½", lead="Two\nlines", studio="Dora's room")
    schedule_by_rule(program, by=None, now=NOW)
    move_installment(program.installments.get(number=2), day=date(2027, 2, 27), by=None, now=NOW)
    PlacedBlock.objects.filter(column=1).update(
        turn=1, own_size="4 1/2", frame_letter="D", methods={"u1": "four at a time"}
    )
    return json.loads(json.dumps(export_program(program)))


def read(data: dict[str, Any], designer: User | None = None) -> Program:
    return import_program(data, designer=designer or olga(), now=NOW)


def test_what_is_exported_is_imported_as_an_equal_program() -> None:
    data = small_file()
    program = read({**data, "slug": "again"})
    assert export_program(program) == {**data, "slug": "again"}
    assert program.state == "draft"
    assert program.designer == olga()
    assert AuditEntry.objects.get(verb="imported").subject == "program:again"


def test_borders_rows_bias_and_sleeve_survive() -> None:
    chosen: dict[str, Any] = {
        "setting": "rows",
        "fill_letter": "F",
        "border_corners": "corner squares",
        "border_corner_letter": "C",
        "second_border_width": "1 1/2",
        "second_border_letter": "B",
        "third_border_width": "2",
        "third_border_letter": "D",
        "third_border_corners": "mitred",
        "binding_cut": "bias",
        "sleeve_letter": "F",
    }
    data = small_file()
    data = {**data, "slug": "again", "quilt": {**data["quilt"], **chosen}}
    again = export_program(read(data))
    assert again == data
    assert {name: again["quilt"][name] for name in chosen} == chosen


def test_plain_squares_and_pieced_borders_survive() -> None:
    data = small_file()
    block = data["quilt"]["placed"][2]["block"]
    chosen = {"plain_letter": "F", "second_border_width": "2", "second_border_block": block}
    data = {**data, "slug": "again", "quilt": {**data["quilt"], **chosen}}
    again = export_program(read(data))
    assert again == data


def test_a_pieced_border_names_a_block_that_is_not_in_the_file() -> None:
    data = small_file()
    quilt = {**data["quilt"], "border_block": "no-such-block"}
    with pytest.raises(BadProgramFile) as caught:
        read({**data, "slug": "again", "quilt": quilt})
    assert caught.value.field == "quilt.border_block"


def test_a_file_from_before_borders_were_several_is_read_as_it_was() -> None:
    data = small_file()
    new = ("corners", "corner_letter", "second_border", "third_border", "binding_cut", "sleeve", "fill")
    old = {name: value for name, value in data["quilt"].items() if not any(word in name for word in new)}
    assert len(old) < len(data["quilt"])
    assert export_program(read({**data, "slug": "again", "quilt": old})) == {**data, "slug": "again"}


def test_lengths_arrive_exactly() -> None:
    program = read({**small_file(), "slug": "again"})
    assert program.quilt.placed_blocks.get(column=1).size == 9 / 2
    assert str(program.cutting_step) == "1/8"


@pytest.mark.parametrize("name", ["demo", "on_point_cm"])
def test_a_file_written_by_hand_survives_twice(name: str) -> None:
    """Import, export, import into another designer's hands, export: one text."""
    data = json.loads((PROGRAMS / f"{name}.json").read_text(encoding="utf-8"))
    first = export_program(read(data, dora()))
    Program.objects.update(slug="first")
    assert export_program(read(first, olga())) == first


def test_the_demo_is_marked_as_invented_and_moves_one_day() -> None:
    program = read(json.loads((PROGRAMS / "demo.json").read_text(encoding="utf-8")))
    installments = list(program.installments.all())
    assert (program.slug, program.invented, program.title) == ("demo", True, "Twelve Landings")
    assert [len(each.parts.all()) for each in installments] == [1, 2, 2, 1, 1, 0, 1, 1, 2, 1, 1, 3]
    assert [each.number for each in installments if each.by_exception] == [7]
    assert installments[6].wall_day == date(2027, 7, 24)
    assert program.quilt.colorways.count() == 3


def test_a_program_in_centimetres_is_exact() -> None:
    program = read(json.loads((PROGRAMS / "on_point_cm.json").read_text(encoding="utf-8")))
    assert program.centimetres
    assert program.seam == centimetres("0.75")
    assert program.quilt.block_size == centimetres(24)
    assert export_program(program)["settings"]["seam"] == "0.75 cm"
    assert program.quilt.colorways.count() == 1
    assert program.installments.count() == 8
    assert program.installments.get(number=6).carried == {"A": 4}  # as the file says


def test_equal_blocks_and_fabrics_are_kept_once() -> None:
    data = small_file()
    read({**data, "slug": "again"})
    counts = Block.objects.count(), Fabric.objects.count(), Collection.objects.count()
    read({**data, "slug": "third"})
    assert (Block.objects.count(), Fabric.objects.count(), Collection.objects.count()) == counts


def test_a_traditional_block_is_shared_and_one_that_differs_becomes_ones_own() -> None:
    data = {**small_file(), "slug": "again"}
    drawing = nine_patch()
    for block in data["blocks"]:
        block["key"] = block["key"].removeprefix("own/")
    for placed in data["quilt"]["placed"]:
        placed["block"] = placed["block"].removeprefix("own/")
    traditional = Block.objects.create(slug="ohio-star", name="Ohio Star", drawing=drawing)
    program = read(data)
    owners = {placed.block.slug: placed.block.owner for placed in program.quilt.placed_blocks.all()}
    assert owners == {"ohio-star": olga(), "sawtooth-star": None, "nine-patch": None}
    traditional.refresh_from_db()
    assert traditional.drawing == drawing


def test_a_year_may_begin_at_another_day_and_moved_days_keep_their_distance() -> None:
    data = with_first_day({**small_file(), "slug": "again"}, date(2028, 1, 1))
    found = [str(each.wall_day) for each in read(data).installments.all()]
    assert found == ["2028-01-15", "2028-02-26", "2028-03-18", "2028-04-15", "2028-05-20"]


REFUSED: list[tuple[str, Any, str]] = [
    ("format", 2, "from 1 to 1"),
    ("slug", "small", "already"),
    ("slug", "not a slug", "slug"),
    ("title", " ", "text"),
    ("title", None, "missing"),
    ("zone", "Halifax", "America/Halifax"),
    ("studioo", "x", "Known are"),
    ("settings.seam", 0.25, "2 1/2"),
    ("settings.seam", "0", "more than 0"),
    ("settings.seam", "0.75 mm", "30 cm"),
    ("settings.cutting_step", "-1/8", "30 cm"),
    ("settings.house_style", "loose", "oversized"),
    ("settings.centimetres", "yes", "true or false"),
    ("settings.sseam", "1/4", "Known are"),
    ("calendar.rule", "FREQ=MONTHLY;BYMONTHDAY=31", "BYMONTHDAY=-1"),
    ("calendar.first_day", "1 May", "2027-01-16"),
    ("calendar.release_time", "10 o'clock", "10:00"),
    ("calendar", [], "object"),
    ("blocks[0].drawing.patches[0].points", [[0, 0], [1, 0], [0, 1]], "cannot be read"),
    ("blocks[0].drawing", "a star", "block drawing"),
    ("blocks[1].key", "own/nine-patch", "another key"),
    ("quilt.rows", "4", "whole number"),
    ("quilt.rows", True, "whole number"),
    ("quilt.block_size", "0", "more than 0"),
    ("quilt.setting", "round", "on point"),
    ("quilt.border_letter", "Q", "no letter Q"),
    ("quilt.second_border_letter", "Q", "no letter Q"),
    ("quilt.border_corners", "round", "mitred"),
    ("quilt.binding_cut", "crosswise", "bias"),
    ("quilt.letters[1].letter", "A", "twice"),
    ("quilt.letters", [], "one fabric letter"),
    ("quilt.placed[0].block", "own/nothing", "Add it under blocks"),
    ("quilt.placed[0].place", [0], "[row, column]"),
    ("quilt.placed[1].place", [0, 0], "Two blocks"),
    ("quilt.placed[0].place", [0, 3], "rows"),
    ("quilt.placed[0].turn", 4, "from 0 to 3"),
    ("quilt.placed[0].letters", {"A": "A", "B": "B"}, "Letter C"),
    ("quilt.placed[0].letters.A", "Q", "no letter Q"),
    ("quilt.placed[0].own_size", "7", "at most"),
    ("collections[0].fabrics[1].number", "TW-1", "apart"),
    ("collections[0].fabrics[0].colour", "blue", "#1F3A54"),
    ("collections[0].fabrics[0].value", 11, "from 1 to 10"),
    ("collections[0].fabrics[0].usable_width", "50", "usable width"),
    ("colorways", [], "one colorway"),
    ("colorways[1].slug", "harbour", "Rename"),
    ("colorways[0].fabrics.A", ["Tidewater", "TW-99"], "under collections"),
    ("colorways[0].fabrics.A", None, "missing"),
    ("colorways[0].fabrics.Z", ["Tidewater", "TW-1"], "Known are"),
    ("installments", [], "one installment"),
    ("installments[1].number", 3, "should be 2"),
    ("installments[1].parts[0]", [0, 0], "two places"),
    ("installments[1].parts[0]", [5, 5], "quilt.placed"),
    ("installments[3].parts[0]", "lace", "sashing"),
    ("installments[0].day", "soon", "2027-01-16"),
]


def changed(data: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    """Give a copy of the file with one entry changed."""
    data = copy.deepcopy(data)
    steps = [
        int(step) if step.isdecimal() else step for step in path.replace("[", ".").replace("]", "").split(".")
    ]
    place: Any = data
    for step in steps[:-1]:
        place = place[step]
    place[steps[-1]] = value
    return data


@pytest.mark.parametrize(("path", "value", "remedy"), REFUSED)
def test_a_bad_entry_is_named_with_its_remedy_and_nothing_is_written(
    path: str, value: Any, remedy: str
) -> None:
    data = {**small_file(), "slug": "again"}
    olga()
    counts = [model.objects.count() for model in (Program, Quilt, Block, Fabric, Collection, AuditEntry)]
    with pytest.raises(BadProgramFile) as caught:
        read(changed(data, path, value))
    named = path.split(".drawing.")[0]
    assert caught.value.field.startswith(named)
    assert remedy in caught.value.remedy
    assert counts == [
        model.objects.count() for model in (Program, Quilt, Block, Fabric, Collection, AuditEntry)
    ]


@pytest.mark.parametrize("data", [None, [], "a program", 3])
def test_what_is_no_object_at_all_is_refused(data: Any) -> None:
    with pytest.raises(BadProgramFile, match="named entries"):
        read(data)
