"""What two editions of a sheet say otherwise: exact, by fabric, and told in words."""

from __future__ import annotations

from copy import deepcopy
from fractions import Fraction
from typing import Any

import pytest

from bom.domain.edition_changes import edition_changes
from bom.domain.edition_types import ChangeKind
from bom.domain.edition_words import change_rows
from bom.domain.editions import sheet_data
from bom.models import Program
from patterns.engine.measure import Units
from patterns.models import Fabric
from tests.factories import make_program

pytestmark = pytest.mark.django_db
Data = dict[str, Any]
NAMES = {"harbour": "Harbour", "meadow": "Meadow"}


def data(program: Program, number: int = 1) -> dict[str, Any]:
    return sheet_data(program.installments.get(number=number))


def told(
    before: dict[str, Any], after: dict[str, Any], units: Units = Units.INCHES
) -> dict[str, tuple[str, ...]]:
    rows = change_rows(edition_changes(before, after), colorways=NAMES, units=units)
    return {row.heading: tuple(line.replace("\u00a0", " ") for line in row.lines) for row in rows}


def test_equal_data_has_no_change() -> None:
    before = data(make_program())
    assert edition_changes(before, deepcopy(before)) == ()
    assert told(before, before) == {}


def test_words_and_days_are_named() -> None:
    program = make_program()
    before = data(program)
    program.installments.filter(number=1).update(title="Last Light", tips="Pin it.", wall_day="2027-01-16")
    assert told(before, data(program)) == {
        "Words": (
            "title: Last Light (it was First Light)",
            "opens: Saturday 16 January 2027 (it was no day)",
            "tips: changed",
        )
    }


def test_a_larger_block_tells_its_cut_sizes_units_packets_and_strips() -> None:
    """Ohio Star at 6 and 9 in: thirds of 2 and 3 in, squares cut 2 1/2 and 3 1/2 in."""
    program = make_program()
    before = data(program, 1)
    program.quilt.placed_blocks.filter(column=0).update(own_size=None)
    program.quilt.block_size = "9"
    program.quilt.save()
    found = edition_changes(before, data(program, 1))
    squares = next(each for each in found if each.kind == ChangeKind.CUT and each.letters == ("C",))
    size, new = Fraction(5, 2), Fraction(7, 2)
    assert squares.before and squares.before.facts == {"count": 1, "size": (size, size)}
    assert squares.after and squares.after.facts == {"count": 1, "size": (new, new)}
    words = told(before, data(program, 1))
    assert "C: 1 of 3 1/2 × 3 1/2 in (it was 1 of 2 1/2 × 2 1/2 in)" in words["Cut sizes"]
    assert any("trim to 3 1/2 × 3 1/2 in" in line for line in words["Units"])
    assert any(line.startswith("C, Tidewater accent: 1 of 3 1/2 in") for line in words["Strips"])
    assert {"Cut sizes", "Units", "Steps", "Strips", "Packets"} <= {*words}


def test_centimetres_show_the_same_change_in_the_readers_units() -> None:
    program = make_program()
    before = data(program, 1)
    program.quilt.block_size = "9"
    program.quilt.save()
    words = told(before, data(program, 1), Units.CENTIMETRES)
    assert "C: 1 of 8.9 × 8.9 cm (it was 1 of 6.4 × 6.4 cm)" in words["Cut sizes"]


def changed(before: dict[str, Any]) -> dict[str, Any]:
    return deepcopy(before)


def test_a_count_that_changed_keeps_its_size() -> None:
    before = data(make_program())
    after = changed(before)
    piece = next(each for each in after["parts"][0]["recipe"]["pieces"] if each["fabric"] == "C")
    piece["count"] = 2
    assert told(before, after) == {"Cut sizes": ("C: 2 of 2 1/2 × 2 1/2 in (it was 1 of 2 1/2 × 2 1/2 in)",)}


def test_a_step_is_named_by_its_number_through_the_sheet() -> None:
    """The second block's first step comes after all of the first block's."""
    before = data(make_program(), 2)
    after = changed(before)
    first = len(before["parts"][0]["words"])
    after["parts"][1]["words"][0].append(["Press open.", {}])
    [change] = edition_changes(before, after)
    assert change.kind == ChangeKind.STEP
    assert change.name.facts == {"number": first + 1}
    assert told(before, after) == {"Steps": (f"step {first + 1}: changed",)}


def test_a_new_step_and_one_that_went_are_told_with_their_titles() -> None:
    before = data(make_program())
    after = changed(before)
    step = deepcopy(after["parts"][0]["recipe"]["steps"][0]) | {"check": None}
    after["parts"][0]["recipe"]["steps"].insert(0, step)
    after["parts"][0]["words"].insert(0, [["Straighten the fabric", {}]])
    assert told(before, after) == {"Steps": ("step 1: Straighten the fabric, which is new",)}
    assert told(after, before) == {"Steps": ("step 1: no longer Straighten the fabric",)}


def test_another_cloth_in_one_colorway_is_told_for_that_one_alone() -> None:
    program = make_program()
    before = data(program)
    meadow = program.quilt.colorways.get(slug="meadow")
    row = meadow.fabrics.get(letter__letter="B")
    row.fabric = Fabric.objects.get(name="Tidewater frame")
    row.save()
    assert told(before, data(program)) == {
        "Fabrics": ("Meadow. B, Tidewater frame: Tidewater frame, for B (it was Tidewater star, for B)",)
    }


def test_a_step_of_sale_changes_packets_and_nothing_else() -> None:
    program = make_program()
    before = data(program)
    program.sold_by = Fraction(9)
    program.save()
    words = told(before, data(program))
    assert {*words} == {"Packets"}
    assert all("1/4 yd, 9 in" in line for line in words["Packets"])


@pytest.mark.parametrize("name", ["program", "studio", "of"])
def test_what_has_no_line_of_its_own_is_small_print(name: str) -> None:
    before = data(make_program())
    assert told(before, changed(before) | {name: "other"}) == {"Other": ("small print: changed",)}


def test_parts_that_came_or_went_are_told() -> None:
    before = data(make_program(), 2)
    after = changed(before)
    gone = after["parts"].pop()
    assert told(before, after)["Parts"] == (f"{gone['title']}: no longer {gone['title']}",)
    assert told(after, before)["Parts"] == (gone["title"],)


def test_finishing_that_changed_is_told() -> None:
    program = make_program()
    before = data(program, 5)
    program.quilt.backing_overage = "5"
    program.quilt.save()
    assert "Finishing" in told(before, data(program, 5))


def _leaves(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = [leaf for key, each in items for leaf in _leaves(each, (*path, key))]
    return found or [path]


def test_whatever_differs_there_is_a_change() -> None:
    before = data(make_program())
    paths = [path for path in _leaves(before) if isinstance(_at(before, path), str)]
    assert len(paths) > 100
    for path in paths:
        after = deepcopy(before)
        _at(after, path[:-1])[path[-1]] = "7/64" if _is_number(_at(before, path)) else "other"
        assert edition_changes(before, after), path


def _is_number(text: str) -> bool:
    return bool(text) and not text.strip("0123456789/ ")


def _at(value: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        value = value[key]
    return value
