"""Corners of a picture, snapped to the grid they were meant for.

A picture holds decimals; a drawing holds exact numbers.  All coordinates are taken as shares of the
picture's width, and the first of these grids on which every one of them lies is the drawing's:

1. the width divided into 1 to 48 parts, each corner within 1/20000 of the width;
2. a + b sqrt(2), then a + b sqrt(3), the width divided into 1 to 8, within 1/100000;
3. the width divided into 1 to 24 parts, within 1/1000 (corners rounded to pixels);
4. a + b sqrt(2) or sqrt(3), the width divided into 9 to 24, within 1/100000.

Of several a + b sqrt(d) near a corner the one with the least b is taken.  b is at most the number of
parts of the width.  A picture may also state its grid (`Grid`), as those do that we write.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.surds import Number, root
from patterns.engine.svg_numbers import BITS, nearly

FINE = Fraction(1, 20_000)  # of the width
COARSE = Fraction(1, 1_000)
ROOTED = Fraction(1, 100_000)
STATED_ROOTED = Fraction(1, 10**9)

_ONE = 1 << BITS
_HALF = _ONE >> 1
_MOST_FINE, _MOST_COARSE = 48, 24  # parts of the width
_FEW_ROOTED, _MOST_ROOTED = 8, 24
_ROOTS = (2, 3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """The numbers (a + b sqrt(d)) / parts; the width of the picture is `width` of the drawing's units."""

    width: Number
    parts: int = 1
    under_root: int = 1  # d; 1 for a grid without roots
    most_roots: int = 0  # the largest b looked for


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapping:
    """A grid that is tried, and how near a corner must be, as a share of the width."""

    grid: Grid
    within: Fraction

    def finder(self) -> Callable[[int], Number | None]:
        """Give the function from a share of the width, in units of 2^-96, to the number on the grid."""
        scale = int(nearly(self.grid.width * self.grid.parts) * _ONE)
        slack = int(self.within * scale)
        rooted = list(self._multiples())

        def find(share: int) -> Number | None:
            target = share * scale >> BITS
            for b, multiple in rooted:
                a, rest = divmod(target - multiple + _HALF, _ONE)
                if abs(rest - _HALF) <= slack:
                    return self._number(a, b)
            return None

        return find

    def _number(self, a: int, b: int) -> Number:
        whole: Number = Fraction(a, self.grid.parts)
        return whole + root(self.grid.under_root) * Fraction(b, self.grid.parts) if b else whole

    def _multiples(self) -> Iterator[tuple[int, int]]:
        """Give b with b sqrt(d), the least b first."""
        one = int(nearly(root(self.grid.under_root)) * _ONE)
        yield 0, 0
        for b in range(1, self.grid.most_roots + 1):
            yield b, b * one
            yield -b, -b * one


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapped:
    """The width of a drawing, and its coordinates: to each share of the width its number."""

    width: Number
    numbers: Mapping[Fraction, Number]


def snapped(shares: Iterable[Fraction], *, stated: Grid | None) -> Snapped | Fraction:
    """Find the grid that all shares of the width lie on; else give a share that misses the likeliest one."""
    fixed = {share: int(share * _ONE) for share in shares}
    for snapping in _tries(stated):
        found = _fitted(fixed, snapping.finder())
        if found is not None:
            return Snapped(width=snapping.grid.width, numbers=found)
    return _first_miss(fixed)


def _fitted(
    shares: Mapping[Fraction, int], find: Callable[[int], Number | None]
) -> Mapping[Fraction, Number] | None:
    found = {}
    for share, fixed in shares.items():
        number = find(fixed)
        if number is None:
            return None
        found[share] = number
    return found


def _first_miss(shares: Mapping[Fraction, int]) -> Fraction:
    """Give the first share that misses the grid which most others lie on."""
    misses = []
    for snapping in _in_parts(_MOST_COARSE, COARSE):
        find = snapping.finder()
        misses.append([share for share, fixed in shares.items() if find(fixed) is None])
    return min(misses, key=len)[0]


def _tries(stated: Grid | None) -> Iterator[Snapping]:
    if stated is not None:
        yield Snapping(grid=stated, within=STATED_ROOTED if stated.most_roots else COARSE)
    yield from _in_parts(_MOST_FINE, FINE)
    yield from _with_roots(range(1, _FEW_ROOTED + 1))
    yield from _in_parts(_MOST_COARSE, COARSE)
    yield from _with_roots(range(_FEW_ROOTED + 1, _MOST_ROOTED + 1))


def _in_parts(most: int, within: Fraction) -> Iterator[Snapping]:
    for parts in range(1, most + 1):
        yield Snapping(grid=Grid(width=Fraction(parts)), within=within)


def _with_roots(counts: Iterable[int]) -> Iterator[Snapping]:
    for parts in counts:
        for under_root in _ROOTS:
            grid = Grid(width=Fraction(parts), under_root=under_root, most_roots=parts)
            yield Snapping(grid=grid, within=ROOTED)
