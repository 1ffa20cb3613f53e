"""Templates: the shape that is cut for a patch of any outline, and the rectangle of fabric it comes from.

A finished outline is moved outward by the seam, its corners mitred.  A corner of angle t thereby grows
along each of its edges by seam x cot(t / 2) (derived geometry).  Tips sharper than 45 degrees are blunted
square to their middle line, since they would run out far: what stays reaches 1 + sqrt 2 seams beyond the
corner.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from patterns.engine.geometry import twice_area
from patterns.engine.parts import Point
from patterns.engine.surds import Number, Surd, ceiling, root, sign

REACH = 1 + root(2)  # x seam: how far a blunted tip reaches beyond its corner
FINE = 1_000_000  # parts of an inch in which a length without an exact root is written, rounded up
NIL = Fraction(0)
FEWEST = 3  # edges of an outline
LARGEST = 10**12  # a root of longer numbers says nothing to anybody, and is long to find
ROUGH = 256  # parts in which a middle line is written: its direction need not be exact
WORTH_TURNING = Fraction(15, 16)  # a template is turned in its rectangle when that saves so much


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """How a template lies in its rectangle of fabric: all in inches, seams in `polygon` and the sides.

    `outline` holds the finished corners in the rectangle's frame; turned by the unit vector `turned_by`
    they have the directions of the outline that was asked for.
    """

    outline: tuple[Point, ...]
    polygon: tuple[Point, ...]
    width: Fraction
    length: Fraction
    turned_by: Point


@dataclass(frozen=True, slots=True)
class _Side:
    """An edge moved outward: points p with normal . p = level."""

    normal: Point
    level: Number


def cut_outline(outline: Sequence[Point], seam: Fraction) -> tuple[Point, ...]:
    """Give the cut shape of a finished outline, clockwise, in the outline's own frame; inches.

    Exact where the edges' lengths are roots of rationals; other edges lie up to 1/1000 in further out,
    never further in.  Edges in a notch too narrow for them are left out.
    """
    corners = clockwise(outline)
    return moved_out(corners, [seam] * len(corners))


def moved_out(
    corners: Sequence[Point],
    distances: Sequence[Fraction],
    *,
    length: Callable[[Point], Number] | None = None,
) -> tuple[Point, ...]:
    """Move every edge of a clockwise polygon outward by a distance of its own; edge i starts at corner i.

    `length` measures edges: `upper_length` unless a picture is content with `rough_length`.
    """
    measure = length or upper_length
    rows = zip(edges_of(corners), distances, strict=True)
    sides = [_moved(edge, by * measure(way(*edge)) if by else NIL) for edge, by in rows]
    kept = _lasting(sides)
    found: list[Point] = []
    for i, before in zip(kept, (kept[-1], *kept), strict=False):
        seam = max(distances[before], distances[i])
        found += _corner(corners[i], (sides[before], sides[i]), seam=seam)
    return tuple(dict.fromkeys(found))


def cut_corner(before: Point, corner: Point, after: Point, *, seam: Fraction) -> list[Point]:
    """Give the cut points at one corner of a clockwise outline between two straight edges: one, or two."""
    edges = ((before, corner), (corner, after))
    into, away = (_moved(edge, seam * upper_length(way(*edge))) for edge in edges)
    return _corner(corner, (into, away), seam=seam)


def clockwise(outline: Sequence[Point]) -> tuple[Point, ...]:
    """Give the corners of an outline clockwise as it is seen, y downward."""
    return tuple(outline) if sign(twice_area(outline)) > 0 else tuple(reversed(outline))


def template(outline: Sequence[Point], *, seam: Fraction, step: Fraction) -> Template:
    """Lay a template on the smaller of two rectangles: as it is, or its longest edge along the fabric.

    The rectangle stands: it is at most as wide as it is long.
    """
    plain = _standing(outline, (Fraction(1), Fraction(0)), seam=seam, step=step)
    along = _longest_edge(outline)
    if along is None or 0 in along:
        return plain
    turned = _standing(outline, along, seam=seam, step=step)
    saves = turned.width * turned.length <= plain.width * plain.length * WORTH_TURNING
    return turned if saves else plain


def upper_length(vector: Point) -> Number:
    """Give the length of a vector: exact where it can be written, else at most 1/1000000 above."""
    exact = exact_length(vector)
    return exact if exact is not None else rough_length(vector)


def rough_length(vector: Point) -> Fraction:
    """Give a length above that of a vector, never below it, by a millionth of an inch or of itself."""
    square = _dot(vector, vector)
    near = ceiling(square, Fraction(1, FINE**2))
    fine = FINE if near >= 1 else FINE * (isqrt(int(1 / near)) + 1)
    return Fraction(isqrt(int(ceiling(square * fine**2, Fraction(1)))) + 1, fine)


def exact_length(vector: Point) -> Number | None:
    """Give the length of a vector where it is a root that can be written, as at 0, 45 and 60 degrees.

    >>> exact_length((root(2), root(2)))
    Fraction(2, 1)
    """
    x, y = vector
    if not isinstance(square := _dot(vector, vector), Surd):
        return root(square) if max(square.numerator, square.denominator) < LARGEST else None
    if not x:
        return _unsigned(y)
    slope = y / x
    return None if isinstance(stretch := 1 + slope * slope, Surd) else _unsigned(x) * root(stretch)


def edges_of(outline: Sequence[Point]) -> list[tuple[Point, Point]]:
    """Give the edges in order; edge i starts at corner i."""
    return list(zip(outline, (*outline[1:], outline[0]), strict=True))


def way(start: Point, end: Point) -> Point:
    """Give the vector from one point to another."""
    return (end[0] - start[0], end[1] - start[1])


def box_of(points: Sequence[Point]) -> tuple[Point, Point]:
    """Give the top left and the bottom right corner of the upright box round some points."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys)), (max(xs), max(ys))


