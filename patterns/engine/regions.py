"""Upright rectangles of patches in whole numbers: turned, mirrored, taken apart and compared."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from patterns.engine import geometry
from patterns.engine.geometry import QUARTERS, Box, Coordinate, Corner, Polygon

Patches: TypeAlias = Iterable[tuple[Polygon, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """A rectangle with its top left corner at (0, 0); polygons tidied and sorted, a letter for each."""

    size: Corner
    polygons: tuple[Polygon, ...]
    letters: tuple[str, ...]

    def turned(self, quarters: int) -> Region:
        """Turn clockwise by quarter turns."""
        width, height = self.size
        return region(
            size=(height, width) if quarters % 2 else (width, height),
            patches=(
                (geometry.quarter_turned(polygon, quarters, size=self.size), letter)
                for polygon, letter in zip(self.polygons, self.letters, strict=True)
            ),
        )

    def mirrored(self) -> Region:
        """Mirror left and right."""
        width = self.size[0]
        return region(
            size=self.size,
            patches=(
                (tuple((width - x, y) for x, y in reversed(polygon)), letter)
                for polygon, letter in zip(self.polygons, self.letters, strict=True)
            ),
        )

    def within(self, box: Box) -> Region:
        """Give the part inside an upright rectangle that cuts no patch, moved to (0, 0)."""
        left, top, right, bottom = box
        kept = (
            (geometry.moved(polygon, (-left, -top)), letter)
            for polygon, letter in zip(self.polygons, self.letters, strict=True)
            if all(left <= x <= right and top <= y <= bottom for x, y in polygon)
        )
        return region(size=(right - left, bottom - top), patches=kept)

    def least(self) -> tuple[Region, int]:
        """Give the form all turns of this region share, and the quarter turns from it to this one.

        Shapes decide first, then which letters are alike; the letters themselves only where a turn
        changes nothing else.  So a block is divided alike however it is turned or lettered.
        """
        turns = {quarters: self.turned(quarters) for quarters in self._upright_turns()}
        quarters = min(turns, key=lambda number: turns[number].order)
        return turns[quarters], -quarters % QUARTERS

    def _upright_turns(self) -> Sequence[int]:
        """Give the quarter turns after which the region is no wider than high; one for a single patch."""
        width, height = self.size
        turns = range(QUARTERS) if width == height else range(int(width > height), QUARTERS, 2)
        return turns[:1] if len(self.polygons) == 1 else turns

    @property
    def order(self) -> tuple[Corner, tuple[Polygon, ...], tuple[int, ...], tuple[str, ...]]:
        """Give what regions are sorted by."""
        first: dict[str, int] = {}
        alike = tuple(first.setdefault(letter, len(first)) for letter in self.letters)
        return self.size, self.polygons, alike, self.letters

    @property
    def period(self) -> int:
        """Give the least number of quarter turns that changes nothing: 1, 2 or 4."""
        return next(p for p in (1, 2, QUARTERS) if p == QUARTERS or self.turned(p) == self)

    def seams(self, axis: int) -> tuple[Coordinate, ...]:
        """Give where a straight seam may divide: x for axis 0, y for axis 1."""
        spans = [(min(c[axis] for c in polygon), max(c[axis] for c in polygon)) for polygon in self.polygons]
        stops = sorted({stop for span in spans for stop in span} - {0, self.size[axis]})
        return tuple(stop for stop in stops if not any(low < stop < high for low, high in spans))


def region(*, size: Corner, patches: Patches) -> Region:
    """Tidy and sort."""
    pairs = sorted((geometry.from_least(polygon), letter) for polygon, letter in patches)
    return Region(
        size=size,
        polygons=tuple(polygon for polygon, _ in pairs),
        letters=tuple(letter for _, letter in pairs),
    )


def grid_boxes(size: Corner, across: Sequence[Coordinate], down: Sequence[Coordinate]) -> list[list[Box]]:
    """Give the cells, row by row, that seams at `across` (x) and `down` (y) make of a rectangle."""
    xs, ys = (0, *across, size[0]), (0, *down, size[1])
    return [[(left, top, right, bottom) for left, right in pairwise(xs)] for top, bottom in pairwise(ys)]
