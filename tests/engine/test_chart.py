"""The chart: exact rows, published values, and the very numbers of the methods."""

from __future__ import annotations

import itertools
import tomllib
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patterns.engine import chart
from patterns.engine.chart import ChartCell, ChartRow, ChartTable, chart_sizes
from patterns.engine.measure import CENTIMETRE, Units, inches
from patterns.engine.methods import draft_unit, unit_key
from patterns.engine.parts import UnitKind
from patterns.engine.units.base import HouseStyle, Style
from tests.engine.unit_samples import METRIC

pytestmark = pytest.mark.slow

FIXTURES = Path(__file__).parents[2] / "fixtures"
VALUES: list[dict[str, Any]] = tomllib.loads((FIXTURES / "check_values/chart.toml").read_text("utf-8"))[
    "value"
]
DRAWN = {
    UnitKind.HALF_SQUARE: chart.half_square,
    UnitKind.QUARTER_SQUARE: chart.quarter_square,
    UnitKind.FLYING_GEESE: chart.flying_geese,
}
PROGRAMS = {Units.INCHES: Style(), Units.CENTIMETRES: METRIC}
Q, H, E = Fraction(1, 4), Fraction(1, 2), Fraction(1, 8)


def tables(units: Units) -> dict[UnitKind, ChartTable]:
    return {table.kind: table for table in chart.chart(PROGRAMS[units], chart_sizes(units))}


def row(kind: UnitKind, width: Fraction, units: Units = Units.INCHES) -> ChartRow:
    return next(each for each in tables(units)[kind].rows if each.finished[0] == width)


def cell(kind: UnitKind, width: Fraction, method: str, *, units: Units = Units.INCHES) -> ChartCell | None:
    columns = tables(units)[kind].columns
    place = next(i for i, methods in enumerate(columns) if method in [each.name for each in methods])
    return row(kind, width, units).cells[place]


def square(side: Fraction) -> tuple[Fraction, Fraction]:
    return side, side


def test_sizes_run_from_half_an_inch_to_a_foot_by_eighths() -> None:
    sizes = chart_sizes(Units.INCHES)
    assert (sizes[0], sizes[1], sizes[-1], len(sizes)) == (H, Fraction(5, 8), 12, 93)
    metric = [size / CENTIMETRE for size in chart_sizes(Units.CENTIMETRES)]
    assert (metric[0], metric[1], metric[-1], len(metric)) == (Fraction(3, 2), Fraction(7, 4), 30, 115)


def test_a_three_inch_half_square() -> None:
    found = row(UnitKind.HALF_SQUARE, Fraction(3))
    assert found.trim_to == square(3 + H)
    two = cell(UnitKind.HALF_SQUARE, Fraction(3), "two at a time")
    assert two is not None
    assert two.exact.cut == (square(3 + 7 * E),)
    assert two.oversized.cut == (square(Fraction(4)),)
    eight = cell(UnitKind.HALF_SQUARE, Fraction(3), "eight at a time")
    assert eight is not None
    assert eight.exact.cut == (square(7 + 3 * Q),)


def test_a_three_inch_quarter_square() -> None:
    triangles = cell(UnitKind.QUARTER_SQUARE, Fraction(3), "from triangles")
    assert triangles is not None
    assert (triangles.exact.cut, triangles.oversized.cut) == ((square(4 + Q),), (square(4 + H),))
    halves = cell(UnitKind.QUARTER_SQUARE, Fraction(3), "from two half-square triangles")
    assert halves is not None
    assert halves.exact.on_the_way == square(3 + 7 * E)
    assert halves.exact.cut == (square(4 + Q),)  # 3 3/8 finished + 7/8


