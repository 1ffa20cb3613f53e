"""From cells in their order to seams: which path each follows, and where a partial seam saves a set-in one.

A seam that bends may be sewn straight when one of its end legs runs on straight from an earlier seam: that
one is left open near the bend, the new part is sewn along the other leg, and the open seam is closed in
one go with the first leg.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

from patterns.engine.figure_seams import runs_on
from patterns.engine.figures import Mask, Path, Sheet

CellsOf: TypeAlias = Callable[[Mask], tuple[Mask, ...]]

_STRAIGHT = 2  # spots of a straight path


@dataclass(frozen=True, slots=True)
class Join:
    """A part sewn to all before it along `path`; the seam stays open toward the spot `open_at`."""

    mask: Mask
    path: Path
    open_at: int | None = None
    closes: tuple[tuple[Mask, int], ...] = ()  # parts whose open seams are then closed, each on to a spot


@dataclass(slots=True, kw_only=True)
class Joins:
    """Sews cell after cell."""

    sheet: Sheet
    cells_of: CellsOf  # what a part is itself sewn from; none for what is a unit or made in rows
    found: list[Join] = field(default_factory=list)

    @property
    def base(self) -> Mask:
        """Give what is sewn so far."""
        return sum(join.mask for join in self.found)

    @property
    def bends(self) -> int:
        """Count the bends that must be set in."""
        return sum(max(len(join.path) - _STRAIGHT, 0) for join in self.found)

    def sew(self, cells: Sequence[Mask]) -> Joins:
        """Sew some cells in this order."""
        for cell in cells:
            self._add(cell)
        return self

    def _add(self, cell: Mask) -> None:
        if not self.found:
            self.found.append(Join(cell, ()))
            return
        path, closes = self._eased(cell)
        if not all(join.open_at == bend for join, bend in self._opened_for(closes)):
            path, closes = self._eased(cell)  # the second leg took apart what the first had found
        self.found.append(Join(cell, path, closes=tuple((mask, end) for mask, _, end in closes)))

    def _eased(self, cell: Mask) -> tuple[Path, list[tuple[Mask, int, int]]]:
        """Give the path left to sew, and for each leg that closes a seam its part, the bend and the end."""
        path, closes = self.sheet.path(self.base, cell), []
        for _ in (path[0], path[-1]):
            if len(path) > _STRAIGHT:
                opened = self._open(end=path[0], bend=path[1])
                if opened is not None:
                    closes.append((opened, path[1], path[0]))
                    path = path[1:]
            path = path[::-1]
        return path, closes

    def _opened_for(self, closes: Sequence[tuple[Mask, int, int]]) -> list[tuple[Join, int]]:
        return [(self.found[self._home_of(mask)], bend) for mask, bend, _ in closes]

    def _home_of(self, mask: Mask) -> int:
        return self._home((mask & -mask).bit_length() - 1)

    def _open(self, *, end: int, bend: int) -> Mask | None:
        """Leave the seam open that the leg from `end` to `bend` runs on along, and name its part."""
        beside = runs_on(self.sheet, self.base, end=end, bend=bend)
        if beside is None:
            return None
        homes = [self._home(patch) for patch in beside]
        while homes[0] == homes[1]:
            taken_apart = self._taken_apart(self.found[homes[0]].mask)
            if taken_apart is None:
                return None
            self.found = taken_apart
            homes = [self._home(patch) for patch in beside]
        return self._opened(max(homes), bend)

    def _home(self, patch: int) -> int:
        return next(i for i, join in enumerate(self.found) if join.mask >> patch & 1)

    def _opened(self, number: int, bend: int) -> Mask | None:
        join = self.found[number]
        if len(join.path) != _STRAIGHT or bend not in join.path or join.open_at not in {None, bend}:
            return None
        self.found[number] = replace(join, open_at=bend)
        return join.mask

    def _taken_apart(self, mask: Mask) -> list[Join] | None:
        """Sew all anew, beginning with the parts of one part; None where more would have to be set in."""
        inner = self.cells_of(mask)
        others = [join.mask for join in self.found if join.mask != mask]
        anew = Joins(sheet=self.sheet, cells_of=self.cells_of).sew(inner)
        while others:
            fitting = (other for other in others if self._fits(anew.base, other))
            following = next(fitting, None)
            if following is None:
                return None
            anew.sew([following])
            others.remove(following)
        return anew.found if inner and anew.bends <= self.bends else None

    def _fits(self, base: Mask, added: Mask) -> bool:
        """Say whether a part lies along what is sewn so far, so that the two have an outline."""
        return self.sheet.outline(base | added) is not None
