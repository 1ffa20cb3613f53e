"""The net of all corners of some outlines: edges are cut wherever a corner lies on them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

from patterns.engine.rebuilding.plane import Point, Polygon, cross, dot, minus
from patterns.engine.surds import Number, Surd, sign

Edge: TypeAlias = tuple[int, int]  # numbers of its two corners, in the direction it goes
ROUGH_BITS = 12
ROUGH = Fraction(1 << ROUGH_BITS)


class Net:
    """Numbered points; whole numbers near them say quickly which of them cannot lie on an edge."""

    def __init__(self, shapes: Iterable[Polygon]) -> None:
        """Give every corner a number."""
        self.points: list[Point] = list(dict.fromkeys(p for shape in shapes for p in shape))
        self._numbers = {p: i for i, p in enumerate(self.points)}
        self._near = [(_roughly(x), _roughly(y)) for x, y in self.points]
        self._by_left = sorted((x, y, i) for i, (x, y) in enumerate(self._near))
        self._known: dict[Edge, list[Edge]] = {}

    def round(self, outline: Polygon) -> list[Edge]:
        """Give the elementary edges of an outline, in its direction."""
        return [edge for i, end in enumerate(outline) for edge in self.split(outline[i - 1], end)]

    def split(self, start: Point, end: Point) -> list[Edge]:
        """Cut the way from one point to another at every point that lies on it."""
        key = (self._numbers[start], self._numbers[end])
        if key not in self._known:
            stops = [key[0], *self._between(*key), key[1]]
            self._known[key] = list(pairwise(stops))
        return self._known[key]

    def _between(self, first: int, last: int) -> list[int]:
        """Give the points that lie inside a segment, in order."""
        start, end = self.points[first], self.points[last]
        along = minus(end, start)
        square = dot(along, along)
        found: list[tuple[Number, int]] = []
        for i in self._close_to(first, last):
            way = minus(self.points[i], start)
            if cross(along, way) == 0 and sign(far := dot(along, way)) > 0 and sign(square - far) > 0:
                found.append((far, i))
        return [i for _, i in sorted(found)]

    def _close_to(self, first: int, last: int) -> list[int]:
        """Give the points within the upright box round a segment, its ends left out."""
        (x1, y1), (x2, y2) = self._near[first], self._near[last]
        left, right = min(x1, x2) - 1, max(x1, x2) + 1
        top, bottom = min(y1, y2) - 1, max(y1, y2) + 1
        across = self._by_left[bisect_left(self._by_left, (left,)) : bisect_left(self._by_left, (right + 1,))]
        return [i for _, y, i in across if top <= y <= bottom and i not in (first, last)]


def _roughly(number: Number) -> int:
    below = number.brackets(2 * ROUGH_BITS)[0] if isinstance(number, Surd) else number
    return int(below * ROUGH // 1)
