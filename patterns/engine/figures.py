"""A drawing as a net of edges: parts of it are bit masks of patches, of any outline and at any angle.

Two views of a patch are kept: its corners (shape, congruence), and its edges split at every corner of
the drawing that lies on them (neighbours, seams).  A *way* is a direction with its sense: an even number,
and the next odd one for the way back.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from patterns.engine.figure_numbers import Spot, cross, direction, dot, minus, sign

Mask: TypeAlias = int
Way: TypeAlias = int
Path: TypeAlias = tuple[int, ...]  # numbers of spots

BORDER = -1


class Edge(NamedTuple):
    """A piece of a patch's edge, clockwise round it, between two neighbouring corners of the drawing."""

    start: int
    end: int
    way: Way
    beyond: int  # the patch on the other side, or BORDER


class Line(NamedTuple):
    """A straight line under an inner edge: the patches wholly on its one side, and on its other."""

    axis: int  # the lines of one axis are parallel
    rank: int  # and lie in this order
    low: Mask
    high: Mask


@dataclass(frozen=True, slots=True)
class Outline:
    """The outline of a part: one round, clockwise, that touches itself nowhere."""

    edges: tuple[Edge, ...]
    corners: Path
    ways: tuple[Way, ...]  # of the side that starts at each corner


@dataclass(slots=True)
class Sheet:
    """A partition, ready for the search of seams."""

    spots: Sequence[Spot]
    polygons: Sequence[Path]  # corners of each patch, clockwise
    letters: Sequence[str]
    number: int = 0  # among the sheets of a drawing
    vectors: list[Spot] = field(default_factory=list)  # by way
    edges: list[list[Edge]] = field(default_factory=list)  # by patch
    lines: list[Line] = field(default_factory=list)
    leaving: dict[int, dict[Way, tuple[int, int]]] = field(
        default_factory=dict
    )  # both patches beside an edge
    outlines: dict[Mask, Outline | None] = field(default_factory=dict)
    turns: dict[tuple[Way, Way], int] = field(default_factory=dict)

    @property
    def whole(self) -> Mask:
        """Give the mask of all patches."""
        return (1 << len(self.polygons)) - 1

    def outline(self, mask: Mask) -> Outline | None:
        """Give the outline; None where the part hangs apart, has a hole or touches itself."""
        if mask not in self.outlines:
            self.outlines[mask] = _outline(self, mask)
        return self.outlines[mask]

    def round(self, mask: Mask) -> Outline:
        """Give the outline of a part that has one."""
        found = self.outline(mask)
        if found is None:
            raise ValueError(f"patches {[*members(mask)]} have no single outline")
        return found

    def turn(self, before: Way, after: Way) -> int:
        """Say how the outline bends from one way to the next: 1 clockwise, 0 straight, else -1."""
        pair = (before, after)
        if pair not in self.turns:
            self.turns[pair] = sign(cross(self.vectors[before], self.vectors[after]))
        return self.turns[pair]

    def is_convex(self, mask: Mask) -> bool:
        """Say whether a part bends clockwise only."""
        found = self.outline(mask)
        if found is None:
            return False
        return all(self.turn(found.ways[i - 1], way) > 0 for i, way in enumerate(found.ways))

    def is_rectangle(self, mask: Mask) -> bool:
        """Say whether a part has four right angles."""
        found = self.outline(mask)
        if found is None or len(found.corners) != 4:  # noqa: PLR2004 -- a rectangle has four corners
            return False
        return all(not dot(self.vectors[a], self.vectors[b]) for a, b in pairwise(found.ways))

    def path(self, base: Mask, added: Mask) -> Path:
        """Give the seam along which a part meets another: its ends and the corners it bends at.

        Both, and the two together, have an outline; it runs clockwise round the added part.
        """
        edges = self.round(added).edges
        shared = [edge.beyond != BORDER and bool(base >> edge.beyond & 1) for edge in edges]
        first = next(i for i in range(len(edges)) if shared[i] and not shared[i - 1])
        run = [edges[(first + i) % len(edges)] for i in range(shared.count(True))]
        bends = [after.start for before, after in pairwise(run) if before.way != after.way]
        return (run[0].start, *bends, run[-1].end)

    def way(self, start: int, end: int) -> Way:
        """Give the way from one spot to another that an edge leads along."""
        axis, against = direction(minus(self.spots[end], self.spots[start]))
        return self.vectors.index(axis) + against


def members(mask: Mask) -> Iterator[int]:
    """Give the numbers of the patches in a mask."""
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest


