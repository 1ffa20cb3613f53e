"""Is a drawing a partition of its rectangle?  An exact proof, and the fault by name when it is not.

The proof: every edge is split at every corner that lies on it; then each directed piece of an edge,
the rectangle's own taken backwards, must occur once and its reverse once, and the areas must add up.
The winding numbers then sum to 1 inside and 0 outside, so no pair of patches need be compared.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, product
from typing import TypeAlias

from patterns.engine import geometry
from patterns.engine.errors import CrossesItself, Gap, OutsidePatch, Overlap, Place, ZeroArea
from patterns.engine.geometry import Coordinate, Corner, Polygon, cross, dot, edges, inside, minus
from patterns.engine.parts import Patch
from patterns.engine.surds import Number, sign

Edge: TypeAlias = tuple[Corner, Corner]

CORNERS_OF_A_PATCH = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """A drawing multiplied by its common denominator."""

    factor: int
    corner: Corner  # bottom right of the rectangle
    polygons: tuple[Polygon, ...]  # clockwise, without straight corners

    def place(self, corner: Corner) -> Place:
        """Give a point in the drawing's own numbers."""
        return geometry.exact(corner[0]) / self.factor, geometry.exact(corner[1]) / self.factor

    @property
    def outline(self) -> Polygon:
        """Give the rectangle, clockwise."""
        right, bottom = self.corner
        return ((0, 0), (right, 0), (right, bottom), (0, bottom))


def check_partition(width: Number, height: Number, patches: Sequence[Patch]) -> None:
    """Prove that the patches tile width x height, else raise the fault with its place.

    ZeroArea, CrossesItself, OutsidePatch, Overlap or Gap; units are the drawing's own.
    """
    sheet = _sheet(width, height, patches)
    unmatched = _unmatched_edges(sheet)
    covered = sum((geometry.twice_area(polygon) for polygon in sheet.polygons), start=0)
    if unmatched or covered != 2 * sheet.corner[0] * sheet.corner[1]:
        _name_the_fault(sheet, unmatched)


def _sheet(width: Number, height: Number, patches: Sequence[Patch]) -> _Sheet:
    numbers = [width, height, *(number for patch in patches for point in patch.points for number in point)]
    factor = geometry.common_denominator(numbers)
    polygons = []
    for index, patch in enumerate(patches):
        polygon = tuple(geometry.scaled_point(point, factor) for point in patch.points)
        _check_outline(polygon, index=index, patch=patch)
        polygons.append(geometry.tidied(polygon))
    corner = geometry.scaled_point((width, height), factor)
    return _Sheet(factor=factor, corner=corner, polygons=tuple(polygons))


def _check_outline(polygon: Polygon, *, index: int, patch: Patch) -> None:
    """Refuse a patch without area, and one that crosses, touches or runs back on itself."""
    kept = [i for i, corner in enumerate(polygon) if corner != polygon[i - 1]]
    corners = [polygon[i] for i in kept]
    flat = all(not geometry.side(corner, corners[0], corners[1]) for corner in corners[2:])
    if len(corners) < CORNERS_OF_A_PATCH or flat:
        raise ZeroArea(where=patch.points[0], patches=(index,))
    fault = _spike(corners)
    if fault is None:
        fault = _meeting(corners)
    if fault is not None:
        raise CrossesItself(where=patch.points[kept[fault]], patches=(index,))


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
    for i, j in combinations(range(len(sides)), 2):
        neighbours = j - i in {1, len(sides) - 1}
        if not neighbours and geometry.touch(sides[i], sides[j]):
            return j
    return None


def _unmatched_edges(sheet: _Sheet) -> list[Edge]:
    """Give the pieces of edges that have not exactly one partner the other way."""
    backwards = tuple(reversed(sheet.outline))
    pieces = Counter(_pieces((*sheet.polygons, backwards)))
    return [edge for edge, count in pieces.items() if count != 1 or pieces[(edge[1], edge[0])] != 1]


def _pieces(polygons: Sequence[Polygon]) -> Iterator[Edge]:
    """Split every edge at every corner that lies on it."""
    corners = {corner for polygon in polygons for corner in polygon}
    lines: dict[Corner, dict[Coordinate, list[Corner]]] = {}
    for polygon in polygons:
        for start, end in edges(polygon):
            along = geometry.direction(minus(end, start))
            if along not in lines:
                lines[along] = _corners_by_line(corners, along)
            yield from _split(start, end, lines[along][cross(along, start)])


def _corners_by_line(corners: set[Corner], along: Corner) -> dict[Coordinate, list[Corner]]:
    by_line = defaultdict(list)
    for corner in corners:
        by_line[cross(along, corner)].append(corner)
    return by_line


def _split(start: Corner, end: Corner, on_line: Sequence[Corner]) -> Iterator[Edge]:
    low, high = sorted((start, end))
    stops = sorted((corner for corner in on_line if low <= corner <= high), reverse=start > end)
    return pairwise(stops)


def _name_the_fault(sheet: _Sheet, unmatched: Sequence[Edge]) -> None:
    right, bottom = sheet.corner
    for index, polygon in enumerate(sheet.polygons):
        for x, y in polygon:
            if x < 0 or y < 0 or x > right or y > bottom:
                raise OutsidePatch(where=sheet.place((x, y)), patches=(index,))
    for i, j in _near_pairs(sheet.polygons):
        shared = _shared_place(sheet.polygons[i], sheet.polygons[j])
        if shared is not None:
            raise Overlap(where=sheet.place(shared), patches=(i, j))
    start, end = unmatched[0]
    raise Gap(where=sheet.place(geometry.middle(start, end)))


def _near_pairs(polygons: Sequence[Polygon]) -> Iterator[tuple[int, int]]:
    """Give the pairs whose upright boxes overlap; boxes are compared by rank, so roots are sorted once."""
    ranks = [
        {number: rank for rank, number in enumerate(sorted({c[axis] for p in polygons for c in p}))}
        for axis in (0, 1)
    ]
    boxes = [geometry.bounds([(ranks[0][x], ranks[1][y]) for x, y in polygon]) for polygon in polygons]
    for i, j in combinations(range(len(boxes)), 2):
        (left, top, right, bottom), other = boxes[i], boxes[j]
        if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
            yield i, j


def _shared_place(first: Polygon, second: Polygon) -> Corner | None:
    """Give a point where two patches lie over each other, or None."""
    for one, other in ((first, second), (second, first)):
        for point in (*one, *(geometry.middle(*edge) for edge in edges(one)), _point_inside(one)):
            if inside(point, other):
                return point
    pairs = product(edges(first), edges(second))
    return next((one[0] for one, other in pairs if geometry.crossing(one, other)), None)


def _point_inside(polygon: Polygon) -> Corner:
    """Give a point inside: the middle of a corner's triangle that holds no other corner."""
    count = len(polygon)
    for i in range(count):
        ear = (polygon[i - 1], polygon[i], polygon[(i + 1) % count])
        if sign(geometry.twice_area(ear)) > 0 and not any(
            corner not in ear and all(geometry.side(corner, *edge) >= 0 for edge in edges(ear))
            for corner in polygon
        ):
            return geometry.middle(*ear)
    raise AssertionError("every simple polygon has an ear")
