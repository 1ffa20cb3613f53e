"""Works: what lies on the table, seen from the front, up to its raw edges."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.rebuilding.plane import (
    HALF,
    ZERO,
    Line,
    Motion,
    Point,
    Polygon,
    area,
    clip,
    line_facing,
    rectangle,
    tidy,
    unsigned,
)
from patterns.engine.surds import Number, sign

Size: TypeAlias = tuple[Number, Number]
QUARTERS = ((1, 0), (0, 1), (-1, 0), (0, -1))
PLACES = {
    "top left": (ZERO, ZERO),
    "top middle": (HALF, ZERO),
    "top right": (Fraction(1), ZERO),
    "right middle": (Fraction(1), HALF),
    "bottom right": (Fraction(1), Fraction(1)),
    "bottom middle": (HALF, Fraction(1)),
    "bottom left": (ZERO, Fraction(1)),
    "left middle": (ZERO, HALF),
    "centre": (HALF, HALF),
}


@dataclass(frozen=True, slots=True)
class Facet:
    """What is seen of one cut piece; `step` is the one that finished its unit, 0 before any.

    `inner` facets lie within the finished edges of their part for good: no later seam reaches them.
    """

    letter: str
    points: Polygon
    piece: str
    step: int = 0
    inner: bool = False


@dataclass(frozen=True, slots=True)
class Seam:
    """A sewn line: a point of it, and its direction with the first layer on the left."""

    point: Point
    along: Point

    @property
    def line(self) -> Line:
        """Give its line, near side = the first layer."""
        return line_facing((-self.along[1], self.along[0]), self.point)


@dataclass(frozen=True, slots=True)
class Work:
    """Facets in a frame of `box` (width, height) inches; `solid` when the raw outline is that box.

    `outline` holds the finished corners, clockwise, of a part that is no upright rectangle.  Appliqué
    shapes lie on a whole, and go with it where finished blocks are joined to a top.
    """

    facets: tuple[Facet, ...]
    box: Size
    solid: bool = False
    seams: dict[str, Seam] = field(default_factory=dict, hash=False)
    slack: Size = (ZERO, ZERO)  # by how much eased pieces miss their size, added up along each side
    outline: Polygon = ()
    shapes: tuple[Facet, ...] = ()  # appliqué on it, each on those before it

    def moved(self, motion: Motion, box: Size) -> Work:
        """Move everything rigidly into a frame of another size."""
        facets, shapes = (
            tuple(replace(f, points=tuple(map(motion.apply, f.points))) for f in laid)
            for laid in (self.facets, self.shapes)
        )
        seams = {n: Seam(motion.apply(s.point), motion.turned(s.along)) for n, s in self.seams.items()}
        outline = tuple(map(motion.apply, self.outline))
        return Work(facets, box, self.solid, seams, self.slack, outline, shapes)

    def turned(self, quarters: int) -> Work:
        """Turn clockwise by quarter turns within the box."""
        quarters %= 4
        if not quarters:
            return self
        width, height = self.box
        shift = ((height, ZERO), (width, height), (ZERO, width))[quarters - 1]
        cos, sin = map(Fraction, QUARTERS[quarters])
        if quarters % 2 == 0:
            return self.moved(Motion(cos, sin, shift), self.box)
        return replace(self.moved(Motion(cos, sin, shift), (height, width)), slack=self.slack[::-1])

    def place(self, name: str) -> Point:
        """Give a named place of the box, such as "top left" or "centre"."""
        x, y = PLACES[name]
        return (self.box[0] * x, self.box[1] * y)

    def clipped(self, line: Line) -> tuple[Facet, ...]:
        """Give the facets on the near side of a line."""
        return clip_facets(self.facets, line)

    def stamped(self, step: int) -> Work:
        """Write the step on every facet that has none."""
        facets, shapes = (
            tuple(f if f.step else replace(f, step=step) for f in laid) for laid in (self.facets, self.shapes)
        )
        return replace(self, facets=facets, shapes=shapes)

    def looks(self) -> frozenset[tuple[str, Polygon]]:
        """Give what can be compared: letters and tidy shapes."""
        return frozenset((f.letter, tidy(f.points)) for f in self.facets)


def clip_facets(facets: tuple[Facet, ...], line: Line) -> tuple[Facet, ...]:
    """Keep what lies on the near side of a line."""
    cut = ((f, clip(f.points, line)) for f in facets)
    return tuple(f if points is f.points else replace(f, points=points) for f, points in cut if points)


def total_area(facets: tuple[Facet, ...]) -> Number:
    """Add up the areas in square inches."""
    total: Number = ZERO
    for facet in facets:
        total = total + unsigned(area(facet.points))
    return total


def cloth(letter: str, *, width: Number, length: Number, piece: str) -> Work:
    """Give a cut piece: one facet, width across and length down."""
    return Work((Facet(letter, rectangle(width, length), piece),), (width, length), solid=True)


def settle(facets: tuple[Facet, ...]) -> Work:
    """Move facets so that their bounding box starts at the origin."""
    corners = [p for f in facets for p in f.points]
    left, top = min(p[0] for p in corners), min(p[1] for p in corners)
    box = (max(p[0] for p in corners) - left, max(p[1] for p in corners) - top)
    return Work(facets, box).moved(Motion(Fraction(1), ZERO, (-left, -top)), box)


def first_turn(work: Work) -> Work:
    """Turn by quarter turns so that the corners, sorted, come first of the four ways."""
    turns = [work.turned(k) for k in range(4)]
    return min(turns, key=lambda w: sorted(p for f in w.facets for p in f.points))


def same(a: Number, b: Number) -> bool:
    """Compare exactly, whatever the kinds of number."""
    return sign(a - b) == 0
