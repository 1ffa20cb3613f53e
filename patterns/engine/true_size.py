"""Shapes to be printed at their own size: templates and foundations, with the lines to cut and to sew on.

All points are inches, y downward, clockwise.  A quarter circle, which the engine keeps as points of the
circle, is one bent edge here: r for the sewing line, r plus or minus the seam for the cut line.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TYPE_CHECKING, Any, TypeAlias

from patterns.engine.arcs import POINTS, centre_of
from patterns.engine.drawing import Bend, Pixel, rational, square_root
from patterns.engine.geometry import exact, tidied
from patterns.engine.surds import parse_number
from patterns.engine.templates import clockwise, cut_corner, cut_outline

if TYPE_CHECKING:
    from patterns.engine.parts import Point
    from patterns.engine.steps import Piece

Edge: TypeAlias = "tuple[Point, Point, Point | None]"  # start, end, and the centre of a quarter circle


@dataclass(frozen=True, slots=True, kw_only=True)
class Contour:
    """A closed line; the edge from point i on is bent where `bends` says so."""

    points: tuple[Point, ...]
    bends: Mapping[int, Bend] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueShape:
    """What is printed of one template or foundation."""

    cut: Contour
    sewn: Contour
    reach: tuple[Point, ...]  # a polygon round all of it
    dots: tuple[Point, ...] = ()  # corners of the sewing line, marked on the fabric
    patches: tuple[tuple[str, tuple[Point, ...]], ...] = ()  # of a foundation: "1 A" and its lines
    has_grain: bool = False  # the straight grain runs up and down, or across where it is turned
    is_turned: bool = False


def template_shape(piece: Piece, seam: Fraction) -> TrueShape:
    """Give a template as it lies on the right side of the fabric."""
    sewn = sewn_contour(piece.outline)
    return TrueShape(
        cut=cut_contour(piece.outline, seam),
        sewn=sewn,
        reach=cut_outline(piece.outline, seam),
        dots=sewn.points,
        has_grain=True,
    )


def foundation_shape(operation: Mapping[str, Any], seam: Fraction, fabrics: Mapping[str, str]) -> TrueShape:
    """Give the printed side of a foundation, in mirror image; `fabrics` names the letter of each piece."""
    outline = _mirrored(operation["outline"])
    patches = tuple(
        (f"{number} {fabrics[row['of']]}", _mirrored(row["points"]))
        for number, row in enumerate(operation["patches"], 1)
    )
    cut = cut_outline(outline, seam)
    return TrueShape(cut=Contour(points=cut), sewn=Contour(points=outline), reach=cut, patches=patches)


def turned(shape: TrueShape) -> TrueShape:
    """Lay a shape on its side, a quarter turn clockwise: what is too tall for a page may be wide enough."""
    return TrueShape(
        cut=Contour(points=_turned(shape.cut.points), bends=shape.cut.bends),
        sewn=Contour(points=_turned(shape.sewn.points), bends=shape.sewn.bends),
        reach=_turned(shape.reach),
        dots=_turned(shape.dots),
        patches=tuple((name, _turned(points)) for name, points in shape.patches),
        has_grain=shape.has_grain,
        is_turned=not shape.is_turned,
    )


def _turned(points: Sequence[Point]) -> tuple[Point, ...]:
    return tuple((-y, x) for x, y in points)


def sewn_contour(outline: Sequence[Point]) -> Contour:
    """Fold the points of every quarter circle into one bent edge."""
    found = edges_with_arcs(clockwise(outline))
    bends = {i: _bend(edge, edge[2], Fraction(0)) for i, edge in enumerate(found) if edge[2]}
    return Contour(points=tuple(start for start, _, _ in found), bends=bends)


def cut_contour(outline: Sequence[Point], seam: Fraction) -> Contour:
    """Move an outline outward by the seam: the engine's cut shape, its arcs true."""
    found = edges_with_arcs(clockwise(outline))
    bent = [_bend(edge, edge[2], seam).radius for edge in found if edge[2]]
    if not bent or min(bent) <= 0:  # no arc, or one that is narrower than the seam
        return Contour(points=cut_outline(outline, seam))
    points: list[Point] = []
    bends: dict[int, Bend] = {}
    for i, edge in enumerate(found):
        points += _cut_points(found[i - 1], edge, seam)
        if edge[2]:
            bends[len(points) - 1] = _bend(edge, edge[2], seam)
    return Contour(points=tuple(points), bends=bends)


