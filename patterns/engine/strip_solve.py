"""From a problem to a layout and a bound: at once where bounds settle it, else by search and proof."""

from __future__ import annotations

from dataclasses import dataclass, replace

from patterns.engine.strip_bounds import lower_bound, next_reachable
from patterns.engine.strip_branch import Branching
from patterns.engine.strip_greedy import greedy_layout
from patterns.engine.strip_model import Layout, PlanMode, Problem, length_of
from patterns.engine.strip_proof import Proof
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


def solve(problem: Problem, *, seconds: int, effort: int = 1) -> Solved:
    """Find a layout by search, and a proof within a counted effort and so many seconds.

    A plan with stacks is never longer than one without: it starts from there.
    """
    if problem.mode == PlanMode.STACK:
        plain = solve(replace(problem, mode=PlanMode.TRIM), seconds=seconds, effort=effort)
        first = Solved(problem, plain.layout, lower_bound(problem))
    else:
        first = at_once(problem)
    if first.settled:
        return first
    search = start(problem, first.layout)
    relaxed = search.generate()
    bound = max(first.bound, next_reachable(problem, relaxed.bound))
    best = min(first.layout, search.dive(relaxed), key=length_of)
    best = search.choose(best, at_least=bound)
    branching = Branching(problem, best, search.columns)
    bound = branching.run(bound=bound, effort=effort)
    best = branching.best
    if branching.stuck:
        best, bound = Proof(search, relaxed, seconds).run(best, bound=bound)
    if bound < length_of(best):
        search.widen(relaxed, target=length_of(best) - 1)
        best = search.choose(best, at_least=bound)
    return Solved(problem, pruned(problem, best), bound)


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
