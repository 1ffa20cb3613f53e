"""Column generation over ways to cut one precut: strips first, either way, then pieces.

Counted in whole units; a pattern says how many pieces of each size one precut gives.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from patterns.engine.knapsack import Knapsack
from patterns.engine.solver import MARGIN, Program, Relaxed
from patterns.engine.strip_model import Column, Problem
from patterns.engine.strip_pricing import best_columns

_ROUNDS = 300
_NODES = 400  # of the integer program


@dataclass(frozen=True, slots=True)
class Way:
    """One way to cut precuts: the problem of its strips, and how far the strips reach altogether."""

    problem: Problem
    reach: int
    strips_along: bool


@dataclass(frozen=True, slots=True)
class Pattern:
    """The strips of one precut."""

    way: Way
    strips: tuple[Column, ...]

    @property
    def made(self) -> list[int]:
        """Count the pieces of each size."""
        counts = [self.way.problem.made(column) for column in self.strips]
        return [sum(numbers) for numbers in zip(*counts, strict=True)]


class Search:
    """The patterns found so far and the linear program over them."""

    def __init__(self, ways: Sequence[Way], demand: Sequence[int], patterns: Iterable[Pattern]) -> None:
        self.ways = ways
        self.demand = demand
        self.patterns: list[Pattern] = []
        self.program = Program(demand)
        self.add(patterns)

    def add(self, patterns: Iterable[Pattern]) -> None:
        """Take in the patterns that are new."""
        for pattern in dict.fromkeys(patterns):
            if pattern not in self.patterns:
                self.patterns.append(pattern)
                self.program.add_column(cost=1, entries=_entries(pattern))

    def generate(self) -> tuple[Relaxed, int]:
        """Add patterns until none is worth more than one precut; give the solution and its bound."""
        bound, relaxed = 0, self.program.relax()
        for _ in range(_ROUNDS):
            value, pattern = worth_most(self.ways, relaxed.prices)
            bound = max(bound, ceil(relaxed.value / max(value, 1) - MARGIN))
            if value <= 1 + MARGIN or pattern in self.patterns:
                break
            self.add([pattern])
            relaxed = self.program.relax()
        return relaxed, bound

    def dive(self) -> dict[Pattern, int]:
        """Cut the whole part of the linear program, or its likeliest precut, and solve the rest again."""
        cut, missing = dict[Pattern, int](), list(self.demand)
        while any(missing):
            self.program.demand(missing)
            numbers = self.generate()[0].numbers
            fixed = {at: int(n + MARGIN) for at, n in enumerate(numbers) if n + MARGIN >= 1}
            likeliest = max(range(len(numbers)), key=lambda at: numbers[at])
            for at, number in (fixed or {likeliest: 1}).items():
                pattern = self.patterns[at]
                cut[pattern] = cut.get(pattern, 0) + number
                missing = [max(0, n - number * m) for n, m in zip(missing, pattern.made, strict=True)]
        self.program.demand(self.demand)
        return cut


def worth_most(ways: Sequence[Way], prices: Sequence[float]) -> tuple[float, Pattern]:
    """Give the precut whose pieces are worth most at these prices, with its value."""
    return max((_best(way, prices) for way in ways), key=lambda each: each[0])


def _best(way: Way, prices: Sequence[float]) -> tuple[float, Pattern]:
    """Fill the reach of a precut with its most valuable strips."""
    return filled(way, list(best_columns(way.problem, prices)))


def filled(way: Way, strips: Sequence[tuple[float, Column]]) -> tuple[float, Pattern]:
    """Fill the reach of a precut with the most valuable of these strips, each as often as it goes."""
    sack = Knapsack(way.reach)
    for at, (value, column) in enumerate(strips):
        sack.add(at, width=column.height, value=value, limit=way.reach)
    counts = sack.take(sack.mark)
    columns = [strips[at][1] for at, number in sorted(counts.items()) for _ in range(number)]
    return sack.value(sack.mark), Pattern(way, tuple(columns))


def one_by_one(ways: Sequence[Way], demand: Sequence[int]) -> dict[Pattern, int]:
    """Cut one precut after the other, each with the most area of what is still missing."""
    missing, cut = list(demand), dict[Pattern, int]()
    while any(missing):
        left = [Way(way.problem.with_demand(missing), way.reach, way.strips_along) for way in ways]
        areas = [_area(ways, size) if number else 0 for size, number in enumerate(missing)]
        found = worth_most(left, areas)[1]
        whole = next(way for way in ways if way.strips_along == found.way.strips_along)
        pattern = Pattern(whole, found.strips)
        cut[pattern] = cut.get(pattern, 0) + 1
        missing = [max(0, number - made) for number, made in zip(missing, pattern.made, strict=True)]
    return cut


def _area(ways: Sequence[Way], size: int) -> int:
    shapes = (shape for way in ways for shape in way.problem.shapes if shape.size == size)
    return max(shape.width * shape.height for shape in shapes)


def whole_patterns(patterns: Sequence[Pattern], demand: Sequence[int], *, at_most: int) -> dict[Pattern, int]:
    """Choose whole numbers of these patterns that meet a demand, at most so many; empty if none was found."""
    program = Program(demand)
    for pattern in patterns:
        program.add_column(cost=1, entries=_entries(pattern))
    numbers = program.whole(at_most=at_most, nodes=_NODES).numbers
    found = {pattern: n for pattern, n in zip(patterns, numbers, strict=False) if n > 0}
    return found if meets(found, demand) else {}


def meets(cut: Mapping[Pattern, int], demand: Sequence[int]) -> bool:
    """Whether precuts give all that is asked for."""
    made = [sum(pattern.made[size] * n for pattern, n in cut.items()) for size in range(len(demand))]
    return all(has >= number for has, number in zip(made, demand, strict=True))


def _entries(pattern: Pattern) -> dict[int, int]:
    return {size: number for size, number in enumerate(pattern.made) if number}
