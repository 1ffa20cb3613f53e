"""The seams inside each part of a sewing order, with the side that each would rather be pressed to.

Lengths are finished inches in the part's own frame.  Seams that are pressed by one word ("toward fabric B")
share one choice.  Outside of this: seams of a `Fitted` part, curves, foundations, and quarter-squares made
from two half-squares, whose long seam lies on either diagonal.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.methods import choose
from patterns.engine.parts import Part, Patch, Placed, Point, Rows, Unit, UnitKind
from patterns.engine.pressing import DOWN, LEFT, RIGHT, press_long, seam_wish
from patterns.engine.surds import Number, sign
from patterns.engine.units.base import Style
from patterns.engine.units.strips import Band, bands, canonical

ZERO = Fraction(0)
ACROSS, DOWNWARD = (Fraction(1), ZERO), (ZERO, Fraction(1))
SHOWS_THROUGH, STRIPS, BULK = 4, 2, 1  # how much a wish weighs: a dark seam shows through a light patch
IN_UNIT, IN_ROW, BETWEEN_ROWS = 0, 1, 2
FROM_STRIPS = "from strip sets"
OUTWARD = (
    UnitKind.FLYING_GEESE,
    UnitKind.SQUARE_IN_A_SQUARE,
    UnitKind.CORNER_FLIP,
    UnitKind.TRIANGLE_IN_A_SQUARE,
)
DIAGONAL = (UnitKind.HALF_SQUARE, UnitKind.HALF_RECTANGLE)
BANDED = (UnitKind.STRIP_SET, UnitKind.FOUR_PATCH, UnitKind.NINE_PATCH)


@dataclass(frozen=True, slots=True, kw_only=True)
class InnerSeam:
    """One seam: choice `number` of its part, times `sign`, presses it `toward` (1) or away from it (-1)."""

    number: int
    start: Point
    end: Point
    toward: Point
    sign: int = 1
    order: int = IN_UNIT


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What speaks for a direction: `wish` above 0 for 1, below for -1; `usual` where nothing else does."""

    wish: int = 0
    usual: int = 1
    is_fixed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A part's own seams and choices, and the parts laid into it."""

    part: Part
    seams: tuple[InnerSeam, ...] = ()
    choices: tuple[Choice, ...] = ()
    children: tuple[Placed, ...] = ()


def form_of(part: Part, parts: Mapping[str, Part], *, make: int, style: Style) -> Form:
    """List the seams of a part; NoMethod where a unit has no method in this style."""
    if isinstance(part, Rows):
        return _rows(part, parts, style)
    if isinstance(part, Unit) and part.kind in BANDED:
        return _banded(part, style, is_striped=choose(part, make, style).name == FROM_STRIPS)
    if isinstance(part, Unit) and part.kind in DIAGONAL:
        return _diagonal(part, style)
    return _outward(part) if isinstance(part, Unit) and part.kind in OUTWARD else Form(part=part)


def _rows(part: Rows, parts: Mapping[str, Part], style: Style) -> Form:
    seams: list[InnerSeam] = []
    choices: list[Choice] = []
    tops: list[Number] = []
    for i, row in enumerate(part.rows):
        top = row[0].at[1]
        bottom = part.rows[i + 1][0].at[1] if i + 1 < len(part.rows) else part.height
        tops.append(top)
        for pair in itertools.pairwise(row):
            x = pair[1].at[0]
            seams.append(_upright(len(choices), x, ends=(top, bottom)))
            wish = seam_wish(pair, parts, style) * BULK
            choices.append(Choice(wish=wish, usual=LEFT if i % 2 else RIGHT))
    for y, way in zip(tops[1:], press_long(part, parts), strict=True):
        seams.append(_level(len(choices), y, width=part.width))
        choices.append(Choice(wish=way * BULK, usual=DOWN))
    return Form(part=part, seams=tuple(seams), choices=tuple(choices), children=part.placed)


def _upright(number: int, x: Number, *, ends: tuple[Number, Number], way: int = 1) -> InnerSeam:
    return InnerSeam(
        number=number, start=(x, ends[0]), end=(x, ends[1]), toward=ACROSS, sign=way, order=IN_ROW
    )


