"""Is a drawing a partition of its rectangle?  An exact proof, and the fault by name when it is not.

The proof: every patch is a simple polygon, taken clockwise; the edges of all patches and the rectangle's
own, taken backwards, must cancel.  On one line they do so when at every corner as many edges begin as
end, so no edge is split and no pair of patches is compared.  The winding numbers then sum to 1 inside and
0 outside.  Only a drawing that fails is looked through for the place and the patches of its fault.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from typing import TypeAlias

from patterns.engine import geometry
from patterns.engine.errors import CrossesItself, OutsidePatch, ZeroArea
from patterns.engine.geometry import Coordinate, Corner, Polygon, cross, dot, edges, minus
from patterns.engine.partition_faults import Sheet, name_the_fault
from patterns.engine.parts import Patch
from patterns.engine.surds import Number, sign
from patterns.engine.whole_surds import direction, scale_of

Line: TypeAlias = tuple[Corner, Coordinate]  # a direction, and how far the line lies from (0, 0) across it

CORNERS_OF_A_PATCH = 3
_CORNERS_THAT_TURN_ONCE = 4  # so many corners that all turn one way go round once: the outline is convex


def check_partition(width: Number, height: Number, patches: Sequence[Patch]) -> None:
    """Prove that the patches tile width x height, else raise the fault with its place.

    ZeroArea, CrossesItself, OutsidePatch, Overlap or Gap; units are the drawing's own.
    """
    sheet = _sheet(width, height, patches)
    _refuse_outside(sheet)
    open_ends = _open_ends((*sheet.polygons, tuple(reversed(sheet.outline))))
    if open_ends:
        name_the_fault(sheet, open_ends)


def check_outline(width: Number, height: Number, shape: Patch) -> None:
    """Prove that a shape is an outline inside width x height; ZeroArea, CrossesItself, OutsidePatch."""
    _refuse_outside(_sheet(width, height, [shape]))


def _sheet(width: Number, height: Number, patches: Sequence[Patch]) -> Sheet:
    scale = scale_of(
        [width, height, *(number for patch in patches for point in patch.points for number in point)]
    )
    polygons = []
    for index, patch in enumerate(patches):
        polygon = tuple((scale.of(x), scale.of(y)) for x, y in patch.points)
        polygons.append(_outline(polygon, index=index, patch=patch))
    corner = (scale.of(width), scale.of(height))
    return Sheet(scale=scale, corner=corner, polygons=tuple(polygons))


def _outline(polygon: Polygon, *, index: int, patch: Patch) -> Polygon:
    """Give the outline clockwise; refuse one without area, or that meets itself or runs back."""
    kept = [i for i, corner in enumerate(polygon) if corner != polygon[i - 1]]
    corners = [polygon[i] for i in kept]
    turns = _turns(corners) if len(corners) >= CORNERS_OF_A_PATCH else []
    if not any(turns):
        raise ZeroArea(where=patch.points[0], patches=(index,))
    if len(corners) <= _CORNERS_THAT_TURN_ONCE and abs(sum(turns)) == len(corners):
        return tuple(corners if turns[0] > 0 else reversed(corners))
    fault = _spike(corners)
    if fault is None:
        fault = _meeting(corners)
    if fault is not None:
        raise CrossesItself(where=patch.points[kept[fault]], patches=(index,))
    return geometry.tidied(polygon)


def _turns(corners: Sequence[Corner]) -> list[int]:
    """Say for every corner which way the outline turns there: 1 clockwise, 0 straight on or back."""
    sides = [minus(end, start) for start, end in edges(corners)]
    return [sign(cross(sides[i - 1], side)) for i, side in enumerate(sides)]


def _spike(corners: Sequence[Corner]) -> int | None:
    """Find a corner at which the outline runs back on itself."""
    for i, corner in enumerate(corners):
        back, ahead = minus(corners[i - 1], corner), minus(corners[(i + 1) % len(corners)], corner)
        if not cross(back, ahead) and sign(dot(back, ahead)) > 0:
            return i
    return None


def _meeting(corners: Sequence[Corner]) -> int | None:
    """Find the start of an edge that meets an earlier one which is not its neighbour."""
    sides = list(edges(corners))
    spans = [(*sorted((a[0], b[0])), *sorted((a[1], b[1]))) for a, b in sides]
    by_left = sorted(range(len(sides)), key=lambda i: spans[i][0])
    for place, i in enumerate(by_left):
        _, right, top, bottom = spans[i]
        for j in by_left[place + 1 :]:
            left, _, over, under = spans[j]
            if left > right:
                break
            neighbours = abs(j - i) in {1, len(sides) - 1}
            if not neighbours and over <= bottom and top <= under and geometry.touch(sides[i], sides[j]):
                return max(i, j)
    return None


def _refuse_outside(sheet: Sheet) -> None:
    right, bottom = sheet.corner
    for index, polygon in enumerate(sheet.polygons):
        for x, y in polygon:
            if x < 0 or y < 0 or x > right or y > bottom:
                raise OutsidePatch(where=sheet.place((x, y)), patches=(index,))


def _open_ends(polygons: Sequence[Polygon]) -> dict[Line, dict[Corner, int]]:
    """Give for each line the corners at which not as many edges begin as end, and the difference."""
    ends: dict[Line, dict[Corner, int]] = defaultdict(lambda: defaultdict(int))
    for polygon in polygons:
        for start, end in edges(polygon):
            along = direction(*minus(end, start))
            on_line = ends[along, cross(along, start)]
            on_line[start] += 1
            on_line[end] -= 1
    left = ((line, {corner: n for corner, n in corners.items() if n}) for line, corners in ends.items())
    return {line: corners for line, corners in left if corners}
