"""What every drawing shares: the canvas it is drawn to, strokes, letters, and inches laid to pixels.

A drawing is made for its width in CSS pixels (96 to the inch of paper), never scaled afterwards, so
that no letter gets smaller than 12 px.  Points on a canvas are exact fractions of a pixel, rounded to
thousandths; only a canvas that writes a file turns them into decimals.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import isqrt
from typing import TYPE_CHECKING, Protocol, TypeAlias

from patterns.engine.hatches import INK, WHITE, Cloth
from patterns.engine.surds import Number, Surd

if TYPE_CHECKING:
    from patterns.engine.parts import Point

Pixel: TypeAlias = tuple[Fraction, Fraction]
Outline: TypeAlias = Sequence[Pixel]

RED = "#A8281E"  # seams, the next cut, what is late
GREY = "#66707B"  # lines that only help
NOTE = "#48525E"  # small words
GRID = "#D9E2E3"

LETTER_SIZE = Fraction(12)  # never smaller
SMALL_PATCH = 8  # px; a smaller patch has neither hatch nor letter
_THOUSANDTH = 1000


@dataclass(frozen=True, slots=True)
class Stroke:
    """How a line is drawn: colour, width in px, dashes and gaps in px."""

    colour: str = INK
    width: Fraction = Fraction(9, 10)
    dashes: tuple[Fraction, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """How words are set; `anchor` is start, middle or end, `turned` reads upward."""

    size: Fraction = LETTER_SIZE
    bold: bool = False
    anchor: str = "middle"
    colour: str = INK
    turned: bool = False


@dataclass(frozen=True, slots=True)
class Bend:
    """An edge that is part of a circle, at most half of it: the radius, and which way round."""

    radius: Fraction
    clockwise: bool


EDGE = Stroke(INK, Fraction(11, 10))
THIN = Stroke(INK, Fraction(9, 10))
BOLD = Stroke(INK, Fraction(9, 5))
AHEAD = Stroke(GREY, Fraction(4, 5), (Fraction(3), Fraction(3)))
PLAIN_LETTERS = Lettering()
BOLD_LETTERS = Lettering(bold=True)


class Canvas(Protocol):
    """What can be drawn on; pixels from the top left corner, y downward."""

    def page(self, width: Fraction, height: Fraction) -> None:
        """Say how large the drawing is; called once by every drawing."""

    def polygon(self, points: Outline, *, fill: str = "", edge: Stroke | None = None) -> None:
        """Draw a closed shape; no fill when `fill` is empty."""

    def polygons(self, outlines: Sequence[Outline], *, fill: str, edge: Stroke) -> None:
        """Draw closed shapes that look alike, as one."""

    def contour(self, points: Outline, bends: Mapping[int, Bend], *, edge: Stroke) -> None:
        """Draw the line round a shape; the edge that starts at a corner in `bends` is a quarter circle."""

    def hatch(self, points: Outline, *, cloth: Cloth, tile: Fraction) -> None:
        """Lay the hatch of a cloth over a shape whose ground is drawn already; tile in px."""

    def line(self, start: Pixel, end: Pixel, *, stroke: Stroke) -> None:
        """Draw a straight line."""

    def disc(self, centre: Pixel, radii: Pixel, *, fill: str, edge: Stroke | None = None) -> None:
        """Draw a circle, or an ellipse when the radii differ."""

    def text(self, at: Pixel, words: str, *, style: Lettering = PLAIN_LETTERS) -> None:
        """Set words on a baseline at `at`; "1/2" within them is set as a fraction."""


@dataclass(slots=True)
class RecordingCanvas:
    """A canvas for tests: keeps what was drawn, in order, as plain tuples."""

    size: Pixel = (Fraction(0), Fraction(0))
    calls: list[tuple[object, ...]] = field(default_factory=list)

    def page(self, width: Fraction, height: Fraction) -> None:
        """Keep the size."""
        self.size = (width, height)

    def polygon(self, points: Outline, *, fill: str = "", edge: Stroke | None = None) -> None:
        """Keep a shape."""
        self.calls.append(("polygon", tuple(points), fill, edge))

    def polygons(self, outlines: Sequence[Outline], *, fill: str, edge: Stroke) -> None:
        """Keep shapes."""
        self.calls.append(("polygons", tuple(map(tuple, outlines)), fill, edge))

    def contour(self, points: Outline, bends: Mapping[int, Bend], *, edge: Stroke) -> None:
        """Keep a line round a shape."""
        self.calls.append(("contour", tuple(points), dict(bends), edge))

    def hatch(self, points: Outline, *, cloth: Cloth, tile: Fraction) -> None:
        """Keep a hatch."""
        self.calls.append(("hatch", tuple(points), cloth.letter, tile))

    def line(self, start: Pixel, end: Pixel, *, stroke: Stroke) -> None:
        """Keep a line."""
        self.calls.append(("line", start, end, stroke))

    def disc(self, centre: Pixel, radii: Pixel, *, fill: str, edge: Stroke | None = None) -> None:
        """Keep a disc."""
        self.calls.append(("disc", centre, radii, fill, edge))

    def text(self, at: Pixel, words: str, *, style: Lettering = PLAIN_LETTERS) -> None:
        """Keep words."""
        self.calls.append(("text", at, words, style))

    def words(self) -> list[str]:
        """Give every text, in the order it was set."""
        return [str(call[2]) for call in self.calls if call[0] == "text"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Lays inches on a canvas: `scale` px per inch, the inch point `corner` at the pixel `origin`."""

    scale: Fraction
    origin: Pixel = (Fraction(1), Fraction(1))
    corner: Pixel = (Fraction(0), Fraction(0))

    def at(self, point: Point) -> Pixel:
        """Give the pixel of a point, to thousandths."""
        return (
            thousandth(self.origin[0] + (rational(point[0]) - self.corner[0]) * self.scale),
            thousandth(self.origin[1] + (rational(point[1]) - self.corner[1]) * self.scale),
        )

    def all(self, points: Sequence[Point]) -> tuple[Pixel, ...]:
        """Give the pixels of several points."""
        return tuple(self.at(point) for point in points)

    def length(self, inches: Number) -> Fraction:
        """Give a length in px."""
        return thousandth(rational(inches) * self.scale)