def _level(number: int, y: Number, *, width: Number) -> InnerSeam:
    return InnerSeam(number=number, start=(ZERO, y), end=(width, y), toward=DOWNWARD, order=BETWEEN_ROWS)


def _diagonal(unit: Unit, style: Style) -> Form:
    """Press toward the second patch or the first one: the darker, if one is."""
    first, second = unit.patches
    letters = (first.fabric, second.fabric)
    dark = 0 if letters[0] == letters[1] else 1 if style.darker(letters) == letters[1] else -1
    seam = _between(first, second)
    if seam is None:
        return Form(part=unit)
    return Form(part=unit, seams=(seam,), choices=(Choice(wish=dark * SHOWS_THROUGH, usual=1),))


def _outward(unit: Unit) -> Form:
    """Press away from the middle, as the words of these units say."""
    body, *corners = unit.patches
    seams = tuple(seam for corner in corners if (seam := _between(body, corner)) is not None)
    return Form(part=unit, seams=seams, choices=(Choice(is_fixed=True),) if seams else ())


def _between(first: Patch, second: Patch) -> InnerSeam | None:
    """Find the seam between two patches, toward the second one."""
    for start, end in _sides(second):
        normal = (start[1] - end[1], end[0] - start[0])
        inner = next((side for p in second.points if (side := sign(_height(normal, start, p)))), 0)
        outer = [sign(_height(normal, start, p)) for p in first.points]
        if outer.count(0) > 1 and inner not in outer:
            toward = normal if inner > 0 else (-normal[0], -normal[1])
            return InnerSeam(number=0, start=start, end=end, toward=toward)
    return None


def _sides(patch: Patch) -> Iterator[tuple[Point, Point]]:
    return zip(patch.points, (*patch.points[1:], patch.points[0]), strict=True)


def _height(normal: Point, foot: Point, point: Point) -> Number:
    return normal[0] * (point[0] - foot[0]) + normal[1] * (point[1] - foot[1])


def _banded(unit: Unit, style: Style, *, is_striped: bool) -> Form:
    """Press strips sewn together by one word; a segment that is turned round presses the other way."""
    rows = bands(unit)
    seams: list[InnerSeam] = []
    choices: list[Choice] = []
    numbers: dict[Band, int] = {}
    top: Number = ZERO
    for i, band in enumerate(rows):
        kept = canonical(band) if is_striped else band
        if kept not in numbers or not is_striped:
            numbers[kept] = len(choices)
            choices.append(_strip_choice(kept, i))
        ways = strip_ways(kept, style)
        ways = ways if kept == band else tuple(-way for way in reversed(ways))
        x: Number = ZERO
        for (_, width), way in zip(band.strips, ways, strict=False):
            x = x + width
            seams.append(_upright(numbers[kept], x, ends=(top, top + band.height), way=way))
        top = top + band.height
        if i + 1 < len(rows):
            seams.append(_level(len(choices), top, width=unit.width))
            choices.append(Choice(usual=DOWN))
    return Form(part=unit, seams=tuple(seams), choices=tuple(choices))


def _strip_choice(band: Band, number: int) -> Choice:
    """Wish for the dark where a set has two fabrics; all one way else, rows in turn."""
    if len(strip_letters(band)) == 2:  # noqa: PLR2004 -- of two fabrics, one is the darker at every seam
        return Choice(wish=STRIPS)
    return Choice(usual=LEFT if number % 2 else RIGHT)


def strip_ways(band: Band, style: Style) -> tuple[int, ...]:
    """Give the direction of each seam when the set is pressed the first way: to the dark, or to the right."""
    letters = strip_letters(band)
    if len(letters) != 2:  # noqa: PLR2004 -- as above
        return (RIGHT,) * (len(band.strips) - 1)
    dark = style.darker(letters)
    pairs = itertools.pairwise(letter for letter, _ in band.strips)
    return tuple(LEFT if left == dark != right else RIGHT for left, right in pairs)


def strip_letters(band: Band) -> tuple[str, ...]:
    """Give the fabrics of a set, each once."""
    return tuple(dict.fromkeys(letter for letter, _ in band.strips))
