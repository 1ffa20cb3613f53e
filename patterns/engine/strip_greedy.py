"""Good strip plans at once: open a strip for the tallest piece, fill it, go on."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from operator import attrgetter

from patterns.engine.knapsack import Knapsack
from patterns.engine.strip_model import (
    Column,
    Layout,
    PlanMode,
    Problem,
    Shape,
    Stack,
    column_of,
    left_to_cut,
    length_of,
)


def greedy_layout(problem: Problem) -> Layout:
    """Give the best of several ways to open and fill strips."""
    return min(_layouts(problem), key=length_of)


def complete(problem: Problem, layout: Layout) -> Layout:
    """Add strips to a layout until it meets the demand."""
    if not any(left_to_cut(problem, layout)):
        return layout
    rest = problem.with_demand(left_to_cut(problem, layout))
    whole = dict(layout)
    for column, number in greedy_layout(rest).items():
        whole[column] = whole.get(column, 0) + number
    return whole


def plain_columns(problem: Problem) -> Iterator[Column]:
    """Give the strips of one shape only, as many as fit across: a first set of columns."""
    for place, shape in enumerate(problem.shapes):
        yield column_of(shape.height, {(place,): problem.width // shape.width})


def _layouts(problem: Problem) -> Iterator[Layout]:
    openers: tuple[Callable[[Problem, int], Shape], ...] = (_lowest, _highest, _as_given)
    turns = len(problem.shapes) > len(problem.demand)
    for opener in openers if turns else openers[:1]:
        for by_area in (True, False):
            yield _layout(problem, opener, by_area=by_area)


def _lowest(problem: Problem, size: int) -> Shape:
    return min(problem.shapes_of[size], key=attrgetter("height"))


def _highest(problem: Problem, size: int) -> Shape:
    return max(problem.shapes_of[size], key=attrgetter("height"))


def _as_given(problem: Problem, size: int) -> Shape:
    return min(problem.shapes_of[size], key=attrgetter("turned"))


def _layout(problem: Problem, opener: Callable[[Problem, int], Shape], *, by_area: bool) -> Layout:
    missing = list(problem.demand)
    layout: Layout = {}
    while any(missing):
        openings = [opener(problem, size) for size, number in enumerate(missing) if number]
        first = max(openings, key=lambda shape: (shape.height, shape.width))
        column = _fill(problem, first, missing, by_area=by_area)
        number = _repeats(problem, column, missing)
        layout[column] = layout.get(column, 0) + number
        for size, made in enumerate(problem.made(column)):
            missing[size] -= made * number
    return layout


def _repeats(problem: Problem, column: Column, missing: list[int]) -> int:
    made = problem.made(column)
    return min(missing[size] // number for size, number in enumerate(made) if number)


def _fill(problem: Problem, first: Shape, missing: list[int], *, by_area: bool) -> Column:
    """Fill a strip as high as `first`, which is in it, from what is missing; never more of it."""
    sack = Knapsack(problem.width - first.width)
    for place, shape in enumerate(problem.shapes):
        fits = (
            shape.height == first.height if problem.mode == PlanMode.EXACT else shape.height <= first.height
        )
        if fits:
            value = shape.width * (shape.height if by_area else 1)
            limit = missing[shape.size] - (shape.size == first.size)
            sack.add(place, width=shape.width, value=value, limit=limit)
    counts = sack.take(sack.mark)
    opening = problem.shapes.index(first)
    left = list(missing)
    left[first.size] -= 1
    stacks: dict[Stack, int] = {(opening,): 1}
    for place in sorted(counts, key=lambda place: -problem.shapes[place].height):
        size = problem.shapes[place].size
        number = min(counts[place], left[size])
        left[size] -= number
        stacks[place,] = stacks.get((place,), 0) + number
    return column_of(first.height, stacks)
