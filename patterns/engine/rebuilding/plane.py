"""Exact plane geometry of the sewing table: y grows downward, "left" is the left hand seen from the front."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.surds import Number, Surd, root, sign

Point: TypeAlias = tuple[Number, Number]
Polygon: TypeAlias = tuple[Point, ...]
HALF = Fraction(1, 2)
ZERO = Fraction(0)
ONE = Fraction(1)


@dataclass(frozen=True, slots=True)
class Line:
    """The line n . p = level; its near side is n . p <= level."""

    normal: Point
    level: Number

    def height(self, point: Point) -> Number:
        """Give n . p - level: negative on the near side, in units of the normal's length."""
        return dot(self.normal, point) - self.level

    def moved(self, distance: Number) -> Line:
        """Move along the normal by a distance in inches."""
        return Line(self.normal, self.level + distance * length(self.normal))

    def reversed(self) -> Line:
        """Swap the sides."""
        return Line((-self.normal[0], -self.normal[1]), -self.level)


@dataclass(frozen=True, slots=True)
class Motion:
    """A proper rigid motion: p -> turn p + shift. No mirror can be written."""

    cos: Number
    sin: Number
    shift: Point

    def apply(self, point: Point) -> Point:
        """Move a point."""
        x, y = point
        if self.sin == 0 and self.cos == 1:
            return (x + self.shift[0], y + self.shift[1])
        return plus(self.turned((x, y)), self.shift)

    def turned(self, vector: Point) -> Point:
        """Turn a direction."""
        return (dot((self.cos, -self.sin), vector), dot((self.sin, self.cos), vector))


def dot(a: Point, b: Point) -> Number:
    """Give the scalar product; most directions lie along a side, so what is nothing is not worked out."""
    if not (a[0] and b[0]):
        return a[1] * b[1]
    return a[0] * b[0] + a[1] * b[1] if a[1] and b[1] else a[0] * b[0]


def cross(a: Point, b: Point) -> Number:
    """Give ax by - ay bx: negative when b points to the left of a."""
    if not (a[0] and b[1]):
        return -(a[1] * b[0])
    return a[0] * b[1] - a[1] * b[0] if a[1] and b[0] else a[0] * b[1]


def unsigned(number: Number) -> Number:
    """Give the distance from zero."""
    return -number if sign(number) < 0 else number


def minus(a: Point, b: Point) -> Point:
    """Subtract."""
    return (a[0] - b[0], a[1] - b[1])


def plus(a: Point, b: Point, factor: Number = ONE) -> Point:
    """Give a + factor b."""
    if factor is ONE:
        return (a[0] + b[0], a[1] + b[1])
    return (a[0] + factor * b[0], a[1] + factor * b[1])


def length(vector: Point) -> Number:
    """Give the exact length of a vector whose square, or whose slope's square, is rational."""
    square = dot(vector, vector)
    if not isinstance(square, Surd):
        return root(square)
    long = max(unsigned(vector[0]), unsigned(vector[1]))
    stretch = square / (long * long)
    if isinstance(stretch, Surd):
        raise TypeError("a direction needs a rational square")
    return long * root(stretch)


def line_through(start: Point, end: Point) -> Line:
    """Lay a line through two points, its near side to the left of start -> end."""
    dx, dy = minus(end, start)
    return Line((-dy, dx), dot((-dy, dx), start))


def line_facing(normal: Point, point: Point) -> Line:
    """Lay the line with this normal through a point."""
    return Line(normal, dot(normal, point))


def meeting(a: Line, b: Line) -> Point | None:
    """Give the point where two lines meet; None when they are parallel."""
    det = cross(a.normal, b.normal)
    if det == 0:
        return None
    x = (a.level * b.normal[1] - b.level * a.normal[1]) / det
    return (x, (a.normal[0] * b.level - b.normal[0] * a.level) / det)


def turn_onto(source: Point, target: Point) -> Motion:
    """Give the turn that takes one direction into another."""
    scale = length(source) * length(target)
    return Motion(dot(source, target) / scale, cross(source, target) / scale, (ZERO, ZERO))


def reflect(line: Line, point: Point) -> Point:
    """Fold a point over a line."""
    return plus(point, line.normal, -2 * line.height(point) / dot(line.normal, line.normal))


