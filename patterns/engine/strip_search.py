"""Column generation for strip plans: short layouts, and lengths that no layout can beat.

After Cintra, Miyazawa, Wakabayashi and Xavier, EJOR 191 (2008) 61-85.  Budgets are counted, so the
same list gives the same plan everywhere.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.solver import MARGIN, Program, Relaxed
from patterns.engine.strip_bounds import strips_at_least
from patterns.engine.strip_greedy import complete, plain_columns
from patterns.engine.strip_model import Column, Layout, PlanMode, Problem, left_to_cut, length_of
from patterns.engine.strip_pricing import best_columns, columns_worth, values_of

_ROUNDS = 400  # of column generation for one linear program
_NODES = 60  # of the integer program over the columns at hand
_WIDER = 200  # columns listed for it
_HALF = float(Fraction(1, 2))


@dataclass
class Search:
    """The columns found so far and the linear program over them."""

    problem: Problem

    def __post_init__(self) -> None:
        """Set up rows for the sizes, and for the strips that must be so high at least."""
        self.levels = dict(strips_at_least(self.problem))
        self.columns: list[Column] = []
        self._known: set[Column] = set()
        self.rows = [*self.problem.demand, *self.levels.values()]
        self.program = Program(self.rows)

    def add(self, columns: Iterable[Column]) -> bool:
        """Take in the columns that are new; say whether there was one."""
        new = [column for column in dict.fromkeys(columns) if column not in self._known]
        for column in new:
            self.program.add_column(cost=column.height, entries=self._entries(column))
        self.columns += new
        self._known.update(new)
        return bool(new)

    def generate(self) -> Relaxed:
        """Add columns until none is worth more than it costs; give the solved linear program."""
        relaxed = self.program.relax()
        for _ in range(_ROUNDS):
            worth = self._worth(relaxed)
            paying = [
                c
                for value, c in best_columns(self.problem, relaxed.prices)
                if value > worth[c.height] + MARGIN
            ]
            if not self.add(paying):
                return relaxed
            relaxed = self.program.relax()
        return Relaxed(0, relaxed.prices, relaxed.numbers)  # not converged: no bound

    def dive(self, relaxed: Relaxed) -> Layout:
        """Fix the whole strips of the linear program, or else the likeliest one, and solve the rest again."""
        layout: Layout = {}
        best: Layout = {}
        while any(left_to_cut(self.problem, layout)):
            fixed = {
                c: int(n + MARGIN)
                for c, n in zip(self.columns, relaxed.numbers, strict=True)
                if n + MARGIN >= 1
            }
            if not fixed:
                fixed = {self.columns[max(range(len(self.columns)), key=lambda at: relaxed.numbers[at])]: 1}
            for column, number in fixed.items():
                layout[column] = layout.get(column, 0) + number
            finished = complete(self.problem, layout)
            best = min(best or finished, finished, key=length_of)
            self.program.demand(self._left(layout))
            relaxed = self.generate()
        self.program.demand(self.rows)
        return min(best, pruned(self.problem, layout), key=length_of)

    def choose(self, best: Layout, *, at_least: int) -> Layout:
        """Look for a shorter layout in whole numbers of the columns at hand, within a budget of nodes."""
        while length_of(best) > at_least:
            found = self._whole(at_most=length_of(best) - 1)
            if not found:
                break
            best = found
        return best

    def widen(self, relaxed: Relaxed, *, target: int) -> None:
        """Take in columns that the linear program did not need, as far as a layout so short may hold them."""
        slack, columns = target - relaxed.value, None
        while columns is None and slack > MARGIN:
            columns = self._cheap(relaxed, slack=slack)
            slack = slack * _HALF
        self.add(columns or ())

    def _cheap(self, relaxed: Relaxed, *, slack: float) -> list[Column] | None:
        """List the columns whose reduced cost is within the slack; None when they are too many.

        A layout that is longer than the linear program by no more than the slack holds no others.
        """
        if self.problem.mode == PlanMode.STACK:
            return []
        needed = {height: worth - slack - MARGIN for height, worth in self._worth(relaxed).items()}
        return columns_worth(self.problem, values_of(self.problem, relaxed.prices), needed, most=_WIDER)

    def _whole(self, *, at_most: int) -> Layout:
        """Lay whole strips of the columns at hand, no longer than `at_most`; empty when none was found."""
        first = len(self.rows)
        program = Program([*self.rows, *(0 for _ in self.problem.heights)])
        heights = {height: row for row, height in enumerate(self.problem.heights, first)}
        for column in self.columns:
            program.add_column(
                cost=column.height, entries={**self._entries(column), heights[column.height]: 1}
            )
        for row in heights.values():  # the number of strips of each height, for the solver to branch on
            program.add_column(cost=0, entries={row: -1})
        numbers = program.whole(at_most=at_most, nodes=_NODES).numbers
        layout = {c: n for c, n in zip(self.columns, numbers, strict=False) if n > 0}
        return layout if layout and not any(left_to_cut(self.problem, layout)) else {}

    def _worth(self, relaxed: Relaxed) -> dict[int, float]:
        """Give what a strip of each height must be worth in pieces to pay."""
        bonus = dict(zip(self.levels, relaxed.prices[len(self.problem.demand) :], strict=True))
        return {
            height: height - sum(price for level, price in bonus.items() if level <= height)
            for height in self.problem.heights
        }

    def _entries(self, column: Column) -> dict[int, int]:
        entries = {row: made for row, made in enumerate(self.problem.made(column)) if made}
        first = len(self.problem.demand)
        return entries | {row: 1 for row, level in enumerate(self.levels, first) if level <= column.height}

    def _left(self, layout: Layout) -> list[int]:
        strips = [
            max(0, number - sum(n for column, n in layout.items() if column.height >= level))
            for level, number in self.levels.items()
        ]
        return [*left_to_cut(self.problem, layout), *strips]


def pruned(problem: Problem, layout: Layout) -> Layout:
    """Leave out strips that are not needed, the highest first."""
    kept = dict(layout)
    for column in sorted(layout, key=lambda column: (-column.height, column.cuts)):
        while kept.get(column):
            less = {**kept, column: kept[column] - 1}
            if any(left_to_cut(problem, less)):
                break
            kept = {each: number for each, number in less.items() if number}
    return kept


def start(problem: Problem, layout: Layout) -> Search:
    """Open a search with the columns of a first layout and the plain strips."""
    search = Search(problem)
    search.add([*plain_columns(problem), *layout])
    return search
