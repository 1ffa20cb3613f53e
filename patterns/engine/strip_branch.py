"""Branch and bound over the numbers of strips, for lists whose first bound proves nothing.

After Cintra, Miyazawa, Wakabayashi and Xavier, EJOR 191 (2008) 61-85, whose columns these are.  The
part of all layouts with the lowest bound is looked at first; its two halves say that there are few or
many strips of some height and higher.  The effort is counted, so a list has one answer everywhere.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from heapq import heappop, heappush
from math import ceil, floor

from patterns.engine.solver import Relaxed
from patterns.engine.strip_bounds import next_reachable, strips_at_least
from patterns.engine.strip_greedy import complete
from patterns.engine.strip_model import Column, Layout, Problem, left_to_cut, length_of
from patterns.engine.strip_nodes import Limits, Nodes

_WORK = 20_000_000  # of Nodes, for one unit of effort
_TRIED = 8  # heights looked at before a part is halved
_PENALTY = 1000  # times the length of the layout at hand
_ROUNDING = 10  # parts from one rounding to the next
_NEAR = float(Fraction(1, 10**4))  # of a whole number


@dataclass(order=True, slots=True)
class _Part:
    """Some of the layouts: none of them is shorter than `bound`."""

    bound: int
    turn: int
    limits: Limits = field(compare=False)


class Branching:
    """A search over all layouts of a problem, from one layout to beat."""

    def __init__(self, problem: Problem, best: Layout, columns: Iterable[Column]) -> None:
        """Open it with columns to begin with."""
        self.problem = problem
        self.best = best
        self._nodes = Nodes(problem, [*best, *columns], penalty=_PENALTY * length_of(best))
        self._parts = 0
        self.stuck = False

    def run(self, *, bound: int, effort: int) -> int:
        """Raise a bound as far as the effort goes; `best` is then the shortest layout that was met."""
        fewest = strips_at_least(self.problem)
        everything = {height: (fewest.get(height, 0), None) for height in self.problem.heights}
        waiting = [_Part(bound, 0, everything)]
        while waiting:
            part = heappop(waiting)
            bound = part.bound
            if bound >= length_of(self.best) or self.stuck or self._nodes.work > effort * _WORK:
                return min(bound, length_of(self.best))
            self._parts += 1
            for half in self._halves(part):
                heappush(waiting, half)
        return length_of(self.best)

    def _halves(self, part: _Part) -> list[_Part]:
        relaxed, value = self._nodes.relax(part.limits, enough=length_of(self.best))
        part.bound = max(part.bound, next_reachable(self.problem, value))
        self._round(relaxed)
        if part.bound >= length_of(self.best):
            return []
        height = self._height(part.limits, relaxed)
        if height is None:
            return self._decided(part, relaxed)
        turn = -2 * self._parts  # the newest first, of parts with one bound
        few, many = self._sides(part.limits, relaxed, height)
        return [_Part(part.bound, turn, few), _Part(part.bound, turn - 1, many)]

    def _decided(self, part: _Part, relaxed: Relaxed) -> list[_Part]:
        """Let integer programs decide up to which length a part has no layout, as far as they get."""
        longest = length_of(self.best) - 1
        while longest >= part.bound:
            outcome = self._nodes.decide(relaxed, part.limits, at_most=longest)
            self._take(outcome.layout)
            if outcome.complete:
                rest = _Part(next_reachable(self.problem, longest + 1), part.turn, part.limits)
                return [] if outcome.layout else [rest]
            longest = (longest + part.bound) // 2 if longest > part.bound else 0
        self._take(self._nodes.at_hand(part.limits, at_most=part.bound))
        self.stuck = True
        return [part]

    def _height(self, limits: Limits, relaxed: Relaxed) -> int | None:
        """Choose the height whose number of strips halves a part best; None when all are whole."""
        heights = []
        for height in self.problem.heights:
            number = self._nodes.strips(relaxed, height)
            off = abs(number - round(number))
            if off > _NEAR:
                heights.append((off, height))
        tried = [height for _, height in sorted(heights, reverse=True)[:_TRIED]]
        return max(tried, key=lambda height: self._gains(limits, relaxed, height), default=None)

    def _gains(self, limits: Limits, relaxed: Relaxed, height: int) -> list[float]:
        """Tell how far the two halves raise the value, the lesser first."""
        most = length_of(self.best)
        sides = self._sides(limits, relaxed, height)
        return sorted(min(most, self._nodes.glance(side) - relaxed.value) for side in sides)

    def _sides(self, limits: Limits, relaxed: Relaxed, height: int) -> tuple[Limits, Limits]:
        number = self._nodes.strips(relaxed, height)
        least, most = limits[height]
        return {**limits, height: (least, floor(number))}, {**limits, height: (ceil(number), most)}

    def _round(self, relaxed: Relaxed) -> None:
        """Take a solution in whole numbers as it is; now and then fill up the whole part of another."""
        numbers = dict(zip(self._nodes.columns, relaxed.numbers, strict=True))
        down = {column: floor(n + _NEAR) for column, n in numbers.items() if n + _NEAR >= 1}
        if all(abs(n - round(n)) < _NEAR for n in relaxed.numbers):
            self._take(down)
        elif self._parts % _ROUNDING == 1:
            self._take(complete(self.problem, down))

    def _take(self, layout: Layout) -> None:
        """Keep a layout that is whole and shorter."""
        if length_of(layout) < length_of(self.best) and not any(left_to_cut(self.problem, layout)):
            self.best = layout