def edges_with_arcs(outline: Sequence[Point]) -> list[Edge]:
    """Give the edges of an outline, a quarter circle as one edge with its centre."""
    count = len(outline)
    round_twice = (*outline, *outline)
    arcs = {i: centre_of(round_twice[i : i + POINTS]) for i in range(count)} if count >= POINTS else {}
    starts = [i for i, centre in arcs.items() if centre]
    at = first = starts[0] if starts else 0
    found: list[Edge] = []
    while at < first + count:
        centre = arcs.get(at % count)
        after = at + (POINTS - 1 if centre else 1)
        found.append((outline[at % count], outline[after % count], centre))
        at = after
    return found


def _mirrored(rows: Sequence[Sequence[str]]) -> tuple[Point, ...]:
    corners = tidied([(-parse_number(x), parse_number(y)) for x, y in rows])
    return clockwise([(exact(x), exact(y)) for x, y in corners])


def _bend(edge: Edge, centre: Point, seam: Fraction) -> Bend:
    """Bend an edge; outward is away from the centre where the shape lies round it."""
    (ax, ay), (bx, by) = _away(edge[0], centre), _away(edge[1], centre)
    clockwise_round = ax * by - ay * bx > 0
    radius = square_root(ax * ax + ay * ay)
    return Bend(radius + seam if clockwise_round else radius - seam, clockwise_round)


def _away(point: Point, centre: Point) -> Pixel:
    return rational(point[0]) - rational(centre[0]), rational(point[1]) - rational(centre[1])


def _cut_points(before: Edge, after: Edge, seam: Fraction) -> Sequence[Point]:
    """Give the cut points at the corner between two edges."""
    corner = after[0]
    if not before[2] and not after[2]:
        return cut_corner(before[0], corner, after[1], seam=seam)
    if before[2] and after[2]:
        return _between_arcs(before, after, seam)
    arc, line = (before, after) if before[2] else (after, before)
    return (_on_circle(arc, line, corner, seam=seam),)


def _between_arcs(before: Edge, after: Edge, seam: Fraction) -> Sequence[Point]:
    """Give the cut points where two arcs meet: at a tip along both tangents, in a cleft where they cross."""
    first, second, corner = before[2] or before[0], after[2] or after[0], after[0]
    start = _radial(corner, after, second, seam=seam)
    if first == second:
        return (start,)
    end = _radial(corner, before, first, seam=seam)
    into, away = (_tangent(edge, centre, corner) for edge, centre in ((before, first), (after, second)))
    x, y = _away(corner, (Fraction(0), Fraction(0)))
    if into[0] * away[1] - into[1] * away[0] > 0:
        ahead = cut_corner((x - into[0], y - into[1]), (x, y), (x + away[0], y + away[1]), seam=seam)
        return (end, *ahead, start)
    radii = _bend(before, first, seam).radius, _bend(after, second, seam).radius
    return (_crossing(first, second, radii, near=corner) or start,)


def _tangent(edge: Edge, centre: Point, corner: Point) -> Pixel:
    """Give the direction in which an arc runs through one of its ends."""
    x, y = _away(corner, centre)
    return (-y, x) if _bend(edge, centre, Fraction(0)).clockwise else (y, -x)


def _crossing(first: Point, second: Point, radii: Pixel, *, near: Point) -> Pixel | None:
    """Give where two circles cross, of both places the one near a point."""
    x, y = _away(second, first)
    square = x * x + y * y
    along = (square + radii[0] ** 2 - radii[1] ** 2) / (2 * square)
    high = radii[0] ** 2 / square - along**2
    if high < 0:
        return None
    across = square_root(high)
    left, top = rational(first[0]), rational(first[1])
    spots = [(left + x * along - y * by, top + y * along + x * by) for by in (across, -across)]
    return min(spots, key=lambda spot: sum(part**2 for part in _away(spot, near)))


def _radial(corner: Point, edge: Edge, centre: Point, *, seam: Fraction) -> Pixel:
    """Move an end of an arc straight away from, or toward, its centre."""
    x, y = _away(corner, centre)
    share = _bend(edge, centre, seam).radius / square_root(x * x + y * y)
    return rational(centre[0]) + x * share, rational(centre[1]) + y * share


def _on_circle(arc: Edge, line: Edge, corner: Point, *, seam: Fraction) -> Pixel:
    """Give where a moved straight edge meets a moved arc, near their corner."""
    centre = arc[2] or corner
    along = _away(line[1], line[0])
    long = square_root(along[0] ** 2 + along[1] ** 2)
    way = (along[0] / long, along[1] / long)
    out = (way[1], -way[0])
    x, y = _away(line[0], centre)
    far = x * out[0] + y * out[1] + seam  # of the moved line from the centre
    half = square_root(max(_bend(arc, centre, seam).radius ** 2 - far**2, Fraction(0)))
    x, y = _away(corner, centre)
    run = half if x * way[0] + y * way[1] > 0 else -half
    return (
        rational(centre[0]) + far * out[0] + run * way[0],
        rational(centre[1]) + far * out[1] + run * way[1],
    )
