"""Exact plane geometry: points, polygons, motions.  y grows downward, so clockwise is positive.

Coordinates are whole numbers, fractions or surds; whole numbers are much the fastest, so a drawing
is first multiplied by the common denominator (`common_denominator`, `scaled`).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import gcd, lcm
from typing import TypeAlias

from patterns.engine.parts import Point
from patterns.engine.surds import Number, Surd, root, sign

Coordinate: TypeAlias = int | Number
Corner: TypeAlias = tuple[Coordinate, Coordinate]
Polygon: TypeAlias = tuple[Corner, ...]
Box: TypeAlias = tuple[Coordinate, Coordinate, Coordinate, Coordinate]  # left, top, right, bottom

QUARTERS = 4
HALF_TURN = 2  # quarters
EIGHTH_TURN: Point = (root(Fraction(1, 2)), root(Fraction(1, 2)))  # the unit vector of 45 degrees
NO_TURN: Point = (Fraction(1), Fraction(0))


def minus(a: Corner, b: Corner) -> Corner:
    """Give the vector from b to a."""
    return (a[0] - b[0], a[1] - b[1])


def cross(a: Corner, b: Corner) -> Coordinate:
    """Give the cross product: above zero when b lies clockwise of a."""
    return a[0] * b[1] - a[1] * b[0]


def dot(a: Corner, b: Corner) -> Coordinate:
    """Give the dot product."""
    return a[0] * b[0] + a[1] * b[1]


def side(point: Corner, start: Corner, end: Corner) -> int:
    """Say on which side of a line a point lies: 1 to the right of its direction, 0 on it, else -1."""
    return sign(cross(minus(end, start), minus(point, start)))


def edges(polygon: Sequence[Corner]) -> Iterable[tuple[Corner, Corner]]:
    """Give the edges in order, the closing one last."""
    return zip(polygon, (*polygon[1:], polygon[0]), strict=True)


def twice_area(polygon: Sequence[Corner]) -> Coordinate:
    """Give twice the area, above zero when the corners go clockwise."""
    return sum((cross(start, end) for start, end in edges(polygon)), start=0)


def area(points: Sequence[Point]) -> Number:
    """Give the area of a polygon, whichever way round."""
    twice = exact(twice_area(points))
    return (twice if sign(twice) > 0 else -twice) / 2


def exact(number: Coordinate) -> Number:
    """Make a whole number a Fraction."""
    return Fraction(number) if isinstance(number, int) else number


def half(number: Coordinate) -> Coordinate:
    """Halve; an even whole number stays whole."""
    return number // 2 if isinstance(number, int) and number % 2 == 0 else exact(number) / 2


def tidied(polygon: Sequence[Corner]) -> Polygon:
    """Drop repeated and straight corners; go clockwise from the least corner."""
    corners = list(dict.fromkeys(polygon))
    count = len(corners)
    bends = [corners[i] for i in range(count) if side(corners[i], corners[i - 1], corners[(i + 1) % count])]
    if bends and sign(twice_area(bends)) < 0:
        bends.reverse()
    return from_least(bends)


def from_least(corners: Sequence[Corner]) -> Polygon:
    """Start the round with the least corner."""
    if not corners:
        return ()
    first = corners.index(min(corners))
    return (*corners[first:], *corners[:first])


def on_segment(point: Corner, start: Corner, end: Corner) -> bool:
    """Say whether a point lies on a segment, its ends included."""
    return not side(point, start, end) and sign(dot(minus(start, point), minus(end, point))) <= 0


def touch(first: tuple[Corner, Corner], second: tuple[Corner, Corner]) -> bool:
    """Say whether two segments have a point in common."""
    (a, b), (c, d) = first, second
    ends = on_segment(a, c, d) or on_segment(b, c, d) or on_segment(c, a, b) or on_segment(d, a, b)
    return ends or crossing(first, second)


def crossing(first: tuple[Corner, Corner], second: tuple[Corner, Corner]) -> bool:
    """Say whether two segments cross at a point inside both."""
    (a, b), (c, d) = first, second
    return side(a, c, d) * side(b, c, d) < 0 and side(c, a, b) * side(d, a, b) < 0


def inside(point: Corner, polygon: Sequence[Corner]) -> bool:
    """Say whether a point lies strictly inside a polygon."""
    within = False
    for start, end in edges(polygon):
        if on_segment(point, start, end):
            return False
        if (start[1] > point[1]) != (end[1] > point[1]):
            upward = start[1] > end[1]
            within ^= side(point, start, end) == (1 if upward else -1)
    return within


def middle(*points: Corner) -> Point:
    """Give the mean of some points."""
    xs, ys = zip(*points, strict=True)
    return exact(sum(xs, start=0)) / len(xs), exact(sum(ys, start=0)) / len(ys)


def bounds(points: Iterable[Corner]) -> Box:
    """Give the smallest upright rectangle round some points."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def boxes_meet(first: Box, second: Box) -> bool:
    """Say whether two upright rectangles share more than an edge."""
    across = max(first[0], second[0]) < min(first[2], second[2])
    return across and max(first[1], second[1]) < min(first[3], second[3])


def moved(polygon: Sequence[Corner], by: Corner) -> Polygon:
    """Move every corner."""
    return tuple((x + by[0], y + by[1]) for x, y in polygon)


def quarter_turned(polygon: Sequence[Corner], turns: int, *, size: Corner) -> Polygon:
    """Turn clockwise with the rectangle `size` it lies in, whose top left corner stays at (0, 0)."""
    width, height = size
    if turns % QUARTERS == 0:
        return tuple(polygon)
    if turns % QUARTERS == HALF_TURN:
        return tuple((width - x, height - y) for x, y in polygon)
    if turns % QUARTERS == 1:
        return tuple((height - y, x) for x, y in polygon)
    return tuple((y, width - x) for x, y in polygon)


def turned(polygon: Sequence[Corner], vector: Point) -> tuple[Point, ...]:
    """Turn about (0, 0) by a unit vector (cosine, sine), clockwise."""
    cosine, sine = vector
    return tuple((x * cosine - y * sine, x * sine + y * cosine) for x, y in polygon)


def direction(vector: Corner) -> Corner:
    """Give one vector for all that are parallel to this one."""
    x, y = vector
    if isinstance(x, int) and isinstance(y, int):
        shared = gcd(x, y) * (-1 if (x, y) < (0, 0) else 1)
        return x // shared, y // shared
    return (Fraction(1), exact(y) / x) if x else (Fraction(0), Fraction(1))


def common_denominator(numbers: Iterable[Number]) -> int:
    """Give the factor that makes all numbers whole; 1 when a surd is among them."""
    given = list(numbers)
    if any(isinstance(number, Surd) for number in given):
        return 1
    return lcm(*(number.denominator for number in given if isinstance(number, Fraction)))


def scaled(number: Number, factor: int) -> Coordinate:
    """Multiply by the common denominator; a whole result becomes an int."""
    product = number * factor
    return int(product) if isinstance(product, Fraction) and product.denominator == 1 else product


def scaled_point(point: Point, factor: int) -> Corner:
    """Multiply both coordinates by the common denominator."""
    return scaled(point[0], factor), scaled(point[1], factor)
