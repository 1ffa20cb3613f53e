"""Backing, batting, binding, border and sashing; published numbers with their sources in finishing.toml."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine import beds, finishing, hanging
from patterns.engine.borders import Border
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.layout import PlacedDrawing
from patterns.engine.measure import CENTIMETRE, YARD, inches, up_to_eighth_yard
from patterns.engine.methods import Style
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_straight import straight_set
from patterns.engine.surds import root
from patterns.engine.yardage import Allowances
from tests.engine.drawings import traditional

FIXTURES = Path(__file__).parents[2] / "fixtures"
Row = dict[str, Any]
VALUES: list[Row] = tomllib.loads((FIXTURES / "check_values/finishing.toml").read_text("utf-8"))["value"]
MILLIONTH = Fraction(1, 1_000_000)
lengths = st.fractions(min_value=10, max_value=120, max_denominator=8)
strips = st.fractions(min_value=1, max_value=4, max_denominator=8)


def bound(row: Row) -> finishing.Binding:
    return finishing.binding(
        inches(row["width"]),
        inches(row["height"]),
        strip=inches(row["strip"]),
        usable_width=inches(row["usable_width"]),
        tail=inches(row["extra"]),
    )


def backed(row: Row) -> finishing.Backing:
    keys = ("overage", "seam", "usable_width")
    return finishing.backing(
        inches(row["width"]), inches(row["height"]), **{key: inches(row[key]) for key in keys}
    )


def binding_strip(row: Row) -> None:
    cut = finishing.binding_strip(inches(row["finished"]), seam=inches(row["seam"]))
    assert cut == inches(row["expected"])


def plain_strips(row: Row) -> None:
    length = 2 * (inches(row["width"]) + inches(row["height"])) + inches(row["extra"])
    count = finishing.strips_end_to_end(length, usable_width=inches(row["usable_width"]))
    assert count == row["expected"]


def binding_strips(row: Row) -> None:
    planned = bound(row)
    assert planned.strips == row["expected"]
    if "suggested" in row:
        assert Allowances().suggested(planned.fabric_length) == inches(row["suggested"]) * YARD


def binding_yards(row: Row) -> None:
    assert up_to_eighth_yard(bound(row).fabric_length) == inches(row["expected"]) * YARD


def bias_square(row: Row) -> None:
    square = finishing.bias_square(inches(row["length"]), strip=inches(row["strip"]))
    assert square == inches(row["expected"])


def mitred_border(row: Row) -> None:
    length = finishing.mitred_border_length(inches(row["side"]), border=inches(row["border"]))
    assert length == inches(row["expected"])


def bordered(row: Row) -> finishing.Strips:
    return finishing.border_strips(
        inches(row["width"]),
        inches(row["height"]),
        border=inches(row["border"]),
        seam=Fraction(1, 4),
        usable_width=inches(row["usable_width"]),
    )


def border_yards(row: Row) -> None:
    assert up_to_eighth_yard(bordered(row).fabric_length) == inches(row["expected"]) * YARD


def border_length(row: Row) -> None:
    """Sew a butted border to a top of that size: the size it gives, and its four strips with their seams."""
    centre = traditional("four-patch").at_size(inches(row["width"]), inches(row["height"]))
    border = Border(width=inches(row["border"]), fabric="H")
    top = straight_set([[PlacedDrawing(block=centre)]], border=[border])
    assert top.border is not None
    made = write_recipe(top.border, name="border", style=Style(), finished=(top.width, top.height))
    assert [top.width, top.height] == [inches(side) for side in row["size"]]
    assert sum(piece.count * max(piece.width, piece.length) for piece in made.pieces) == inches(
        row["expected"]
    )


def border_strips(row: Row) -> None:
    planned = bordered(row)
    assert planned.count == row["expected"]
    assert planned.fabric_length == row["expected"] * Fraction(13, 2)


def sashing(row: Row) -> None:
    counts = finishing.sashing_counts(row["rows"], row["columns"], outside=row["outside"])
    assert (counts.strips, counts.cornerstones) == (row["expected"], row["cornerstones"])


def backing_yards(row: Row) -> None:
    length = backed(row).best.fabric_length
    assert up_to_eighth_yard(length) == inches(row["expected"]) * YARD
    if "suggested" in row:
        assert Allowances().suggested(length) == inches(row["suggested"]) * YARD


def mattress(row: Row) -> None:
    width, length = inches(row["width"]), inches(row["height"])
    for size in ((width, length), (length, width)):
        found = beds.bed_under(*size)
        assert found
        assert (found.name, found.width, found.length, found.drop) == (row["expected"], width, length, 0)
    smaller = beds.bed_under(width - Fraction(1, 8), length)
    assert smaller is None or smaller.width < width


def packaged_batting(row: Row) -> None:
    """Offer it by name for a top of its own size, and no longer for one that is larger."""
    width, height = inches(row["width"]), inches(row["height"])
    assert hanging.packaged_batting(width, height) == row["expected"]
    assert hanging.packaged_batting(height, width) == row["expected"]
    assert hanging.packaged_batting(width + 1, height) != row["expected"]


def between(row: Row) -> None:
    assert finishing.on_point_counts(row["rows"], row["columns"]).between == row["expected"]


def on_point_width(row: Row) -> None:
    width, _ = finishing.on_point_size(row["rows"], row["columns"], block=inches(row["block"]))
    assert abs(width - inches(row["expected"])) < MILLIONTH


CHECKS = {
    check.__name__.replace("_", " "): check
    for check in (
        binding_strip,
        plain_strips,
        binding_strips,
        binding_yards,
        bias_square,
        mitred_border,
        border_strips,
        border_yards,
        border_length,
        sashing,
        backing_yards,
        packaged_batting,
        mattress,
        between,
        on_point_width,
    )
}


@pytest.mark.parametrize("row", VALUES, ids=lambda row: row["id"])
def test_a_published_value_comes_out(row: Row) -> None:
    assert row["title"]
    assert row["publisher"]
    CHECKS[row["kind"]](row)


def test_binding_counts_what_the_joins_take() -> None:
    """Case 26, 50 x 60: six strips of 40 in give 227 1/2 in, one short of 230."""
    planned = finishing.binding(Fraction(50), Fraction(60), strip=inches("2 1/2"), usable_width=Fraction(40))
    assert (planned.strips, planned.length, planned.joined) == (7, 230, 265)
    assert planned.fabric_length == inches("17 1/2")


@pytest.mark.parametrize(("strip", "fabric"), [("1 1/4", "8 3/4"), ("1 1/2", "10 1/2")])
def test_running_length_and_fabric_are_two_numbers(strip: str, fabric: str) -> None:
    """Case 28, 54 x 60: 238 in of binding; seven strips of each colour are 8 3/4 and 10 1/2 in."""
    planned = finishing.binding(Fraction(54), Fraction(60), strip=inches(strip), usable_width=Fraction(40))
    assert (planned.length, planned.strips) == (238, 7)
    assert planned.fabric_length == inches(fabric)


def test_both_ways_to_piece_a_back_are_told() -> None:
    """Case 21, 80 x 56 at 40 in: two panels reach 79 in, so seams from side to side want three."""
    planned = finishing.backing(
        Fraction(80), Fraction(56), overage=Fraction(0), seam=inches("1/2"), usable_width=Fraction(40)
    )
    assert [(way.along, way.panels, way.fabric_length) for way in planned.ways] == [
        ("height", 3, 168),
        ("width", 2, 160),
    ]
    assert planned.best.along == "width"


def test_a_wide_back_needs_no_seam() -> None:
    planned = finishing.backing(
        Fraction(54), Fraction(68), overage=Fraction(4), seam=inches("1/2"), usable_width=Fraction(106)
    )
    assert (planned.width, planned.height) == (62, 76)
    assert (planned.best.panels, planned.best.fabric_length) == (1, 62)


def test_batting_is_the_top_and_the_overage() -> None:
    assert finishing.batting(Fraction(54), Fraction(68), overage=Fraction(4)) == (62, 76)


def test_a_quilt_of_centimetres_is_bound_in_centimetres() -> None:
    """150 x 200 cm, strips of 6 cm, 105 cm usable, tail 25 cm: 8 x 105 - 7 x 6 = 798 >= 725; 7 give 699."""
    planned = finishing.binding(
        150 * CENTIMETRE,
        200 * CENTIMETRE,
        strip=6 * CENTIMETRE,
        usable_width=105 * CENTIMETRE,
        tail=25 * CENTIMETRE,
    )
    assert (planned.strips, planned.length, planned.joined) == (8, 725 * CENTIMETRE, 798 * CENTIMETRE)


def test_a_quilt_on_point_is_bound_exactly() -> None:
    side = 24 * root(2)
    planned = finishing.binding(side, side, strip=inches("2 1/2"), usable_width=Fraction(40))
    assert planned.length == 96 * root(2) + 10
    assert planned.strips == 4  # 4 x 40 - 3 x 2 1/2 = 152 1/2 >= 145.8


@given(lengths, lengths, strips)
def test_binding_is_never_short_and_never_one_strip_too_many(
    width: Fraction, height: Fraction, strip: Fraction
) -> None:
    planned = finishing.binding(width, height, strip=strip, usable_width=Fraction(40))
    assert planned.joined >= planned.length
    assert planned.strips == 1 or planned.joined - (40 - strip) < planned.length


@given(lengths, lengths)
def test_panels_cover_the_back_with_none_to_spare(width: Fraction, height: Fraction) -> None:
    planned = finishing.backing(
        width, height, overage=Fraction(4), seam=inches("1/2"), usable_width=Fraction(42)
    )
    for way, across in zip(planned.ways, (planned.width, planned.height), strict=True):
        assert 42 * way.panels - (way.panels - 1) >= across
        assert way.panels == 1 or 42 * (way.panels - 1) - (way.panels - 2) < across


def test_a_join_that_takes_the_whole_strip_is_refused() -> None:
    with pytest.raises(PieceWiderThanFabric):
        finishing.binding(Fraction(9), Fraction(9), strip=Fraction(40), usable_width=Fraction(40))
