"""Among strip plans of equal length the kindest to the cutter.

It holds on the narrowest fabric; then strips hold few sizes, and few pieces are trimmed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice

from patterns.engine.solver import Program
from patterns.engine.strip_bounds import area_bound
from patterns.engine.strip_model import Column, Layout, PlanMode, Problem, column_of, left_to_cut, length_of
from patterns.engine.strip_quick import Solved, search_for

_NODES = 20
_COLUMNS = 300
_SIZE = 100  # one more size in a strip is as unkind as so many trims


def kindest(solved: Solved) -> Solved:
    """Give the kindest plan that was found of the same length; the bound stays."""
    narrow = _narrowest(solved)
    return replace(narrow, layout=_plainest(narrow), bound=solved.bound)


def _narrowest(solved: Solved) -> Solved:
    """Halve the range of widths until the narrowest fabric that gives the same length is found."""
    best = solved
    low = max(min(shape.width for shape in shapes) for shapes in solved.problem.shapes_of.values())
    high = _used(best)
    while low < high:
        width = (low + high) // 2
        problem = solved.problem.with_width(width)
        layout = _layout_within(problem, solved.length)
        if layout:
            best = Solved(problem, layout, solved.bound)
            high = _used(best)
        else:
            low = width + 1
    return best


def _layout_within(problem: Problem, length: int) -> Layout:
    return {} if area_bound(problem) > length else search_for(problem, length)


def _used(solved: Solved) -> int:
    return max(solved.problem.used(column) for column in solved.layout)


def _plainest(solved: Solved) -> Layout:
    """Choose strips with few sizes and trims among the columns at hand, at the same length and width."""
    if all(len(column.cuts) == 1 for column in solved.layout):
        return solved.layout
    columns = list(dict.fromkeys([*solved.layout, *islice(_plain_columns(solved), _COLUMNS)]))
    unkind = [_unkindness(solved.problem, column) for column in columns]
    program = Program([*solved.problem.demand, 0])
    length_row = len(solved.problem.demand)
    program.fix(length_row, solved.length)
    for column, cost in zip(columns, unkind, strict=True):
        entries = {row: made for row, made in enumerate(solved.problem.made(column)) if made}
        program.add_column(cost=cost, entries=entries | {length_row: column.height})
    now = sum(_unkindness(solved.problem, column) * number for column, number in solved.layout.items())
    whole = program.whole(at_most=now - 1, nodes=_NODES)
    layout = {column: number for column, number in zip(columns, whole.numbers, strict=False) if number > 0}
    fits = layout and length_of(layout) == solved.length and not any(left_to_cut(solved.problem, layout))
    return layout if fits else solved.layout


def _unkindness(problem: Problem, column: Column) -> int:
    sizes = {problem.shapes[place].size for stack, _ in column.cuts for place in stack}
    trims = sum(
        number
        for stack, number in column.cuts
        if sum(problem.shapes[place].height for place in stack) < column.height
    )
    return _SIZE * (len(sizes) - 1) + trims


def _plain_columns(solved: Solved) -> Iterator[Column]:
    """Give the strips of one and of two sizes that stay within the width the plan has now."""
    problem, across = solved.problem, _used(solved)
    for one, first in enumerate(problem.shapes):
        yield column_of(first.height, {(one,): across // first.width})
    for one, first in enumerate(problem.shapes):
        for other, second in enumerate(problem.shapes):
            lower = second.height < first.height and problem.mode != PlanMode.EXACT
            if first.size == second.size or not (lower or (second.height == first.height and other < one)):
                continue
            yield column_of(first.height, {(other,): across // second.width})
            for number in range(1, across // first.width + 1):
                left = across - number * first.width
                yield column_of(first.height, {(one,): number, (other,): left // second.width})
