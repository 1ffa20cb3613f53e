"""The seams of a drawing: straight lines, as long as each runs on, and quarter circles.

`subdivision` goes the other way, from seams to patches.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from patterns.engine import geometry
from patterns.engine.arcs import POINTS, arc_between, arcs_in
from patterns.engine.geometry import Corner, cross, minus
from patterns.engine.parts import Patch, Point
from patterns.engine.surds import Number

Span: TypeAlias = tuple[Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """A seam between two points, in the drawing's own numbers; either end may come first.

    It is straight, or the quarter circle round a centre.
    """

    start: Point
    end: Point
    centre: Point | None = None

    @property
    def points(self) -> tuple[Point, ...]:
        """Give the points that it runs through; BadArc, at its centre, when it is no quarter circle."""
        if self.centre is None:
            return self.start, self.end
        return self.start, *arc_between(self.start, self.end, centre=self.centre, where=self.centre), self.end


def seams_of(width: Number, height: Number, patches: Sequence[Patch]) -> tuple[Seam, ...]:
    """Give the seams of a drawing, each as long as its line runs on; `subdivision` gives its patches back."""
    runs: dict[tuple[Corner, Number], list[Span]] = defaultdict(list)
    curved: set[Seam] = set()
    for patch in patches:
        arcs = _arcs(patch.points)
        curved.update(arcs.values())
        for start, end in _straight_edges(patch.points, arcs):
            if start != end and not _on_border(start, end, width=width, height=height):
                vector = minus(end, start)
                along = geometry.direction((geometry.exact(vector[0]), geometry.exact(vector[1])))
                low, high = sorted((start, end))
                runs[along, geometry.exact(cross(along, start))].append((low, high))
    straight = [Seam(start=low, end=high) for spans in runs.values() for low, high in _joined(spans)]
    return tuple(sorted((*straight, *curved), key=lambda seam: (seam.start[::-1], seam.end[::-1])))


def _arcs(outline: Sequence[Point]) -> dict[int, Seam]:
    """Give the quarter circles of an outline as seams, by the corner where each begins."""
    found = {}
    for i, centre in arcs_in(outline).items():
        start, end = sorted((outline[i], outline[(i + POINTS - 1) % len(outline)]))
        found[i] = Seam(start=start, end=end, centre=centre)
    return found


def _straight_edges(outline: Sequence[Point], arcs: Mapping[int, Seam]) -> Iterator[Span]:
    count = len(outline)
    bent = {(i + k) % count for i in arcs for k in range(POINTS - 1)}
    yield from ((outline[i], outline[(i + 1) % count]) for i in range(count) if i not in bent)


def _on_border(start: Point, end: Point, *, width: Number, height: Number) -> bool:
    upright = start[0] == end[0] and start[0] in (0, width)
    return upright or (start[1] == end[1] and start[1] in (0, height))


def _joined(spans: Sequence[Span]) -> Iterator[Span]:
    """Join pieces of one line that touch or overlap."""
    low, high = min(spans)
    for start, end in sorted(spans):
        if start > high:
            yield low, high
            low, high = start, end
        high = max(high, end)
    yield low, high
