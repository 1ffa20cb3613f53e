"""Branch and bound over the numbers of strips, for lists whose first bound proves nothing.

After Cintra, Miyazawa, Wakabayashi and Xavier, EJOR 191 (2008) 61-85, whose columns these are.  The
part of all layouts with the lowest bound is looked at first; its two halves say that there are few or
many strips of some height and higher, and where those are whole, few or many pieces of one shape in
them.  The effort is counted, so a list has one answer everywhere.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from heapq import heappop, heappush
from math import ceil, floor
from typing import TypeAlias

from patterns.engine.solver import Relaxed
from patterns.engine.strip_bounds import next_reachable, strips_at_least
from patterns.engine.strip_greedy import complete
from patterns.engine.strip_lots import NEAR, Lot, Solution, laid, packed
from patterns.engine.strip_model import Column, Layout, Problem, left_to_cut, length_of
from patterns.engine.strip_nodes import Limits, Nodes

_WORK = 10_000_000  # of Nodes, for one unit of effort
_TRIED = 8  # ways to halve a part that are looked at
_PENALTY = 1000  # times the length of the layout at hand
_ROUNDING = 10  # parts from one rounding to the next

Halves: TypeAlias = tuple[Limits, Limits]  # few and many
Way: TypeAlias = tuple[float, Halves]  # how far from whole the number is that it halves by


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
        self._left: int | None = None  # the bound of the parts that cannot be halved

    def run(self, *, bound: int, effort: int) -> int:
        """Raise a bound as far as the effort goes; `best` is then the shortest layout that was met."""
        fewest = strips_at_least(self.problem)
        everything: Limits = {height: (fewest.get(height, 0), None) for height in self.problem.heights}
        waiting = [_Part(bound, 0, everything)]
        while waiting and not self._ended(waiting[0].bound) and self._nodes.work <= effort * _WORK:
            self._parts += 1
            for half in self._halves(heappop(waiting)):
                heappush(waiting, half)
        open_bounds = [part.bound for part in waiting[:1]] + ([] if self._left is None else [self._left])
        return min([*open_bounds, length_of(self.best)])

    def _ended(self, bound: int) -> bool:
        return bound >= length_of(self.best) or (self._left is not None and bound > self._left)

    def _halves(self, part: _Part) -> list[_Part]:
        relaxed, value = self._nodes.relax(part.limits, enough=length_of(self.best))
        part.bound = max(part.bound, next_reachable(self.problem, value))
        solution = self._nodes.solution(relaxed)
        self._round(solution)
        if part.bound >= length_of(self.best):
            return []
        halves = self._best_of(self._by_height(part.limits, solution), relaxed)
        if halves is None:
            left = self._decided(part, relaxed)
            if left is not None:
                return left
            halves = self._best_of(self._by_lot(part.limits, solution), relaxed)
        if halves is None:
            self._give_up(part, solution)
            return []
        turn = -2 * self._parts  # the newest first, of parts with one bound
        return [_Part(part.bound, turn - many, limits) for many, limits in enumerate(halves)]

    def _decided(self, part: _Part, relaxed: Relaxed) -> list[_Part] | None:
        """Let integer programs decide up to which length a part has no layout; None where none does."""
        lengths = (part.bound, length_of(self.best) - 1)
        outcome = self._nodes.decide(relaxed, part.limits, lengths=lengths)
        if outcome is None:
            return None
        self._take(outcome.layout)
        if not outcome.complete:
            return None
        rest = _Part(next_reachable(self.problem, outcome.at_most + 1), part.turn, part.limits)
        return [] if outcome.layout else [rest]

    def _give_up(self, part: _Part, solution: Solution) -> None:
        """Look for a layout of a part that cannot be halved; without one its bound stays."""
        self._take(packed(self.problem, solution))
        if part.bound < length_of(self.best):
            self._take(self._nodes.at_hand(part.limits, at_most=part.bound))
        if part.bound < length_of(self.best):
            self._left = part.bound if self._left is None else min(self._left, part.bound)

    def _best_of(self, ways: Iterable[Way], relaxed: Relaxed) -> Halves | None:
        """Choose the way that raises the bounds of both halves furthest; None where there is none."""
        likely = sorted(ways, key=lambda way: way[0], reverse=True)[:_TRIED]
        return max(
            (halves for _, halves in likely), key=lambda each: self._gains(relaxed, each), default=None
        )

    def _by_height(self, limits: Limits, solution: Solution) -> Iterator[Way]:
        """Give the ways to halve a part by the number of strips so high or higher, the highest first."""
        for height in reversed(self.problem.heights):
            number = sum(strips for column, strips in solution.items() if column.height >= height)
            if not _is_whole(number):
                least, most = limits[height]
                few, many = (least, floor(number)), (ceil(number), most)
                yield _off(number), ({**limits, height: few}, {**limits, height: many})

    def _by_lot(self, limits: Limits, solution: Solution) -> Iterator[Way]:
        """Give the ways to halve a part by the number of pieces of a lot; few of it are more of the rest."""
        pieces, lowest = laid(self.problem, solution), self.problem.heights[0]
        for (place, height), number in pieces.items():
            size = self.problem.shapes[place].size
            made = sum(pieces[each, lowest] for each in self.problem.places_of[size])
            left = self.problem.demand[size] - floor(number)
            if _is_whole(number) or made - number > left - NEAR:
                continue
            lot = Lot(place=place, size=size, height=height, rest=False)
            few, many = _with(limits, lot.other, left), _with(limits, lot, ceil(number))
            yield _off(number), (few, many)

    def _gains(self, relaxed: Relaxed, halves: Halves) -> list[float]:
        """Tell how far the two halves raise the value, the lesser first."""
        most = length_of(self.best)
        return sorted(min(most, self._nodes.glance(half) - relaxed.value) for half in halves)

    def _round(self, solution: Solution) -> None:
        """Take a solution in whole numbers as it is; now and then fill up the whole part of another."""
        down = {column: floor(n + NEAR) for column, n in solution.items() if n + NEAR >= 1}
        if all(_is_whole(n) for n in solution.values()):
            self._take(down)
        elif self._parts % _ROUNDING == 1:
            self._take(complete(self.problem, down))

    def _take(self, layout: Layout) -> None:
        """Keep a layout that is whole and shorter."""
        if length_of(layout) < length_of(self.best) and not any(left_to_cut(self.problem, layout)):
            self.best = layout


def _off(number: float) -> float:
    return abs(number - round(number))


def _is_whole(number: float) -> bool:
    return _off(number) <= NEAR


def _with(limits: Limits, lot: Lot, number: int) -> Limits:
    """Ask for so many pieces of a lot."""
    asked = limits[lot][0] if lot in limits else 0
    return {**limits, lot: (max(asked, number), None)}
