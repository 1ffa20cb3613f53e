"""In which patch a point lies: outlines are sorted into squares first, so that few are looked at."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from patterns.engine.geometry import bounds, edges, exact, inside, on_segment
from patterns.engine.parts import Point
from patterns.engine.surds import Number, Surd

_ACROSS = 16  # squares along the longer side
_BITS = 40

Square: TypeAlias = tuple[int, int]


@dataclass(slots=True)
class PatchFinder:
    """Outlines within a rectangle whose longer side is `side`, ready to be asked."""

    outlines: Sequence[Sequence[Point]]
    side: Number
    squares: dict[Square, list[int]] = field(default_factory=lambda: defaultdict(list))

    def __post_init__(self) -> None:
        """Sort every outline into the squares that it may touch."""
        for index, outline in enumerate(self.outlines):
            left, top, right, bottom = bounds(outline)
            first, last = self._square((left, top)), self._square((right, bottom))
            for x in range(first[0], last[0] + 1):
                for y in range(first[1], last[1] + 1):
                    self.squares[x, y].append(index)

    def at(self, point: Point) -> int | None:
        """Give the number of the outline that holds a point inside."""
        near = self.squares.get(self._square(point), [])
        return next((index for index in near if inside(point, self.outlines[index])), None)

    def touching(self, point: Point) -> int | None:
        """Give the number of an outline that has a point on its edge."""
        near = self.squares.get(self._square(point), [])
        on_edge = (i for i in near if any(on_segment(point, *edge) for edge in edges(self.outlines[i])))
        return next(on_edge, None)

    def _square(self, point: Sequence[Number | int]) -> Square:
        x, y = (_floor(exact(number) * _ACROSS / self.side) for number in point)
        return x, y


def _floor(number: Number) -> int:
    """Round down; a root to many binary places, which is enough to say where to look."""
    return int((number.brackets(_BITS)[0] if isinstance(number, Surd) else number) // 1)
