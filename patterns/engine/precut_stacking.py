"""From strips and pieces in whole numbers to precuts that can be cut: two cutting stock problems in turn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeAlias

from patterns.engine.precut_search import Pattern, Way
from patterns.engine.strip_lots import packed
from patterns.engine.strip_model import Column, Layout, PlanMode, Problem, Shape
from patterns.engine.strip_quick import search_for

Solution: TypeAlias = Mapping[Pattern, float]  # precuts cut each way, in fractions


def stacked(solution: Solution) -> dict[Pattern, int]:
    """Cut strips of whole lots from precuts of whole numbers, each way by itself; empty if not found."""
    found: dict[Pattern, int] = {}
    for way in dict.fromkeys(pattern.way for pattern in solution):
        strips: dict[Column, float] = {}
        for pattern, number in solution.items():
            for strip in pattern.strips if pattern.way == way else ():
                strips[strip] = strips.get(strip, 0) + number
        precuts = round(sum(n for pattern, n in solution.items() if pattern.way == way))
        cut = _into_precuts(way, packed(way.problem, strips), precuts)
        if not cut:
            return {}
        found |= cut
    return found


def from_one(ways: Iterable[Way]) -> dict[Pattern, int]:
    """Cut everything from one precut: strips that reach no further; empty if not found."""
    for way in ways:
        layout = search_for(way.problem, way.reach)
        if layout:
            return {Pattern(way, tuple(column for column, n in layout.items() for _ in range(n))): 1}
    return {}


def _into_precuts(way: Way, layout: Layout, precuts: int) -> dict[Pattern, int]:
    """Lay strips one above the other, as high as a precut reaches."""
    heights = sorted({column.height for column in layout})
    numbers = [sum(n for c, n in layout.items() if c.height == height) for height in heights]
    shapes = tuple(Shape(height, 1, size, turned=False) for size, height in enumerate(heights))
    stacks = search_for(Problem(way.reach, shapes, tuple(numbers), PlanMode.EXACT), precuts) if layout else {}
    waiting = {h: [c for c, n in layout.items() for _ in range(n) if c.height == h] for h in heights}
    found: dict[Pattern, int] = {}
    for stack, number in stacks.items():
        for _ in range(number):
            taken = [
                waiting[heights[place]].pop()
                for (place,), count in stack.cuts
                for _ in range(min(count, len(waiting[heights[place]])))
            ]
            pattern = Pattern(way, tuple(taken))
            found[pattern] = found.get(pattern, 0) + 1
    return found
