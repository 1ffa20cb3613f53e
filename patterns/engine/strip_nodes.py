"""The linear program of one node: columns for the pieces, and limits to the number of strips.

A row counts the strips of each height and higher.  A limit to such a number changes what a strip of a
height must be worth, and nothing else in the pricing.  A row for a lot counts pieces; where one asks for
a number, a piece is worth more in strips of some heights.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import count
from math import ceil
from typing import TypeAlias

from patterns.engine.solver import MARGIN, Program, Relaxed
from patterns.engine.strip_lots import Lot, Solution
from patterns.engine.strip_model import Column, Layout, PlanMode, Problem, left_to_cut
from patterns.engine.strip_pricing import Values, best_columns, best_valued, columns_worth, values_of

_ROUNDS = 400  # of column generation
_LISTED = 1000
_LISTING = 20  # times the width: the work of listing them
_NODES = 400  # of that integer program
_WHOLE = float(Fraction(1))

_FREE = (0, None)

# The fewest and the most strips so high or higher; of a lot only the fewest pieces.
Limits: TypeAlias = Mapping[int | Lot, tuple[int, int | None]]


@dataclass(frozen=True, slots=True)
class Decision:
    """A layout within a length, empty when none was found, and whether the search left nothing out."""

    layout: Layout
    at_most: int
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
        self._penalty = penalty
        self._rows: dict[int | Lot, int] = dict(zip(problem.heights, count(self._first), strict=False))
        self._program = Program([*problem.demand, *(0 for _ in problem.heights)])
        self._limits: Limits = {}
        self._places: list[int] = []  # of the columns in the program
        for row in range(self._program.rows):
            self._program.add_column(cost=penalty, entries={row: 1})
        self._add(columns)

    def relax(self, limits: Limits, *, enough: int) -> tuple[Relaxed, int]:
        """Solve a node; give the solution and a length that none of its layouts beats.

        Ends early when the bound is `enough`.  The prices of any round, scaled down until no column is
        worth more than it costs, give a bound.
        """
        self._limit(limits)
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
        self._limit(limits)
        self._count()
        return self._program.value()

    def decide(self, relaxed: Relaxed, limits: Limits, *, lengths: tuple[int, int]) -> Decision | None:
        """Look for the shortest layout of a solved node within the greater length, or else the lesser.

        None where too many columns come into question even for that.
        """
        found = None
        for at_most in lengths:
            columns = self._cheap(relaxed, slack=at_most - relaxed.value)
            if columns is None:
                break
            found = (columns, at_most)
        if found is None:
            return None
        columns, at_most = found
        layout, finished = self._whole(columns, limits, at_most=at_most)
        return Decision(layout, at_most, finished)

    def at_hand(self, limits: Limits, *, at_most: int) -> Layout:
        """Look for a layout of a node within a length, among the columns gathered so far."""
        return self._whole(self.columns, limits, at_most=at_most)[0]

    def solution(self, relaxed: Relaxed) -> Solution:
        """Give the strips of a solved node, in fractions."""
        return {c: n for c, n in zip(self.columns, relaxed.numbers, strict=True) if n > MARGIN}

    def _cheap(self, relaxed: Relaxed, *, slack: float) -> list[Column] | None:
        """List the columns that layouts within the slack may hold; None when they are too many."""
        if self.problem.mode == PlanMode.STACK:
            return None
        self.work += self.problem.width * _LISTING
        needed = {height: worth - slack - MARGIN for height, worth in self._worth(relaxed).items()}
        return columns_worth(self.problem, self._values(relaxed), needed, most=_LISTED)

    def _whole(self, columns: list[Column], limits: Limits, *, at_most: int) -> tuple[Layout, bool]:
        """Lay whole strips of these columns; says too whether the search for them was finished."""
        rows = {key: row for row, key in enumerate(limits, self._first)}
        program = Program([*self.problem.demand, *(0 for _ in rows)])
        for key, row in rows.items():
            program.between(row, *limits[key])
        for column in columns:
            program.add_column(cost=column.height, entries=self._entries(column, rows))
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
        for value, column in self._best(relaxed):
            excess = value - worth[column.height]
            if excess > 0:
                share = min(share, column.height / (column.height + excess))
            if excess > MARGIN:
                paying.append(column)
        return paying, share

    def _best(self, relaxed: Relaxed) -> Iterator[tuple[float, Column]]:
        if not any(relaxed.prices[self._first + len(self.problem.heights) :]):
            return best_columns(self.problem, relaxed.prices[: self._first])
        self.work += self.problem.width * len(self.problem.shapes) * (len(self.problem.heights) - 1)
        return best_valued(self.problem, self._values(relaxed))

    def _values(self, relaxed: Relaxed) -> Values:
        """Give what each shape is worth in strips of each height."""
        values = values_of(self.problem, relaxed.prices[: self._first])
        paid = [(key, relaxed.prices[row]) for key, row in self._rows.items() if isinstance(key, Lot)]
        more = [(lot, price) for lot, price in paid if price]
        if not more:
            return values
        return {
            height: [
                value + sum(price for lot, price in more if lot.holds(self.problem, place, height))
                for place, value in enumerate(worth)
            ]
            for height, worth in values.items()
        }

    def _solved(self) -> Relaxed:
        self._count()
        relaxed = self._program.relax()
        numbers = tuple(relaxed.numbers[place] for place in self._places)
        return Relaxed(relaxed.value, relaxed.prices, numbers, relaxed.feasible)

    def _count(self) -> None:
        """Count the work of solving the program once."""
        self.work += self._program.columns * self._program.rows // 2

    def _limit(self, limits: Limits) -> None:
        for key in limits:
            if isinstance(key, Lot) and key not in self._rows:
                self._open(key)
        for key in self._limits.keys() | limits.keys():
            limit = limits.get(key, _FREE)
            if limit != self._limits.get(key, _FREE):
                self._program.between(self._rows[key], *limit)
        self._limits = limits

    def _open(self, lot: Lot) -> None:
        entries = {
            place: number
            for place, column in zip(self._places, self.columns, strict=True)
            if (number := lot.count(self.problem, column))
        }
        self._rows[lot] = self._program.add_row(entries)
        self._program.add_column(cost=self._penalty, entries={self._rows[lot]: 1})

    def _add(self, columns: Iterable[Column]) -> bool:
        new = [column for column in dict.fromkeys(columns) if column not in self._known]
        for column in new:
            self._places.append(self._program.columns)
            self._program.add_column(cost=column.height, entries=self._entries(column, self._rows))
        self.columns += new
        self._known.update(new)
        return bool(new)

    def _entries(self, column: Column, rows: Mapping[int | Lot, int]) -> dict[int, int]:
        made = {row: number for row, number in enumerate(self.problem.made(column)) if number}
        for key, row in rows.items():
            number = key.count(self.problem, column) if isinstance(key, Lot) else int(key <= column.height)
            if number:
                made[row] = number
        return made

    def _worth(self, relaxed: Relaxed) -> dict[int, float]:
        """Give what a strip of each height must be worth in pieces to pay."""
        worth, bonus = {}, MARGIN * 0
        for height, price in zip(self.problem.heights, relaxed.prices[self._first :], strict=False):
            bonus += price
            worth[height] = height - bonus
        return worth