def test_geese_are_half_as_high_and_flip_only_where_the_pieces_lie_on_the_step() -> None:
    on, off = row(UnitKind.FLYING_GEESE, Fraction(4)), row(UnitKind.FLYING_GEESE, 4 + E)
    assert (on.finished, on.trim_to, on.on_step) == ((4, 2), (4 + H, 2 + H), True)
    assert (off.finished[1], off.on_step) == (2 + E / 2, False)
    assert cell(UnitKind.FLYING_GEESE, 4 + E, "corners flipped") is None
    flipped = cell(UnitKind.FLYING_GEESE, Fraction(4), "corners flipped")
    assert flipped is not None
    assert flipped.exact.cut == ((4 + H, 2 + H), square(2 + H))
    assert flipped.exact == flipped.oversized


def test_a_batch_leaves_nothing_over() -> None:
    methods = {
        each.name: each for methods in tables(Units.INCHES)[UnitKind.FLYING_GEESE].columns for each in methods
    }
    four = methods["four at a time"]
    assert (four.makes, [(p.fabric, p.count) for p in four.pieces]) == (4, [("A", 1), ("B", 4)])
    single = methods["one at a time from triangles"]
    assert [piece.then for piece in single.pieces] == ["cut twice diagonally", "cut once diagonally"]


def test_a_ten_centimetre_half_square() -> None:
    """12.56 cm, rounded up to the quarter; 10 + 2.5 cm, a short rule of the trade, would be too small."""
    ten = 10 * CENTIMETRE
    two = cell(UnitKind.HALF_SQUARE, ten, "two at a time", units=Units.CENTIMETRES)
    assert two is not None
    assert two.exact.cut == (square(Fraction(51, 4) * CENTIMETRE),)
    assert row(UnitKind.HALF_SQUARE, ten, Units.CENTIMETRES).trim_to == square(Fraction(23, 2) * CENTIMETRE)


@pytest.mark.parametrize("value", VALUES, ids=[value["id"] for value in VALUES])
def test_a_published_number_is_met(value: dict[str, Any]) -> None:
    assert value["title"]
    assert value["publisher"]
    found = cell(UnitKind(value["unit"]), inches(value["finished"]), value["method"])
    assert found is not None
    assert found.exact.cut[value["piece"]] == tuple(inches(side) for side in value["expected"])


@pytest.mark.parametrize("units", [Units.INCHES, Units.CENTIMETRES])
@pytest.mark.parametrize("kind", list(DRAWN))
def test_a_larger_unit_is_cut_larger(units: Units, kind: UnitKind) -> None:
    table = tables(units)[kind]
    for place in range(len(table.columns)):
        cells = [each for row in table.rows if (each := row.cells[place])]
        for small, large in itertools.pairwise(cells):
            for before, after in ((small.exact, large.exact), (small.oversized, large.oversized)):
                sides = zip(sum(before.cut, ()), sum(after.cut, ()), strict=True)
                # the height of a goose grows by half a step only: its wings stand still now and then
                assert all(a <= b for a, b in sides)
                assert before.cut[0][0] < after.cut[0][0]
        assert all(o >= e for cell in cells for o, e in zip(cell.oversized.cut, cell.exact.cut, strict=True))


@pytest.mark.parametrize("units", [Units.INCHES, Units.CENTIMETRES])
@pytest.mark.parametrize("kind", list(DRAWN))
def test_it_says_what_recipes_cut(units: Units, kind: UnitKind) -> None:
    """Ask for the recipe's own draft, each proved by virtual sewing, at the ends and in between."""
    table, style = tables(units)[kind], PROGRAMS[units]
    for found in (*table.rows[:2], table.rows[37], table.rows[-1]):
        unit = DRAWN[kind](found.finished[0])
        for methods, made in zip(table.columns, found.cells, strict=True):
            for method in methods if made else ():
                asked = replace(style, house=HouseStyle.EXACT, overrides={unit_key(unit): method.name})
                needs = draft_unit(unit, 1, asked)[1].needs
                assert made is not None
                assert made.exact.cut == tuple(dict.fromkeys((need.width, need.length) for need in needs))


def test_a_second_call_is_the_same_object() -> None:
    sizes = chart_sizes(Units.INCHES)
    styled = Style(house=HouseStyle.OVERSIZED, dark={"A": 3}, usable_width=Fraction(42))
    assert chart.chart(styled, sizes) is chart.chart(Style(), sizes)