def rational(number: Number | int) -> Fraction:
    """Give a rational for drawing: roots to 40 binary places, everything else as it is."""
    if isinstance(number, Surd):
        return sum(number.brackets(40), start=Fraction(0)) / 2
    return Fraction(number)


def thousandth(number: Fraction) -> Fraction:
    """Round to a thousandth of a pixel."""
    return Fraction(thousandths(number), _THOUSANDTH)


def thousandths(number: Fraction) -> int:
    """Count thousandths of a pixel, to the nearest, halves up; whole numbers, since it is done so often."""
    return (2 * _THOUSANDTH * number.numerator + number.denominator) // (2 * number.denominator)


def square_root(number: Fraction) -> Fraction:
    """Give the root to about six places: good enough for the length of an arrow."""
    return Fraction(isqrt(number.numerator * (1 << 40) // number.denominator), 1 << 20)


def bounds(points: Sequence[Point]) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Give left, top, right, bottom of points."""
    xs = [rational(x) for x, _ in points]
    ys = [rational(y) for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def box(corner: Pixel, opposite: Pixel) -> tuple[Pixel, ...]:
    """Give the corners of an upright rectangle from its top left and bottom right."""
    (left, top), (right, bottom) = corner, opposite
    return (left, top), (right, top), (right, bottom), (left, bottom)


def inner_point(outline: Outline) -> Pixel:
    """Give a point well inside: the centre of gravity, or where a level chord has most room."""
    area, x_sum, y_sum = Fraction(0), Fraction(0), Fraction(0)
    for (x1, y1), (x2, y2) in zip(outline, [*outline[1:], outline[0]], strict=True):
        cross = x1 * y2 - x2 * y1
        area, x_sum, y_sum = area + cross, x_sum + (x1 + x2) * cross, y_sum + (y1 + y2) * cross
    centre = (x_sum / (3 * area), y_sum / (3 * area)) if area else outline[0]
    if area and is_inside(centre, outline):
        return thousandth(centre[0]), thousandth(centre[1])
    return _roomiest_chord(outline)


def is_inside(point: Pixel, outline: Outline) -> bool:
    """Whether the point lies inside, by counting crossings to its right."""
    return sum(x > point[0] for x in _crossings(outline, point[1])) % 2 == 1


def clearance_squared(point: Pixel, outline: Outline) -> Fraction:
    """Give the square of the distance from a point to the nearest edge, px squared."""
    edges = zip(outline, [*outline[1:], outline[0]], strict=True)
    return min(distance_squared(point, start, end) for start, end in edges)


def distance_squared(point: Pixel, start: Pixel, end: Pixel) -> Fraction:
    """Give the square of the distance from a point to a straight line between two others."""
    run = (end[0] - start[0], end[1] - start[1])
    away = (point[0] - start[0], point[1] - start[1])
    long = run[0] ** 2 + run[1] ** 2
    along = (away[0] * run[0] + away[1] * run[1]) / long if long else Fraction(0)
    along = min(max(along, Fraction(0)), Fraction(1))
    return (away[0] - along * run[0]) ** 2 + (away[1] - along * run[1]) ** 2


def letter_disc(canvas: Canvas, centre: Pixel, letters: str) -> None:
    """Set a letter, or a name such as A1, in a white disc."""
    radius = Fraction(6 + 3 * min(len(letters), 3))
    canvas.disc(centre, (radius, radius), fill=WHITE, edge=Stroke(INK, Fraction(4, 5)))
    canvas.text(below(centre), letters, style=BOLD_LETTERS)


def below(centre: Pixel, size: Fraction = LETTER_SIZE) -> Pixel:
    """Give the baseline of words whose middle is `centre`."""
    return centre[0], thousandth(centre[1] + size * Fraction(7, 20))


def text_width(words: str, size: Fraction = LETTER_SIZE) -> Fraction:
    """Give about how wide words are: figures and capitals are 6/10 of their size, with some air."""
    return len(words) * size * Fraction(3, 5)


def _roomiest_chord(outline: Outline) -> Pixel:
    """Give the middle of that level chord which is farthest from all edges, of fifteen heights."""
    _, top, _, bottom = bounds(outline)
    middles: list[Pixel] = []
    for share in range(1, 16):
        y = top + (bottom - top) * Fraction(2 * share - 1, 30)
        xs = sorted(_crossings(outline, y))
        pairs = zip(xs[::2], xs[1::2], strict=False)
        middles += [(thousandth((left + right) / 2), thousandth(y)) for left, right in pairs]
    return max(middles, key=lambda middle: clearance_squared(middle, outline), default=outline[0])


def _crossings(outline: Outline, y: Fraction) -> list[Fraction]:
    edges = zip(outline, [*outline[1:], outline[0]], strict=True)
    return [x1 + (y - y1) * (x2 - x1) / (y2 - y1) for (x1, y1), (x2, y2) in edges if (y1 > y) != (y2 > y)]
