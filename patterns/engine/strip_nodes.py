"""The linear program of one node: columns for the pieces, and limits to the number of strips.

A row counts the strips of each height and higher.  A limit to such a number changes what a strip of a
height must be worth, and nothing else in the pricing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import TypeAlias

from patterns.engine.solver import MARGIN, Program, Relaxed
from patterns.engine.strip_model import Column, Layout, PlanMode, Problem, left_to_cut
from patterns.engine.strip_pricing import best_columns, columns_worth

_ROUNDS = 400  # of column generation
_LISTED = 1000
_LISTING = 20  # times the width: the work of listing them
_NODES = 400  # of that integer program
_WHOLE = float(Fraction(1))

Limits: TypeAlias = Mapping[int, tuple[int, int | None]]  # height: fewest and most strips so high or higher


@dataclass(frozen=True, slots=True)
class Decision:
    """A layout, empty when none was found, and whether the search left nothing out."""

    layout: Layout
    complete: bool


class Nodes:
    """Solves node after node over the columns that it gathers; counts its work."""

    def __init__(self, problem: Problem, columns: Iterable[Column], *, penalty: int) -> None:
        """Open the program; a row that is not met costs the penalty, so that every node has a solution."""
        self.problem = problem
        self.columns: list[Column] = []
        self.work = 0  # widths looked at by the pricing, or numbers by the solver
        self._known: set[Column] = set()
        self._first = len(problem.demand)
        self._program = Program([*problem.demand, *(0 for _ in problem.heights)])
        for row in range(self._program.rows):
            self._program.add_column(cost=penalty, entries={row: 1})
        self._free = self._program.columns
        self._add(columns)

    def relax(self, limits: Limits, *, enough: int) -> tuple[Relaxed, int]:
        """Solve a node; give the solution and a length that none of its layouts beats.

        Ends early when the bound is `enough`.  The prices of any round, scaled down until no column is
        worth more than it costs, give a bound.
        """
        self._limit(self._program, limits)
        bound = 0
        for _ in range(_ROUNDS):
            relaxed = self._solved()
            paying, share = self._priced(relaxed)
            bound = max(bound, ceil(share * relaxed.value - MARGIN))
            if bound >= enough or not self._add(paying):
                break
        return relaxed, bound

    def glance(self, limits: Limits) -> float:
        """Give the value of a node over the columns at hand."""
        self._limit(self._program, limits)
        return self._solved().value

    def decide(self, relaxed: Relaxed, limits: Limits, *, at_most: int) -> Decision:
        """Look for the shortest layout of a solved node within a length."""
        columns = self._cheap(relaxed, slack=at_most - relaxed.value)
        if columns is None:
            return Decision({}, complete=False)
        layout, finished = self._whole(columns, limits, at_most=at_most)
        return Decision(layout, finished)

    def at_hand(self, limits: Limits, *, at_most: int) -> Layout:
        """Look for a layout of a node within a length, among the columns gathered so far."""
        return self._whole(self.columns, limits, at_most=at_most)[0]

    def strips(self, relaxed: Relaxed, height: int) -> float:
        """Count the strips of a solution that are so high or higher."""
        return sum(n for c, n in zip(self.columns, relaxed.numbers, strict=True) if c.height >= height)

    def _cheap(self, relaxed: Relaxed, *, slack: float) -> list[Column] | None:
        """List the columns that layouts within the slack may hold; None when they are too many."""
        if self.problem.mode == PlanMode.STACK:
            return None
        self.work += self.problem.width * _LISTING
        needed = {height: worth - slack - MARGIN for height, worth in self._worth(relaxed).items()}
        return columns_worth(self.problem, relaxed.prices[: self._first], needed, most=_LISTED)

    def _whole(self, columns: list[Column], limits: Limits, *, at_most: int) -> tuple[Layout, bool]:
        """Lay whole strips of these columns; says too whether the search for them was finished."""
        program = Program([*self.problem.demand, *(0 for _ in self.problem.heights)])
        self._limit(program, limits)
        for column in columns:
            program.add_column(cost=column.height, entries=self._entries(column))
        self.work += len(columns) * program.rows
        whole = program.whole(at_most=at_most, nodes=_NODES)
        layout = {c: n for c, n in zip(columns, whole.numbers, strict=False) if n > 0}
        complete = not any(left_to_cut(self.problem, layout))
        return (layout if complete else {}), whole.finished

    def _priced(self, relaxed: Relaxed) -> tuple[list[Column], float]:
        """Give the columns worth more than they cost, and the share of the prices at which none is."""
        worth = self._worth(relaxed)
        self.work += self.problem.width * len(self.problem.shapes)
        paying, share = [], _WHOLE
        for value, column in best_columns(self.problem, relaxed.prices[: self._first]):
            excess = value - worth[column.height]
            if excess > 0:
                share = min(share, column.height / (column.height + excess))
            if excess > MARGIN:
                paying.append(column)
        return paying, share

    def _solved(self) -> Relaxed:
        relaxed = self._program.relax()
        self.work += self._program.columns * self._program.rows // 2
        return Relaxed(relaxed.value, relaxed.prices, relaxed.numbers[self._free :], relaxed.feasible)

    def _limit(self, program: Program, limits: Limits) -> None:
        for row, height in enumerate(self.problem.heights, self._first):
            least, most = limits[height]
            program.between(row, least, most)

    def _add(self, columns: Iterable[Column]) -> bool:
        new = [column for column in dict.fromkeys(columns) if column not in self._known]
        for column in new:
            self._program.add_column(cost=column.height, entries=self._entries(column))
        self.columns += new
        self._known.update(new)
        return bool(new)

    def _entries(self, column: Column) -> dict[int, int]:
        made = {row: number for row, number in enumerate(self.problem.made(column)) if number}
        levels = enumerate(self.problem.heights, self._first)
        return made | {row: 1 for row, level in levels if level <= column.height}

    def _worth(self, relaxed: Relaxed) -> dict[int, float]:
        """Give what a strip of each height must be worth in pieces to pay."""
        worth, bonus = {}, MARGIN * 0
        for height, price in zip(self.problem.heights, relaxed.prices[self._first :], strict=True):
            bonus += price
            worth[height] = height - bonus
        return worth
