"""Whether so many precuts are enough: branch and bound over what is cut from them.

A part of all choices is halved by the number of precuts cut one way, of strips of some height and higher,
or of pieces of one shape in those; where all of these are whole, an integer program looks among the ways
to cut one precut that are known.  The effort is counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor
from typing import TypeAlias

from patterns.engine.precut_search import (
    Pattern,
    Search,
    Way,
    filled,
    meets,
    one_by_one,
    whole_patterns,
    worth_most,
)
from patterns.engine.precut_stacking import Solution, from_one, stacked
from patterns.engine.solver import MARGIN, Program, Relaxed
from patterns.engine.strip_lots import NEAR
from patterns.engine.strip_model import Column
from patterns.engine.strip_pricing import best_columns, best_valued

_PARTS = 400  # looked at for one number of precuts
_ROUNDS = 200  # of column generation
_PENALTY = 1000  # precuts


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """What is counted in precuts cut one way: they themselves, strips so high or higher, pieces in those.

    `rest` counts the other pieces of that size, the other way's too.
    """

    way: bool
    height: int = 0
    place: int | None = None
    size: int = 0
    rest: bool = False

    def holds(self, way: Way, place: int, height: int) -> bool:
        """Whether it counts a piece in a strip."""
        if self.place is None or way.problem.shapes[place].size != self.size:
            return False
        inside = (way.strips_along, place) == (self.way, self.place) and height >= self.height
        return inside != self.rest

    def count(self, pattern: Pattern) -> int:
        """Count it in one precut."""
        if self.place is None and pattern.way.strips_along != self.way:
            return 0
        if self.place is None:
            return sum(strip.height >= self.height for strip in pattern.strips) if self.height else 1
        return sum(
            number
            for strip in pattern.strips
            for stack, number in strip.cuts
            if self.holds(pattern.way, stack[0], strip.height)
        )


Limits: TypeAlias = Mapping[Tally, tuple[int, int | None]]


class Enough:
    """A search for a choice of a given number of precuts."""

    def __init__(self, ways: Sequence[Way], demand: Sequence[int], patterns: Sequence[Pattern]) -> None:
        """Open it with patterns to begin with."""
        self.ways = ways
        self.demand = demand
        self.patterns: list[Pattern] = []
        self._rows: dict[Tally, int] = {}
        self._places: list[int] = []
        self._program = Program(demand)
        for row in range(len(demand)):
            self._program.add_column(cost=_PENALTY, entries={row: 1})
        for pattern in patterns:
            self._add(pattern)

    def choose(self, most: int) -> dict[Pattern, int] | None:
        """Give patterns of at most so many precuts, empty where there are none; None where it stays open."""
        waiting: list[Limits] = [{}]
        for _ in range(_PARTS):
            if not waiting:
                return {}
            limits = waiting.pop()
            solution = self._relax(limits, most)
            if solution is None:
                continue
            halves = next(self._halves(limits, solution), None)
            if halves is None:
                found = stacked(solution)
                return found if found and meets(found, self.demand) else self._at_hand(most)
            waiting += halves
        return self._at_hand(most)

    def _at_hand(self, most: int) -> dict[Pattern, int] | None:
        return whole_patterns(self.patterns, self.demand, at_most=most) or None

    def _relax(self, limits: Limits, most: int) -> Solution | None:
        """Solve a part; None where it takes more."""
        self._limit(limits)
        relaxed = self._program.relax()
        for _ in range(_ROUNDS):
            value, pattern = max((self._best(way, relaxed) for way in self.ways), key=lambda each: each[0])
            if relaxed.value / max(value, 1) > most + MARGIN:
                return None
            if value <= 1 + MARGIN or not self._add(pattern):
                break
            relaxed = self._program.relax()
        numbers = (relaxed.numbers[place] for place in self._places)
        return {p: n for p, n in zip(self.patterns, numbers, strict=True) if n > MARGIN}

    def _best(self, way: Way, relaxed: Relaxed) -> tuple[float, Pattern]:
        """Give the precut cut one way that is worth most, pieces, strips and itself."""
        paid = {tally: price for tally, row in self._rows.items() if (price := relaxed.prices[row])}
        own = {
            tally.height: price
            for tally, price in paid.items()
            if tally.place is None and tally.way == way.strips_along
        }
        strips = [
            (value + sum(price for height, price in own.items() if 0 < height <= column.height), column)
            for value, column in self._columns(way, relaxed, paid)
        ]
        value, pattern = filled(way, strips)
        return value + own.get(0, 0), pattern

    def _columns(
        self, way: Way, relaxed: Relaxed, paid: Mapping[Tally, float]
    ) -> Iterator[tuple[float, Column]]:
        prices, shapes = relaxed.prices[: len(self.demand)], way.problem.shapes
        lots = [(tally, price) for tally, price in paid.items() if tally.place is not None]
        if not lots:
            return best_columns(way.problem, prices)
        values = {
            height: [
                prices[shape.size] + sum(price for lot, price in lots if lot.holds(way, place, height))
                for place, shape in enumerate(shapes)
            ]
            for height in way.problem.heights
        }
        return best_valued(way.problem, values)

    def _halves(self, limits: Limits, solution: Solution) -> Iterator[tuple[Limits, Limits]]:
        """Give the ways to halve a part, few before many: precuts, strips, then pieces."""
        for tally in self._tallies():
            number = sum(n * tally.count(pattern) for pattern, n in solution.items())
            if abs(number - round(number)) < NEAR:
                continue
            least, most = limits.get(tally, (0, None))
            many: Limits = {**limits, tally: (max(least, ceil(number)), most)}
            if tally.place is None:
                yield {**limits, tally: (least, floor(number))}, many
                continue
            rest, left = replace(tally, rest=True), self.demand[tally.size] - floor(number)
            if sum(n * rest.count(pattern) for pattern, n in solution.items()) < left - NEAR:
                yield {**limits, rest: (max(limits.get(rest, (0, None))[0], left), None)}, many

    def _tallies(self) -> Iterator[Tally]:
        for way in self.ways:
            yield Tally(way=way.strips_along)
        for way in self.ways:
            for height in reversed(way.problem.heights):
                yield Tally(way=way.strips_along, height=height)
        for way in self.ways:
            for place, shape in enumerate(way.problem.shapes):
                for height in reversed(way.problem.heights):
                    yield Tally(way=way.strips_along, height=height, place=place, size=shape.size)

    def _limit(self, limits: Limits) -> None:
        for tally in limits.keys() - self._rows.keys():
            counts = zip(self._places, (tally.count(pattern) for pattern in self.patterns), strict=True)
            self._rows[tally] = self._program.add_row({place: count for place, count in counts if count})
            self._program.add_column(cost=_PENALTY, entries={self._rows[tally]: 1})
        for tally, row in self._rows.items():
            self._program.between(row, *limits.get(tally, (0, None)))

    def _add(self, pattern: Pattern) -> bool:
        if pattern in self.patterns:
            return False
        entries = {size: number for size, number in enumerate(pattern.made) if number}
        counts = ((row, tally.count(pattern)) for tally, row in self._rows.items())
        self._places.append(self._program.columns)
        self.patterns.append(pattern)
        self._program.add_column(cost=1, entries={**entries, **{row: n for row, n in counts if n}})
        return True


def fewest(ways: Sequence[Way], demand: Sequence[int]) -> tuple[dict[Pattern, int], int]:
    """Give patterns, how many precuts are cut each way, and a number that no choice can beat."""
    singles = [[int(size == at) for size in range(len(demand))] for at in range(len(demand))]
    search = Search(ways, demand, [worth_most(ways, prices)[1] for prices in singles])
    bound = search.generate()[1]
    best = min(one_by_one(ways, demand), search.dive(), key=_number)
    if bound == 1 < _number(best):
        best = from_one(ways) or best
    if _number(best) > bound:
        search.add(best)
        best = whole_patterns(search.patterns, demand, at_most=_number(best) - 1) or best
    while bound < _number(best):
        found = Enough(ways, demand, search.patterns).choose(bound)
        if found is None:
            break
        best, bound = (found, bound) if found else (best, bound + 1)
    return best, bound


def _number(cut: Mapping[Pattern, int]) -> int:
    return sum(cut.values())
