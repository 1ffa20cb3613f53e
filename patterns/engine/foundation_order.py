"""In which order a section's patches are added on a foundation, and along which edge each."""

from __future__ import annotations

from collections.abc import Sequence

from patterns.engine import geometry
from patterns.engine.parts import Patch, Point


def adding_order(patches: Sequence[Patch]) -> tuple[Patch, ...] | None:
    """Give the order in which each next patch covers one straight edge of all earlier ones, or None.

    Taken apart from the outside: the farthest patch that a line parts from the rest is sewn last.
    """
    rest, last = list(patches), []
    middle = geometry.middle(*(point for patch in patches for point in patch.points))
    while len(rest) > 1:
        outer = [patch for patch in rest if joining_edge(patch, [p for p in rest if p is not patch])]
        if not outer:
            return None
        patch = max(outer, key=lambda each: _distance(each, middle))
        rest.remove(patch)
        last.append(patch)
    return (*rest, *reversed(last))


def joining_edge(patch: Patch, earlier: Sequence[Patch]) -> tuple[Point, Point] | None:
    """Give the edge along which a patch is added: every earlier one lies on its other side."""
    corners = geometry.tidied(patch.points)
    for start, end in geometry.edges(corners):
        others = (geometry.side(point, start, end) for other in earlier for point in other.points)
        if all(side <= 0 for side in others):
            return _exact(start), _exact(end)
    return None


def _distance(patch: Patch, middle: Point) -> geometry.Coordinate:
    """Give the squared distance of a patch's middle."""
    away = geometry.minus(geometry.middle(*patch.points), middle)
    return geometry.dot(away, away)


def _exact(corner: geometry.Corner) -> Point:
    return geometry.exact(corner[0]), geometry.exact(corner[1])