def mask_of(numbers: Sequence[int]) -> Mask:
    """Give the mask of some patches."""
    return sum(1 << number for number in numbers)


def sheet(polygons: Sequence[Sequence[Spot]], letters: Sequence[str], *, number: int = 0) -> Sheet:
    """Make the net of a partition; polygons go clockwise and have no straight corners."""
    numbers: dict[Spot, int] = {}
    paths = [tuple(numbers.setdefault(spot, len(numbers)) for spot in polygon) for polygon in polygons]
    made = Sheet(spots=list(numbers), polygons=paths, letters=letters, number=number)
    _Net(sheet=made).fill()
    return made


@dataclass(slots=True)
class _Net:
    """Fills a sheet: every edge is split at every spot on it; lines are ranked axis by axis."""

    sheet: Sheet
    axes: dict[Spot, int] = field(default_factory=dict)
    ranks: list[list[int]] = field(default_factory=list)  # axis -> spot -> which parallel line it lies on
    orders: list[dict[int, list[int]]] = field(default_factory=list)  # axis -> line -> spots along it

    def fill(self) -> None:
        split = [list(self._split(path)) for path in self.sheet.polygons]
        owner = {(start, end): patch for patch, rows in enumerate(split) for start, end, _ in rows}
        self.sheet.edges = [
            [Edge(start, end, way, owner.get((end, start), BORDER)) for start, end, way in rows]
            for rows in split
        ]
        for patch, edges in enumerate(self.sheet.edges):
            for edge in edges:
                if edge.beyond != BORDER:
                    self.sheet.leaving.setdefault(edge.start, {})[edge.way] = (patch, edge.beyond)
        self._draw_lines()

    def _split(self, path: Path) -> Iterator[tuple[int, int, Way]]:
        for start, end in zip(path, (*path[1:], path[0]), strict=True):
            axis, against = self._axis(start, end)
            stops = self.orders[axis][self.ranks[axis][start]]
            first, last = stops.index(start), stops.index(end)
            run = stops[last : first + 1][::-1] if against else stops[first : last + 1]
            for pair in pairwise(run):
                yield (*pair, 2 * axis + against)

    def _axis(self, start: int, end: int) -> tuple[int, int]:
        spots = self.sheet.spots
        along, against = direction(minus(spots[end], spots[start]))
        if along not in self.axes:
            self.axes[along] = len(self.axes)
            self.sheet.vectors += [along, (-along[0], -along[1])]
            self._rank(along)
        return self.axes[along], against

    def _rank(self, along: Spot) -> None:
        spots = self.sheet.spots
        offsets = [cross(along, spot) for spot in spots]
        rank = {offset: number for number, offset in enumerate(sorted(set(offsets)))}
        self.ranks.append([rank[offset] for offset in offsets])
        lines: dict[int, list[int]] = defaultdict(list)
        for spot in sorted(range(len(spots)), key=lambda number: dot(along, spots[number])):
            lines[self.ranks[-1][spot]].append(spot)
        self.orders.append(lines)

    def _draw_lines(self) -> None:
        inner = {
            (edge.way // 2, self.ranks[edge.way // 2][edge.start])
            for edges in self.sheet.edges
            for edge in edges
            if edge.beyond != BORDER
        }
        for axis in range(len(self.axes)):
            ranks = self.ranks[axis]
            spans = [
                (min(ranks[s] for s in path), max(ranks[s] for s in path)) for path in self.sheet.polygons
            ]
            for _, rank in sorted(each for each in inner if each[0] == axis):
                low = mask_of([patch for patch, (_, last) in enumerate(spans) if last <= rank])
                high = mask_of([patch for patch, (first, _) in enumerate(spans) if first >= rank])
                self.sheet.lines.append(Line(axis, rank, low, high))


def _outline(made: Sheet, mask: Mask) -> Outline | None:
    after: dict[int, Edge] = {}
    count = 0
    for patch in members(mask):
        for edge in made.edges[patch]:
            if edge.beyond == BORDER or not mask >> edge.beyond & 1:
                after[edge.start] = edge
                count += 1
    if len(after) != count:
        return None  # touches itself
    first = min(after)
    round_ = [after[first]]
    while round_[-1].end != first:
        round_.append(after[round_[-1].end])
    if len(round_) != count:
        return None  # hangs apart, or has a hole
    bends = [i for i in range(count) if round_[i].way != round_[i - 1].way]
    return Outline(
        edges=tuple(round_),
        corners=tuple(round_[i].start for i in bends),
        ways=tuple(round_[i].way for i in bends),
    )
