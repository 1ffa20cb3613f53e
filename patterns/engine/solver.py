"""Linear and integer programs, solved by HiGHS: one thread, a fixed start, counted nodes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Any

MARGIN = float(Fraction(1, 10**6))  # taken off every bound of the solver before it is rounded up


@dataclass(frozen=True, slots=True)
class Relaxed:
    """A solved linear program: its value, a price per row, a number per column."""

    value: float
    prices: tuple[float, ...]
    numbers: tuple[float, ...]
    feasible: bool = True

    @property
    def bound(self) -> int:
        """Round the value up to a whole number, the margin taken off first."""
        return ceil(self.value - MARGIN)


@dataclass(frozen=True, slots=True)
class Whole:
    """What an integer program gave: numbers (none when nothing was found), and whether it was finished."""

    numbers: tuple[int, ...]
    finished: bool


class Program:
    """Minimise the cost of columns that meet every row's demand; columns can be added all the time."""

    def __init__(self, demand: Sequence[int]) -> None:
        """Open a program with rows and no column."""
        import highspy  # noqa: PLC0415 -- slow import, not needed by most requests

        self._highspy = highspy
        # highspy.Highs prints a banner before it can be silenced; its base is the solver alone.
        solver_type: Any = highspy.Highs.__base__
        self._solver: Any = solver_type()
        for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 0)):
            self._solver.setOptionValue(option, value)
        self.rows = len(demand)
        self.columns = 0
        for number in demand:
            self._solver.addRow(number, highspy.kHighsInf, 0, [], [])

    def add_column(self, *, cost: int, entries: Mapping[int, int], most: int | None = None) -> None:
        """Add a column: what one of it costs, and what it puts into which row."""
        highest = self._highspy.kHighsInf if most is None else most
        self._solver.addCol(cost, 0, highest, len(entries), list(entries), list(entries.values()))
        self.columns += 1

    def add_row(self, entries: Mapping[int, int]) -> int:
        """Add a row that asks for nothing yet, with what each column puts into it; give its place."""
        self._solver.addRow(0, self._highspy.kHighsInf, len(entries), list(entries), list(entries.values()))
        self.rows += 1
        return self.rows - 1

    def demand(self, demand: Sequence[int]) -> None:
        """Ask for other numbers in the rows."""
        for row, number in enumerate(demand):
            self._solver.changeRowBounds(row, number, self._highspy.kHighsInf)

    def fix(self, row: int, number: int) -> None:
        """Ask for exactly so many in a row."""
        self._solver.changeRowBounds(row, number, number)

    def between(self, row: int, least: int, most: int | None) -> None:
        """Ask for so many in a row at least and, if a number is given, at most."""
        self._solver.changeRowBounds(row, least, self._highspy.kHighsInf if most is None else most)

    def relax(self) -> Relaxed:
        """Solve with fractions of columns."""
        self._solver.run()
        solution = self._solver.getSolution()
        return Relaxed(
            self._solver.getInfo().objective_function_value,
            tuple(solution.row_dual),
            tuple(solution.col_value),
            self._solver.getModelStatus() == self._highspy.HighsModelStatus.kOptimal,
        )

    def value(self) -> float:
        """Solve with fractions of columns; give the cost alone."""
        self._solver.run()
        return float(self._solver.getInfo().objective_function_value)

    def whole(self, *, at_most: int, nodes: int) -> Whole:
        """Solve in whole numbers, only below a cost, within a number of nodes."""
        solver, highs = self._solver, self._highspy
        for column in range(self.columns):
            solver.changeColIntegrality(column, highs.HighsVarType.kInteger)
        costs = list(solver.getLp().col_cost_)
        solver.addRow(-highs.kHighsInf, at_most, self.columns, list(range(self.columns)), costs)
        solver.setOptionValue("mip_max_nodes", nodes)
        solver.run()
        status = solver.getModelStatus()
        found = solver.getInfo().primal_solution_status == highs.SolutionStatus.kSolutionStatusFeasible
        values = solver.getSolution().col_value if found else ()
        finished = status in (highs.HighsModelStatus.kOptimal, highs.HighsModelStatus.kInfeasible)
        return Whole(tuple(map(round, values)), finished)
