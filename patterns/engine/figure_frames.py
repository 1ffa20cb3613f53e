"""Frames: rigid motions of the plane, and rectangles at an angle turned upright."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from patterns.engine import geometry
from patterns.engine.figure_numbers import Scale, Spot, Whole, cross, dot, minus
from patterns.engine.figures import Mask, Sheet, members
from patterns.engine.geometry import NO_TURN, QUARTERS, Coordinate, Corner
from patterns.engine.parts import Placed, Point
from patterns.engine.regions import Region, region
from patterns.engine.surds import Number, Surd, root, sign

QUARTER_TURNS: tuple[Point, ...] = tuple(
    (Fraction(x), Fraction(y)) for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1))
)


PLAIN = Scale(step=Fraction(1), d=1)


@dataclass(frozen=True, slots=True)
class Motion:
    """Turn about (0, 0), clockwise by a unit vector (cosine, sine), then move."""

    turned_by: Point
    by: Point

    def point(self, point: Point) -> Point:
        """Take a point along."""
        (x, y), (dx, dy) = _product(self.turned_by, point), self.by
        return x + dx, y + dy

    def after(self, first: Motion) -> Motion:
        """Give the motion that does `first`, then this one."""
        return Motion(_product(self.turned_by, first.turned_by), self.point(first.by))

    def scaled(self, factor: Number) -> Motion:
        """Give the same motion in lengths of another measure."""
        return Motion(self.turned_by, (self.by[0] * factor, self.by[1] * factor))

    def back(self) -> Motion:
        """Give the motion that takes this one back."""
        cosine, sine = self.turned_by
        back = (cosine, -sine)
        x, y = _product(back, self.by)
        return Motion(back, (-x, -y))


def _product(a: Point, b: Point) -> Point:
    if a == NO_TURN:
        return b
    return a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]


def of_placed(placed: Placed, *, size: Point) -> Motion:
    """Give the motion by which a part of that size (width, height) is placed."""
    width, height = size
    zero = Fraction(0)
    corner = ((zero, zero), (height, zero), (width, height), (zero, width))[placed.turn % QUARTERS]
    quarter = Motion(QUARTER_TURNS[placed.turn % QUARTERS], corner)
    return Motion(placed.turned_by, placed.at).after(quarter)


def in_rows(part: str, motion: Motion, *, size: Point) -> Placed:
    """Place a part of that size (width, height) by quarter turns."""
    turn = QUARTER_TURNS.index(motion.turned_by)
    width, height = size
    back = ((0, 0), (height, 0), (width, height), (0, width))[turn]
    return Placed(part=part, at=(motion.by[0] - back[0], motion.by[1] - back[1]), turn=turn)


@dataclass(frozen=True, slots=True, kw_only=True)
class Upright:
    """A rectangle of patches turned upright, in whole steps of its own wherever it has such."""

    region: Region
    step: Number  # lengths of the drawing = lengths of the region x step
    motion: Motion  # from the upright rectangle, in lengths of the drawing, to where it lies


def upright_frame(made: Sheet, mask: Mask, scale: Scale) -> Motion | None:
    """Give the motion from a rectangle turned upright to where it lies, in lengths of the drawing.

    None for other outlines, and for angles that no ruler has: those whose unit vector is not of the
    drawing's own numbers, save the 45 degrees.
    """
    first = _first_side(made, mask)
    if first is None:
        return None
    start, side = first
    vector = scale.number(side[0]), scale.number(side[1])
    length = length_of(vector, root_allowed=scale.d)
    if length is None:
        return None
    turned = vector[0] / length, vector[1] / length
    return Motion(turned, (scale.number(start[0]), scale.number(start[1])))


def frame_of(made: Sheet, mask: Mask, scale: Scale) -> Motion:
    """Give the motion from a part's own frame to where it lies: turned upright, or only moved."""
    found = upright_frame(made, mask, scale)
    if found is not None:
        return found
    spots = [made.spots[corner] for corner in made.round(mask).corners]
    left, top = min(x for x, _ in spots), min(y for _, y in spots)
    return Motion(NO_TURN, (scale.number(left), scale.number(top)))


def upright(made: Sheet, mask: Mask, scale: Scale) -> Upright | None:
    """Turn a rectangle upright, with its patches; None where it has no upright frame."""
    motion, first = upright_frame(made, mask, scale), _first_side(made, mask)
    if motion is None or first is None:
        return None
    start, side = first
    polygons = [[made.spots[spot] for spot in made.polygons[patch]] for patch in members(mask)]
    along = [[_along(spot, start, side) for spot in polygon] for polygon in polygons]
    corners, across = _whole_steps(along, dot(side, side))
    letters = [made.letters[patch] for patch in members(mask)]
    patches = [(tuple(polygon), letter) for polygon, letter in zip(corners, letters, strict=True)]
    _, _, width, height = geometry.bounds(corner for polygon in corners for corner in polygon)
    vector = scale.number(side[0]), scale.number(side[1])
    length = geometry.dot(motion.turned_by, vector)
    return Upright(
        region=region(size=(width, height), patches=patches),
        step=geometry.exact(length) / across,
        motion=motion,
    )


def _first_side(made: Sheet, mask: Mask) -> tuple[Spot, Spot] | None:
    """Give the corner of a rectangle that is top left when it is turned upright, and the side from it."""
    outline = made.outline(mask)
    if outline is None or not made.is_rectangle(mask):
        return None
    spots = [made.spots[corner] for corner in outline.corners]
    pairs = zip(spots, (*spots[1:], spots[0]), strict=True)
    sides = ((start, minus(end, start)) for start, end in pairs)
    return next((start, side) for start, side in sides if side[0] > 0 and side[1] >= 0)


def _along(spot: Spot, start: Spot, side: Spot) -> Spot:
    vector = minus(spot, start)
    return dot(side, vector), cross(side, vector)


def _whole_steps(polygons: Sequence[Sequence[Spot]], square: Whole) -> tuple[list[list[Corner]], Coordinate]:
    """Measure in parts of the first side, in whole numbers where that can be; also give that side."""
    side = PLAIN.number(square)
    parts = [[(PLAIN.number(x) / side, PLAIN.number(y) / side) for x, y in p] for p in polygons]
    factor = geometry.common_denominator(number for polygon in parts for spot in polygon for number in spot)
    return [[geometry.scaled_point(spot, factor) for spot in polygon] for polygon in parts], factor


def length_of(vector: Point, *, root_allowed: int = 1) -> Number | None:
    """Give the length of a vector, where it is a number with no other root, or the angle is 45 degrees."""
    x, y = vector
    if not y or not x:
        return _size(x + y)
    if x in (y, -y):
        return _size(x) * root(2)
    square = x * x + y * y
    if isinstance(square, Surd):
        return None
    length = root(square)
    allowed = not isinstance(length, Surd) or {n for n, _ in length.terms} <= {1, root_allowed}
    return length if allowed else None


def _size(number: Number) -> Number:
    return number if sign(number) > 0 else -number


def from_here_to_there(here: tuple[Point, Point], there: tuple[Point, Point]) -> Motion:
    """Give the motion that takes one directed side to another one of the same length."""
    side, image = geometry.minus(here[1], here[0]), geometry.minus(there[1], there[0])
    if side == image:
        turned = NO_TURN
    else:
        square = geometry.dot(side, side)
        turned = (
            geometry.exact(geometry.dot(side, image)) / square,
            geometry.exact(geometry.cross(side, image)) / square,
        )
    x, y = _product(turned, here[0])
    return Motion(turned, (there[0][0] - x, there[0][1] - y))
