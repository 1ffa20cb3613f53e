"""The chart of a program: for every finished size, what half-squares, quarter-squares and geese are cut.

Every number is read off a method's own draft for a unit of that size, so that a chart and a recipe of one
program cannot differ.  Lengths are inches; cut and trim-to sizes include the seams, finished sizes do not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Any

from patterns.engine.measure import EIGHTH, QUARTER_CENTIMETRE, Units
from patterns.engine.methods import METHODS, fitting
from patterns.engine.parts import Hand, Patch, Unit, UnitKind
from patterns.engine.surds import parse_number
from patterns.engine.units.base import TWO, UNIT, Draft, HouseStyle, Job, Method, Style

Sides = tuple[Fraction, Fraction]
Points = tuple[tuple[int, int], ...]

FIRST, LAST = Fraction(1, 2), Fraction(12)
FIRST_METRIC, LAST_METRIC = 6 * QUARTER_CENTIMETRE, 120 * QUARTER_CENTIMETRE  # 1.5 and 30 cm
BATCHES = (1, 2, 4, 8)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartPiece:
    """Cut pieces that a method takes for a batch; of geese, fabric A is the goose and B the wings."""

    fabric: str
    count: int
    is_square: bool
    then: str  # "", "cut once diagonally", "cut twice diagonally"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartMethod:
    """A method, the smallest batch that leaves nothing over, and what that batch is cut from."""

    name: str
    makes: int
    pieces: tuple[ChartPiece, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """Sizes of one unit by one method: as cut, each distinct size once; half-squares trimmed on the way."""

    cut: tuple[Sides, ...]
    on_the_way: Sides | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartCell:
    """What a method cuts in either style."""

    exact: Made
    oversized: Made


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartRow:
    """One finished size; a cell for each column, None where its methods cannot make this size.

    `on_step` says whether the trim-to size lies on the cutting step.
    """

    finished: Sides
    trim_to: Sides
    on_step: bool
    cells: tuple[ChartCell | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartTable:
    """A kind of unit: a column for all methods that cut the same sizes, a row for each finished size."""

    kind: UnitKind
    columns: tuple[tuple[ChartMethod, ...], ...]
    rows: tuple[ChartRow, ...]


def chart_sizes(units: Units) -> tuple[Fraction, ...]:
    """Give the finished widths: 1/2 to 12 in by eighths, or 1.5 to 30 cm by quarter centimetres."""
    metric = units == Units.CENTIMETRES
    first, last, step = (FIRST_METRIC, LAST_METRIC, QUARTER_CENTIMETRE) if metric else (FIRST, LAST, EIGHTH)
    return tuple(first + i * step for i in range(int((last - first) / step) + 1))


def chart(style: Style, sizes: tuple[Fraction, ...]) -> tuple[ChartTable, ...]:
    """Write the tables for finished widths; of the style seam, step and oversize amounts count."""
    plain = Style(
        seam=style.seam,
        step=style.step,
        half_square_over=style.half_square_over,
        quarter_square_over=style.quarter_square_over,
    )
    return _tables(plain, sizes)


@lru_cache(maxsize=16)
def _tables(style: Style, sizes: tuple[Fraction, ...]) -> tuple[ChartTable, ...]:
    return tuple(_table(draw, style, sizes) for draw in (half_square, quarter_square, flying_geese))


def half_square(width: Fraction) -> Unit:
    """Draw a half-square triangle of two fabrics, finished `width`."""
    below, above = ((0, 0), (2, 2), (0, 2)), ((0, 0), (2, 0), (2, 2))
    return _unit(UnitKind.HALF_SQUARE, (width, width), {"A": (below,), "B": (above,)})


def quarter_square(width: Fraction) -> Unit:
    """Draw a quarter-square triangle of two fabrics, finished `width`."""
    top, right = ((0, 0), (2, 0), (1, 1)), ((2, 0), (2, 2), (1, 1))
    bottom, left = ((2, 2), (0, 2), (1, 1)), ((0, 2), (0, 0), (1, 1))
    unit = _unit(UnitKind.QUARTER_SQUARE, (width, width), {"A": (top, bottom), "B": (right, left)})
    first, third, second, fourth = unit.patches
    return replace(unit, fabrics=("A", "B", "A", "B"), patches=(first, second, third, fourth))


def flying_geese(width: Fraction) -> Unit:
    """Draw a flying goose of two fabrics, finished `width` and half as high."""
    goose, left, right = ((0, 2), (1, 0), (2, 2)), ((0, 0), (1, 0), (0, 2)), ((1, 0), (2, 0), (2, 2))
    return _unit(UnitKind.FLYING_GEESE, (width, width / TWO), {"A": (goose,), "B": (left, right)})


def _unit(kind: UnitKind, size: Sides, shapes: dict[str, tuple[Points, ...]]) -> Unit:
    """Draw a unit from shapes on a grid of two by two."""
    across, down = size[0] / TWO, size[1] / TWO
    patches = tuple(
        Patch(letter, tuple((across * x, down * y) for x, y in shape))
        for letter, drawn in shapes.items()
        for shape in drawn
    )
    return Unit(
        id="",
        kind=kind,
        width=size[0],
        height=size[1],
        fabrics=tuple(patch.fabric for patch in patches),
        hand=Hand.EITHER,
        patches=patches,
    )


def _table(draw: Callable[[Fraction], Unit], style: Style, sizes: tuple[Fraction, ...]) -> ChartTable:
    units = [draw(size) for size in sizes]
    kind = units[0].kind
    columns: dict[tuple[ChartCell | None, ...], list[ChartMethod]] = {}
    for method in (each for each in METHODS if each.kind is kind):
        cells = tuple(_cells(method, units, style))
        columns.setdefault(cells, []).append(_method(method, units, style))
    rows = zip(units, zip(*columns, strict=True), strict=True)
    return ChartTable(
        kind=kind,
        columns=tuple(tuple(methods) for methods in columns.values()),
        rows=tuple(_row(unit, style, cells) for unit, cells in rows),
    )


def _row(unit: Unit, style: Style, cells: tuple[ChartCell | None, ...]) -> ChartRow:
    job = Job(unit=unit, make=1, style=style)
    return ChartRow(
        finished=_sides(unit.width, unit.height),
        trim_to=_sides(*job.unfinished),
        on_step=job.on_step(*job.unfinished),
        cells=cells,
    )


def _cells(method: Method, units: list[Unit], style: Style) -> Iterator[ChartCell | None]:
    """Give a method's cells, size by size.

    Virtual sewing is asked once for each remainder of the width by two cutting steps: sizes of one
    remainder are cut larger than exact by the same amount on every side, and that amount decides.
    """
    styles = [replace(style, house=house) for house in (HouseStyle.EXACT, HouseStyle.OVERSIZED)]
    nudges: dict[Fraction, list[int]] = {}
    for unit in units:
        if not method.admits(Job(unit=unit, make=1, style=style)):
            yield None
            continue
        rest = _sides(unit.width, unit.height)[0] % (2 * style.step)
        if rest not in nudges:
            nudges[rest] = [fitting(method, unit, each) for each in styles]
        exact, oversized = (
            _made(method.draft(Job(unit=unit, make=1, style=each, nudge=nudge)))
            for each, nudge in zip(styles, nudges[rest], strict=True)
        )
        yield ChartCell(exact=exact, oversized=oversized)


def _made(draft: Draft) -> Made:
    cut = dict.fromkeys((need.width, need.length) for need in draft.needs)
    trims = [trim for operation in draft.operations for trim in _trims(operation["gives"])]
    return Made(cut=tuple(cut), on_the_way=_trimmed(trims[0]) if trims else None)


def _trims(gives: Any) -> Iterator[dict[str, str]]:
    """Give the trims on the way to the unit: some operations give one part by name, some several."""
    parts = gives if isinstance(gives, list) else [gives]
    named = (part for part in parts if isinstance(part, dict) and part["id"] != UNIT)
    return (part["trim"] for part in named if "trim" in part)


def _trimmed(trim: dict[str, str]) -> Sides:
    width, height, seam = (parse_number(trim[key]) for key in ("width", "height", "allowance"))
    return _sides(width + 2 * seam, height + 2 * seam)


def _method(method: Method, units: list[Unit], style: Style) -> ChartMethod:
    """Find the smallest batch that leaves the least over."""
    admitted = (unit for unit in units if method.admits(Job(unit=unit, make=1, style=style)))
    unit = next(admitted, units[0])
    drafts = {make: method.draft(Job(unit=unit, make=make, style=style)) for make in BATCHES}
    makes = min(BATCHES, key=lambda make: sum(spare.count for spare in drafts[make].spares))
    draft = drafts[makes]
    pieces = (
        ChartPiece(fabric=need.fabric, count=need.count, is_square=need.width == need.length, then=need.then)
        for need in draft.needs
    )
    return ChartMethod(name=method.name, makes=makes, pieces=tuple(pieces))


def _sides(width: object, height: object) -> Sides:
    """Take two lengths that are fractions, as all of a chart are."""
    if not (isinstance(width, Fraction) and isinstance(height, Fraction)):
        raise TypeError(f"a chart has no roots: {width!r} x {height!r}")
    return width, height
