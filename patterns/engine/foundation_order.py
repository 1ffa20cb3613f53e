"""In which order a section's patches are added on a foundation, and along which edge each."""

from __future__ import annotations

from collections.abc import Sequence

from patterns.engine import geometry
from patterns.engine.geometry import Coordinate, Corner, Polygon
from patterns.engine.parts import Patch, Point


def adding_order(patches: Sequence[Patch]) -> tuple[Patch, ...] | None:
    """Give the order in which each next patch covers one straight edge of all earlier ones, or None.

    Taken apart from the outside: the farthest patch that a line parts from the rest is sewn last.
    """
    shapes = _in_whole_numbers(patches)
    middle = geometry.middle(*(corner for shape in shapes for corner in shape))
    rest = sorted(range(len(shapes)), key=lambda number: _distance(shapes[number], middle))
    last: list[int] = []
    while len(rest) > 1:
        outer = next((n for n in reversed(rest) if _edge(shapes[n], _others(shapes, rest, n))), None)
        if outer is None:
            return None
        rest.remove(outer)
        last.append(outer)
    return tuple(patches[number] for number in (*rest, *reversed(last)))


def joining_edge(patch: Patch, earlier: Sequence[Patch]) -> tuple[Point, Point] | None:
    """Give the edge along which a patch is added: every earlier one lies on its other side."""
    edge = _edge(geometry.tidied(patch.points), [other.points for other in earlier])
    return edge and (_exact(edge[0]), _exact(edge[1]))


def _edge(shape: Polygon, others: Sequence[Sequence[Corner]]) -> tuple[Corner, Corner] | None:
    for start, end in geometry.edges(shape):
        if all(geometry.side(corner, start, end) <= 0 for other in others for corner in other):
            return start, end
    return None


def _others(shapes: Sequence[Polygon], numbers: Sequence[int], without: int) -> list[Polygon]:
    return [shapes[number] for number in numbers if number != without]


def _in_whole_numbers(patches: Sequence[Patch]) -> list[Polygon]:
    """Multiply by the common denominator: whole numbers are much the fastest."""
    points = [point for patch in patches for point in patch.points]
    factor = geometry.common_denominator([number for point in points for number in point])
    return [
        geometry.tidied([geometry.scaled_point(point, factor) for point in patch.points]) for patch in patches
    ]


def _distance(shape: Polygon, middle: Point) -> Coordinate:
    """Give the squared distance of a shape's middle."""
    away = geometry.minus(geometry.middle(*shape), middle)
    return geometry.dot(away, away)


def _exact(corner: Corner) -> Point:
    return geometry.exact(corner[0]), geometry.exact(corner[1])