def _dot(a: Point, b: Point) -> Number:
    return a[0] * b[0] + a[1] * b[1]


def _unsigned(number: Number) -> Number:
    return -number if sign(number) < 0 else number


def _moved(edge: tuple[Point, Point], by: Number) -> _Side:
    """Move an edge outward; `by` is the distance times the edge's length."""
    along = way(*edge)
    normal = (along[1], -along[0])
    return _Side(normal, normal[0] * edge[0][0] + normal[1] * edge[0][1] + by)


def _lasting(sides: Sequence[_Side]) -> list[int]:
    """Leave out edges that are gone once moved: in a notch, or in an inward curve, the others meet first."""
    kept = list(range(len(sides)))
    at = 0
    while at < len(kept) and len(kept) > FEWEST:
        before, side, after = (sides[kept[(at + step) % len(kept)]] for step in (-1, 0, 1))
        if _is_swallowed(before, side, after):
            del kept[at]
            at = max(at - 2, 0)
        else:
            at += 1
    return kept


def _is_swallowed(before: _Side, side: _Side, after: _Side) -> bool:
    turns = (_turn(before, side), _turn(side, after))
    if min(turns) >= 0 or 0 in turns:
        return False
    run = way(_meeting(before, side), _meeting(side, after))
    return sign(_dot(run, (-side.normal[1], side.normal[0]))) <= 0


def _turn(before: _Side, after: _Side) -> int:
    """Say which way an outline turns from one edge to the next: 1 clockwise, 0 straight on."""
    return sign(before.normal[0] * after.normal[1] - before.normal[1] * after.normal[0])


def _corner(corner: Point, sides: tuple[_Side, _Side], *, seam: Fraction) -> list[Point]:
    """Give where two moved edges meet, or the two ends of a blunted tip; a step where they are parallel."""
    before, after = sides
    turn = _turn(before, after)
    if turn == 0:
        return [_foot(corner, before), _foot(corner, after)]
    if turn > 0 and _is_sharp(before.normal, after.normal):
        blunt = _blunt(corner, sides, seam=seam)
        return [_meeting(before, blunt), _meeting(blunt, after)]
    return [_meeting(before, after)]


def _is_sharp(before: Point, after: Point) -> bool:
    """Say whether a corner is under 45 degrees, from the outward normals of its two edges."""
    along = _dot(before, after)
    return sign(along) < 0 and sign(2 * along * along - _dot(before, before) * _dot(after, after)) > 0


def _blunt(corner: Point, sides: tuple[_Side, _Side], *, seam: Fraction) -> _Side:
    """Give the line that cuts a tip off, square to its middle line (to 1/256)."""
    into, away = ((-side.normal[1], side.normal[0]) for side in sides)  # the edges, in their direction
    lengths = rough_length(into), rough_length(away)
    normal: Point = (
        _roughly(into[0] / lengths[0] - away[0] / lengths[1]),
        _roughly(into[1] / lengths[0] - away[1] / lengths[1]),
    )
    level = normal[0] * corner[0] + normal[1] * corner[1]
    return _Side(normal, level + seam * REACH * rough_length(normal))


def _roughly(number: Number) -> Fraction:
    return ceiling(number, Fraction(1, ROUGH))


def _meeting(a: _Side, b: _Side) -> Point:
    det = a.normal[0] * b.normal[1] - a.normal[1] * b.normal[0]
    x = (a.level * b.normal[1] - b.level * a.normal[1]) / det
    return (x, (a.normal[0] * b.level - b.normal[0] * a.level) / det)


def _foot(point: Point, side: _Side) -> Point:
    """Give the point of a moved edge that lies square to a corner."""
    square = side.normal[0] * side.normal[0] + side.normal[1] * side.normal[1]
    away = (side.level - side.normal[0] * point[0] - side.normal[1] * point[1]) / square
    return (point[0] + side.normal[0] * away, point[1] + side.normal[1] * away)


def _longest_edge(outline: Sequence[Point]) -> Point | None:
    """Give the direction of the longest edge as a unit vector; None when it cannot be written."""
    longest = max((way(start, end) for start, end in edges_of(outline)), key=lambda d: (_dot(d, d), d))
    length = exact_length(longest)
    if length is None:
        return None
    return (longest[0] / length, longest[1] / length)


def _standing(outline: Sequence[Point], along: Point, *, seam: Fraction, step: Fraction) -> Template:
    laid = _in_rectangle(outline, along, seam=seam, step=step)
    if laid.width <= laid.length:
        return laid
    return _in_rectangle(outline, (-along[1], along[0]), seam=seam, step=step)


def _in_rectangle(outline: Sequence[Point], along: Point, *, seam: Fraction, step: Fraction) -> Template:
    """Turn a direction of the outline along the rectangle, and move the cut shape into its corner."""
    cos, sin = along
    laid = [(x * cos + y * sin, y * cos - x * sin) for x, y in clockwise(outline)]
    shape = cut_outline(laid, seam)
    (left, top), (right, bottom) = box_of(shape)
    return Template(
        outline=tuple((x - left, y - top) for x, y in laid),
        polygon=tuple((x - left, y - top) for x, y in shape),
        width=ceiling(right - left, step),
        length=ceiling(bottom - top, step),
        turned_by=along,
    )