def clip(polygon: Polygon, line: Line) -> Polygon:
    """Keep what lies on the near side of a line (convex polygons only); empty when nothing does."""
    heights = [line.height(p) for p in polygon]
    signs = [sign(h) for h in heights]
    if max(signs) <= 0:
        return polygon if min(signs) < 0 else ()
    if min(signs) >= 0:
        return ()
    kept: list[Point] = []
    for i, p in enumerate(polygon):
        if signs[i - 1] * signs[i] < 0:
            share = heights[i - 1] / (heights[i - 1] - heights[i])
            kept.append(plus(polygon[i - 1], minus(p, polygon[i - 1]), share))
        if signs[i] <= 0:
            kept.append(p)
    return tuple(kept)


def area(polygon: Polygon) -> Number:
    """Give the area, positive for clockwise corners as seen."""
    total: Number = ZERO
    for i, p in enumerate(polygon):
        total = total + cross(polygon[i - 1], p)
    return total * HALF


def tidy(polygon: Polygon) -> Polygon:
    """Write clockwise from the first corner (smallest x, then y), without straight or repeated corners."""
    points = [p for i, p in enumerate(polygon) if p != polygon[i - 1]]
    corners = [p for i, p in enumerate(points) if _bends(points, i)]
    first = min(range(len(corners)), key=lambda i: corners[i], default=0)
    around = corners[first:] + corners[:first]
    if around and sign(cross(minus(around[0], around[-1]), minus(around[1], around[0]))) < 0:
        around[1:] = reversed(around[1:])  # the first corner bends as the whole goes round
    return tuple(around)


def _bends(points: list[Point], i: int) -> bool:
    before, here, after = points[i - 1], points[i], points[(i + 1) % len(points)]
    for axis in (0, 1):  # upright and level edges need no product
        if before[axis] == here[axis]:
            return here[axis] != after[axis]
    return cross(minus(here, before), minus(after, here)) != 0


def rectangle(width: Number, height: Number) -> Polygon:
    """Give the corners of a rectangle at the origin, clockwise from top left."""
    return ((ZERO, ZERO), (width, ZERO), (width, height), (ZERO, height))


def clip_to_rectangle(polygon: Polygon, corner: Point, opposite: Point) -> Polygon:
    """Keep what lies inside an upright rectangle."""
    xs, ys = zip(*polygon, strict=True)
    if corner[0] <= min(xs) and corner[1] <= min(ys) and max(xs) <= opposite[0] and max(ys) <= opposite[1]:
        return polygon
    sides = (
        Line((Fraction(-1), ZERO), -corner[0]),
        Line((Fraction(1), ZERO), opposite[0]),
        Line((ZERO, Fraction(-1)), -corner[1]),
        Line((ZERO, Fraction(1)), opposite[1]),
    )
    for side in sides:
        polygon = clip(polygon, side) if polygon else ()
    return polygon


def hull(points: list[Point]) -> Polygon:
    """Give the convex hull, clockwise as seen, without straight corners."""
    ordered = sorted(set(points))
    lower = _half_hull(ordered)
    upper = _half_hull(ordered[::-1])
    return tidy(tuple(lower[:-1] + upper[:-1]))


def _half_hull(points: list[Point]) -> list[Point]:
    chain: list[Point] = []
    for p in points:
        while len(chain) > 1 and sign(cross(minus(chain[-1], chain[-2]), minus(p, chain[-1]))) <= 0:
            chain.pop()
        chain.append(p)
    return chain


def middle(polygon: Polygon) -> Point:
    """Give the mean of the corners: inside, when the polygon is convex."""
    share = Fraction(1, len(polygon))
    xs: Number = sum((p[0] for p in polygon), ZERO)
    ys: Number = sum((p[1] for p in polygon), ZERO)
    return (xs * share, ys * share)


def inside(polygon: Polygon, point: Point) -> bool:
    """Say whether a point lies in a convex polygon, its edge included."""
    turns = {sign(cross(minus(p, polygon[i - 1]), minus(point, p))) for i, p in enumerate(polygon)}
    return not {1, -1} <= turns
