"""Layouts that take no proof: at once where bounds settle it, else by one search."""

from __future__ import annotations

from dataclasses import dataclass

from patterns.engine.strip_bounds import lower_bound, next_reachable
from patterns.engine.strip_greedy import greedy_layout
from patterns.engine.strip_model import Layout, Problem, length_of
from patterns.engine.strip_search import pruned, start


@dataclass(frozen=True, slots=True)
class Solved:
    """The shortest layout that was found, and a length that none can beat."""

    problem: Problem
    layout: Layout
    bound: int

    @property
    def length(self) -> int:
        """Give the length of the layout."""
        return length_of(self.layout)

    @property
    def settled(self) -> bool:
        """Whether nothing shorter can exist."""
        return self.length <= self.bound


def at_once(problem: Problem) -> Solved:
    """Give the greedy layout and the bound that needs no solver."""
    layout = pruned(problem, greedy_layout(problem))
    return Solved(problem, layout, lower_bound(problem))


def search_for(problem: Problem, length: int) -> Layout:
    """Look for a layout no longer than this, without a proof; empty when none was found."""
    first = at_once(problem)
    if first.length <= length or first.bound > length:
        return first.layout if first.length <= length else {}
    search = start(problem, first.layout)
    relaxed = search.generate()
    if next_reachable(problem, relaxed.bound) > length:
        return {}
    best = search.choose(search.dive(relaxed), at_least=length)
    return pruned(problem, best) if length_of(best) <= length else {}
