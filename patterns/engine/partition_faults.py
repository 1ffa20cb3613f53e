"""Where a drawing is no partition, and which patches lie over each other there.

On a line whose edges do not cancel, two neighbouring corners bound a stretch that has more patches on one
side than on the other.  Just beside the middle of such a stretch either two patches lie over each other, or
none does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, islice, pairwise
from typing import NoReturn, TypeAlias

from patterns.engine import geometry
from patterns.engine.errors import Gap, Overlap, Place
from patterns.engine.geometry import Box, Coordinate, Corner, Polygon, cross, dot, edges, inside, minus
from patterns.engine.surds import sign
from patterns.engine.whole_surds import Scale

Stretch: TypeAlias = tuple[Corner, Corner]
OpenEnds: TypeAlias = Mapping[tuple[Corner, Coordinate], Mapping[Corner, int]]

_MOST_LOOKED_AT = 12  # stretches; one fault leaves a few
_ONE_AND_THE_WHOLE = 2
_SHARES = ((1, 2), (1, 3), (2, 5), (3, 7), (5, 11), (8, 19))  # of a stretch: a point where no edge crosses it


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A drawing in whole numbers."""

    scale: Scale
    corner: Corner  # bottom right of the rectangle
    polygons: tuple[Polygon, ...]  # clockwise

    def place(self, corner: Corner, over: int = 1) -> Place:
        """Give a point in the drawing's own numbers, divided by `over`."""
        return self.scale.back(corner[0], over), self.scale.back(corner[1], over)

    def holds(self, corner: Corner, over: int) -> bool:
        """Say whether a point, divided by `over`, lies inside the rectangle and on none of its sides."""
        right, bottom = self.corner
        return 0 < corner[0] < right * over and 0 < corner[1] < bottom * over

    @property
    def outline(self) -> Polygon:
        """Give the rectangle, clockwise."""
        right, bottom = self.corner
        return ((0, 0), (right, 0), (right, bottom), (0, bottom))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """A point of a stretch, times `over` so that it is whole, and the way along the stretch."""

    at: Corner
    over: int
    along: Corner

    def is_in(self, box: Box) -> bool:
        """Say whether the point lies in an upright box, its sides included."""
        (x, y), over = self.at, self.over
        left, top, right, bottom = box
        return left * over <= x <= right * over and top * over <= y <= bottom * over

    def side_of(self, start: Corner, end: Corner) -> int:
        """Say on which side of the line through an edge the point lies."""
        first = (start[0] * self.over, start[1] * self.over)
        return sign(cross(minus(end, start), minus(self.at, first)))


def name_the_fault(sheet: Sheet, open_ends: OpenEnds) -> NoReturn:
    """Raise the Overlap of a drawing that is no partition, or where none is found its Gap."""
    polygons = (*sheet.polygons, sheet.outline)
    boxes = [geometry.bounds(polygon) for polygon in polygons]
    gaps = []
    for stretch in islice(_stretches(open_ends), _MOST_LOOKED_AT):
        spot, sides = _looked_at(stretch, polygons, boxes)
        for over in sides:
            if len(over) > _ONE_AND_THE_WHOLE:
                raise Overlap(where=_shared_place(sheet, over[0], over[1], spot=spot), patches=over[:2])
        gaps += [spot] * ((len(polygons) - 1,) in sides)
    within = [spot for spot in gaps if sheet.holds(spot.at, spot.over)]
    found = next(iter(within + gaps), _spot(next(_stretches(open_ends)), *_SHARES[0]))
    raise Gap(where=sheet.place(found.at, found.over))


def _stretches(open_ends: OpenEnds) -> Iterator[Stretch]:
    """Give the stretches whose edges do not cancel, line by line."""
    for corners in open_ends.values():
        stops = sorted(corners)
        running = accumulate(corners[stop] for stop in stops)
        yield from (pair for pair, edges_over in zip(pairwise(stops), running, strict=False) if edges_over)


def _looked_at(
    stretch: Stretch, polygons: Sequence[Polygon], boxes: Sequence[Box]
) -> tuple[_Spot, tuple[tuple[int, ...], ...]]:
    """Give a point of a stretch and the polygons right and left of it; none if edges cross everywhere."""
    for share in _SHARES:
        spot = _spot(stretch, *share)
        sides: tuple[list[int], list[int]] = ([], [])
        near = [i for i, box in enumerate(boxes) if spot.is_in(box)]
        for number in near:
            covered = _covered(spot, polygons[number])
            if covered is None:
                break
            for side, over in zip(sides, covered, strict=True):
                side.extend([number] * over)
        else:
            return spot, tuple(map(tuple, sides))
    return spot, ()


def _spot(stretch: Stretch, part: int, parts: int) -> _Spot:
    (x, y), along = stretch[0], minus(stretch[1], stretch[0])
    return _Spot(at=(x * parts + along[0] * part, y * parts + along[1] * part), over=parts, along=along)


def _covered(spot: _Spot, polygon: Polygon) -> tuple[bool, bool] | None:
    """Say whether a polygon covers the right and the left side; None where an edge crosses or ends there."""
    within = False
    y = spot.at[1]
    for start, end in edges(polygon):
        above, below = start[1] * spot.over, end[1] * spot.over
        side = spot.side_of(start, end)
        if not side and spot.is_in(geometry.bounds((start, end))):
            return _on_edge(spot, start, end)
        if (above > y) != (below > y):
            within ^= side == (1 if above > below else -1)
    return within, within


def _on_edge(spot: _Spot, start: Corner, end: Corner) -> tuple[bool, bool] | None:
    """Go by the direction of the edge, since a polygon lies on the right hand of its edges."""
    along = minus(end, start)
    ends = [(x * spot.over, y * spot.over) for x, y in (start, end)]
    if cross(along, spot.along) or spot.at in ends:
        return None
    same = sign(dot(along, spot.along)) > 0
    return same, not same


def _shared_place(sheet: Sheet, first: int, second: int, *, spot: _Spot) -> Place:
    """Give a point that lies inside both patches, if one is found soon, else the spot at the edge of both."""
    pair = (sheet.polygons[first], sheet.polygons[second])
    for one, other in (pair, pair[::-1]):
        for point in (*one, *(geometry.middle(*edge) for edge in edges(one)), _point_inside(one)):
            if inside(point, other):
                return sheet.place(point)
    return sheet.place(spot.at, spot.over)


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
