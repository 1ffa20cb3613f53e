"""Patches from seams: lines and arcs between points of a rectangle divide it, and every face is a patch.

The seams are split where they cross or touch.  What divides nothing is left out and named: a seam with
an end that meets nothing, and a ring of seams that touches the rest at no more than one point.  What is
left is joined so well that no outline touches itself, so each face is a sound patch.  All exact.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cmp_to_key
from itertools import pairwise

from patterns.engine import geometry
from patterns.engine.blocks import MOST_PATCHES, exact_points
from patterns.engine.errors import PointSeam, SeamOutside, TooManyLines
from patterns.engine.geometry import Corner, Polygon, cross, edges, inside, minus
from patterns.engine.parts import Patch, Point
from patterns.engine.patch_finder import PatchFinder
from patterns.engine.seam_graph import Line, Lines, Ways, groups, joined_with, ways_of
from patterns.engine.seam_lines import Seam
from patterns.engine.surds import Number, sign

MOST_SEAMS = 300
FIRST_LETTER = "A"


class Loose(StrEnum):
    """Why a seam divides nothing."""

    OPEN_END = "open end"  # an end that meets no other seam and no side
    RING = "ring"  # closed in itself, meeting the rest at one point or none


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseSeam:
    """What hangs together and divides nothing: why, the places to look at, and its pieces of seam."""

    why: Loose
    places: tuple[Point, ...]  # the open ends; of a ring its first corner
    pieces: tuple[Seam, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Subdivision:
    """A rectangle divided by seams: patches from top to bottom, left to right, and what divides nothing."""

    width: Number
    height: Number
    patches: tuple[Patch, ...]
    loose: tuple[LooseSeam, ...] = ()


def patches_of(
    width: Number, height: Number, seams: Sequence[Seam], *, letters: Mapping[Point, str]
) -> Subdivision:
    """Divide width x height by seams; a patch takes the first letter whose point lies in it, else A.

    SeamOutside names the end of a seam outside the rectangle, PointSeam a seam without length (`where` is
    the point), BadArc one that is no quarter circle (its centre), TooManyLines more than MOST_SEAMS seams or
    MOST_PATCHES patches.
    """
    if len(seams) > MOST_SEAMS:
        raise TooManyLines(where="seams")
    factor = _factor(width, height, seams)
    right, bottom = geometry.scaled_point((width, height), factor)
    drawn: list[Line] = []
    for seam in seams:
        points = [geometry.scaled_point(point, factor) for point in seam.points]
        drawn += pairwise(points)
        for start, end in pairwise(points):
            _check(start, end, seam=seam, corner=(right, bottom))
    border = list(edges(((0, 0), (right, 0), (right, bottom), (0, bottom))))
    lines = _split([*border, *drawn])
    ways = ways_of(lines)
    if len(lines) - len(ways) >= MOST_PATCHES:  # as many faces, by Euler, where all hangs together
        raise TooManyLines(where="seams")
    kept = joined_with(lines, ((0, 0), _neighbour_of_origin(lines)))
    faces = [tuple(_point(corner, factor) for corner in face) for face in _faces(kept)]
    patches = _lettered(faces, letters, max(width, height))
    loose = tuple(_loose(group, ways, factor) for group in groups(lines - kept))
    return Subdivision(width=width, height=height, patches=patches, loose=loose)


def point_inside(outline: Sequence[Point]) -> Point:
    """Give a point strictly inside: the mean of the corners, else the middle of the widest level chord."""
    centre = geometry.middle(*outline)
    return centre if inside(centre, outline) else _widest_chord(outline)


def letter_points(patches: Sequence[Patch]) -> dict[Point, str]:
    """Remember the letter of each patch by a point inside it."""
    return {point_inside(patch.points): patch.fabric for patch in patches}


def letters_over(patches: Sequence[Patch], before: Sequence[Patch]) -> dict[Point, str]:
    """Give each patch the letter that lay under it: patches that a seam divides keep theirs on both sides."""
    longest = max(x for patch in before for point in patch.points for x in point)
    finder = PatchFinder([patch.points for patch in before], longest)
    found = {}
    for patch in patches:
        point = point_inside(patch.points)
        under = finder.at(point)
        under = finder.touching(point) if under is None else under
        found[point] = patch.fabric if under is None else before[under].fabric
    return found


def _factor(width: Number, height: Number, seams: Sequence[Seam]) -> int:
    points = ((width, height), *(point for seam in seams for point in seam.points))
    return geometry.common_denominator(number for point in points for number in point)


def _check(start: Corner, end: Corner, *, seam: Seam, corner: Corner) -> None:
    for (x, y), point in ((start, seam.start), (end, seam.end)):
        if x < 0 or y < 0 or x > corner[0] or y > corner[1]:
            raise SeamOutside(where=point)
    if start == end:
        raise PointSeam(where=seam.start)


def _split(drawn: Sequence[Line]) -> Lines:
    """Split all lines where they cross or touch; each piece stands once, its lesser end first."""
    stops: list[set[Corner]] = [{start, end} for start, end in drawn]
    for i, first in enumerate(drawn):
        for j in range(i):
            for point in _meeting_points(first, drawn[j]):
                stops[i].add(point)
                stops[j].add(point)
    return {piece for points in stops for piece in pairwise(sorted(points))}


def _meeting_points(first: Line, second: Line) -> list[Corner]:
    """Give the points that end a piece of either line: where they cross, or an end of one on the other."""
    if geometry.crossing(first, second):
        return [_crossing_point(first, second)]
    ends = [point for point in first if geometry.on_segment(point, *second)]
    return ends + [point for point in second if geometry.on_segment(point, *first)]


def _crossing_point(first: Line, second: Line) -> Corner:
    run, other = minus(first[1], first[0]), minus(second[1], second[0])
    share = geometry.exact(cross(minus(second[0], first[0]), other)) / cross(run, other)
    return _plain(first[0][0] + run[0] * share), _plain(first[0][1] + run[1] * share)


def _plain(number: Number) -> geometry.Coordinate:
    return geometry.scaled(number, 1)


def _neighbour_of_origin(lines: Lines) -> Corner:
    """Give the next point along the top side."""
    return min(end for start, end in lines if start == (0, 0) and end[1] == 0)


def _faces(lines: Lines) -> list[Polygon]:
    """Walk round every face with the face on the right hand; the outside goes the other way, left out."""
    after = {}
    for point, others in ways_of(lines).items():
        turned = _clockwise(point, others)
        after.update({(other, point): turned[i - 1] for i, other in enumerate(turned)})
    faces = (geometry.tidied(walk) for walk in _walks(after) if sign(geometry.twice_area(walk)) > 0)
    return sorted(faces, key=_reading_order)


def _reading_order(face: Polygon) -> tuple[geometry.Coordinate, geometry.Coordinate, Point]:
    return min(y for _, y in face), min(x for x, _ in face), point_inside(exact_points(face))


def _walks(after: dict[Line, Corner]) -> list[list[Corner]]:
    """Give the corners of every round; `after` says for each directed piece where the next one goes."""
    left, walks = dict(after), []
    while left:
        start, point = first = next(iter(left))
        walk = []
        while (start, point) in left:
            walk.append(start)
            start, point = point, left.pop((start, point))
        if (start, point) != first:
            raise AssertionError("every round closes where it began")
        walks.append(walk)
    return walks


def _clockwise(point: Corner, others: Sequence[Corner]) -> list[Corner]:
    """Order the ends of the lines from a point clockwise."""

    def compare(a: Corner, b: Corner) -> int:
        return _round(minus(a, point), minus(b, point))

    return sorted(others, key=cmp_to_key(compare))


def _round(a: Corner, b: Corner) -> int:
    """Order two directions clockwise, from the right hand round."""
    halves = [sign(v[1]) < 0 or (sign(v[1]) == 0 and sign(v[0]) < 0) for v in (a, b)]
    if halves[0] != halves[1]:
        return 1 if halves[0] else -1
    return -sign(cross(a, b))


def _lettered(
    faces: Sequence[tuple[Point, ...]], letters: Mapping[Point, str], side: Number
) -> tuple[Patch, ...]:
    finder = PatchFinder(faces, side)
    found: dict[int | None, str] = {}
    for point, letter in letters.items():
        found.setdefault(finder.at(point), letter)
    return tuple(Patch(found.get(number, FIRST_LETTER), face) for number, face in enumerate(faces))


def _point(corner: Corner, factor: int) -> Point:
    return geometry.exact(corner[0]) / factor, geometry.exact(corner[1]) / factor


def _loose(group: Lines, ways: Ways, factor: int) -> LooseSeam:
    points = sorted({point for line in group for point in line})
    open_ends = [point for point in points if len(ways[point]) == 1]
    places = open_ends or points[:1]
    pieces = (Seam(start=_point(start, factor), end=_point(end, factor)) for start, end in sorted(group))
    return LooseSeam(
        why=Loose.OPEN_END if open_ends else Loose.RING,
        places=tuple(_point(place, factor) for place in places),
        pieces=tuple(pieces),
    )


def _widest_chord(outline: Sequence[Point]) -> Point:
    """Give the middle of the widest level chord, of those halfway between the heights of two corners."""
    heights = sorted({y for _, y in outline})
    chords = [
        (right - left, (left + right) / 2, (low + high) / 2)
        for low, high in pairwise(heights)
        for left, right in _chords(outline, (low + high) / 2)
    ]
    _, x, y = max(chords)
    return x, y


def _chords(outline: Sequence[Point], y: Number) -> list[tuple[Number, Number]]:
    """Give where a level line runs inside; it goes through no corner."""
    across = sorted(
        start[0] + (end[0] - start[0]) * ((y - start[1]) / (end[1] - start[1]))
        for start, end in edges(outline)
        if (start[1] > y) != (end[1] > y)
    )
    return list(zip(across[::2], across[1::2], strict=True))
