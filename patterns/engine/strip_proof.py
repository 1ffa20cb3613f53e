"""Proof that no strip plan is shorter: try every length from the bound up.

A layout of one length has so many strips of each height; for each such set of strips a linear
program over the columns that cheap can be refutes it, or an integer program decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from patterns.engine.solver import Relaxed
from patterns.engine.strip_bounds import next_reachable, strips_exactly
from patterns.engine.strip_model import Column, Layout, length_of
from patterns.engine.strip_search import Search

_LISTED = 3000  # columns in a proof
_SETS = 1500  # sets of strips for one length
_FEW = 400  # columns that an integer program decides about by itself
_VISITS = 100_000  # of the walk that lists them
_DECISIONS = 40  # integer programs for one length
_NODES = 300  # of the integer program for one set of strips


@dataclass
class Proof:
    """A proof under way: `seconds` are those the solver may still run; running out of them ends it."""

    search: Search
    relaxed: Relaxed
    seconds: float

    def run(self, best: Layout, *, bound: int) -> tuple[Layout, int]:
        """Raise the bound as far as it goes; gives a shorter layout where the proof met one."""
        while bound < length_of(best):
            slack = bound - self.relaxed.value
            columns = self.search.cheap(self.relaxed, slack=slack, most=_LISTED)
            if not columns:
                break
            heights = sorted({column.height for column in columns}, reverse=True)
            sets = self._sets(bound, heights)
            if sets is not None:
                found, refuted = self._set_by_set(columns, bound, sets=sets)
            else:
                found, refuted = self._at_once(columns, bound)
            if found:
                return found, bound
            if not refuted:
                break
            bound = next_reachable(self.search.problem, bound + 1)
        return best, bound

    def _at_once(self, columns: list[Column], length: int) -> tuple[Layout, bool]:
        """Let an integer program decide by itself: sets are too many, but columns may be few."""
        if len(columns) > _FEW or self.seconds <= 0:
            return {}, False
        outcome = self.search.whole(columns, at_most=length, nodes=_NODES, seconds=self.seconds)
        self.seconds -= outcome.spent
        return outcome.layout, outcome.finished and not outcome.layout

    def _set_by_set(
        self, columns: list[Column], length: int, *, sets: list[dict[int, int]]
    ) -> tuple[Layout, bool]:
        """Look for a layout of exactly this length; say too whether all sets of strips were refuted."""
        refuted, decisions = True, 0
        program = self.search.by_height(columns)
        first = len(self.search.rows)
        for strips in sets:
            for row, height in enumerate(self.search.problem.heights, first):
                program.fix(row, strips.get(height, 0))
            if self.seconds - program.spent <= 0:
                return {}, False
            if not program.relax().feasible:
                continue
            decisions += 1
            if decisions > _DECISIONS:
                return {}, False
            outcome = self.search.whole(
                columns, at_most=length, nodes=_NODES, strips=strips, seconds=self.seconds
            )
            self.seconds -= outcome.spent
            if outcome.layout:
                return outcome.layout, True
            refuted = refuted and outcome.finished
        self.seconds -= program.spent
        return {}, refuted

    def _sets(self, length: int, heights: list[int]) -> list[dict[int, int]] | None:
        """List how many strips of these heights, highest first, make up a length; None when too many.

        There are never fewer than must be so high.
        """
        found: list[dict[int, int]] = []
        visits = 0
        levels, exact = self.search.levels, strips_exactly(self.search.problem)
        waiting: list[tuple[int, int, dict[int, int]]] = [(0, length, {})]
        while waiting:
            visits += 1
            if visits > _VISITS or len(found) > _SETS:
                return None
            at, left, strips = waiting.pop()
            height = heights[at]
            fewest = max(exact.get(height, 0), levels.get(height, 0) - sum(strips.values()))
            if at + 1 < len(heights):
                for number in range(left // height, fewest - 1, -1):
                    waiting.append((at + 1, left - number * height, {**strips, height: number}))
            elif left % height == 0 and left // height >= fewest:
                found.append({**strips, height: left // height})
        return found
