"""From a problem to a layout and a bound: at once where bounds settle it, else by search and proof."""

from __future__ import annotations

from dataclasses import replace

from patterns.engine.strip_bounds import lower_bound, next_reachable
from patterns.engine.strip_branch import Branching
from patterns.engine.strip_model import PlanMode, Problem, length_of
from patterns.engine.strip_quick import Solved, at_once
from patterns.engine.strip_search import pruned, start


def solve(problem: Problem, *, effort: int = 1) -> Solved:
    """Find a layout by search, and a proof within a counted effort.

    A plan with stacks is never longer than one without: it starts from there.
    """
    if problem.mode == PlanMode.STACK:
        plain = solve(replace(problem, mode=PlanMode.TRIM), effort=effort)
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
    if bound < length_of(best):
        search.widen(relaxed, target=length_of(best) - 1)
        best = search.choose(best, at_least=bound)
    return Solved(problem, pruned(problem, best), bound)
