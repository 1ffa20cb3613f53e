"""Which strips are worth more than they cost, at given prices of the pieces."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

from patterns.engine.knapsack import Knapsack, TooManyFillings
from patterns.engine.strip_model import Column, PlanMode, Problem, Stack, column_of

Prices: TypeAlias = Sequence[float]  # one per size
Values: TypeAlias = Mapping[int, Sequence[float]]  # by the height of the strip: one per shape


def best_columns(problem: Problem, prices: Prices) -> Iterator[tuple[float, Column]]:
    """Give the most valuable strip of every height, with its value."""
    if problem.mode == PlanMode.TRIM:
        yield from _best_trimmed(problem, [prices[shape.size] for shape in problem.shapes])
    else:
        yield from best_valued(problem, values_of(problem, prices))


def best_valued(problem: Problem, values: Values) -> Iterator[tuple[float, Column]]:
    """Give the most valuable strip of every height where a piece's worth hangs on it, with its value."""
    best = _best_stacked if problem.mode == PlanMode.STACK else _best_flat
    for height in problem.heights:
        yield best(problem, values[height], height)


def values_of(problem: Problem, prices: Prices) -> Values:
    """Give every shape the price of its size, whatever its strip."""
    worth = [prices[shape.size] for shape in problem.shapes]
    return dict.fromkeys(problem.heights, worth)


def columns_worth(
    problem: Problem, values: Values, needed: Mapping[int, float], *, most: int
) -> list[Column] | None:
    """List every strip whose value reaches what its height needs; None when they are more than `most`.

    For layouts without stacks: a stack has too many ways to be listed.
    """
    found: list[Column] = []
    try:
        for height in problem.heights:
            for column in _listed(problem, values[height], height=height, needed=needed[height]):
                found.append(column)
                if len(found) > most:
                    return None
    except TooManyFillings:
        return None
    return found


def _best_trimmed(problem: Problem, worth: Sequence[float]) -> Iterator[tuple[float, Column]]:
    """Fill one knapsack, lowest shapes first: after each height it holds the best strip of that height."""
    sack = Knapsack(problem.width)
    for height in problem.heights:
        for place, shape in enumerate(problem.shapes):
            if shape.height == height:
                _offer(problem, worth, sack=sack, place=place)
        yield _taken(sack, height)


def _best_flat(problem: Problem, worth: Sequence[float], height: int) -> tuple[float, Column]:
    sack = Knapsack(problem.width)
    for place in _fitting(problem, height):
        _offer(problem, worth, sack=sack, place=place)
    return _taken(sack, height)


def _fitting(problem: Problem, height: int) -> Iterator[int]:
    """Give the shapes that may lie in a strip of a height."""
    exact = problem.mode == PlanMode.EXACT
    for place, shape in enumerate(problem.shapes):
        if shape.height == height or (shape.height < height and not exact):
            yield place


def _offer(problem: Problem, worth: Sequence[float], *, sack: Knapsack, place: int) -> None:
    shape = problem.shapes[place]
    sack.add(place, width=shape.width, value=worth[place], limit=problem.demand[shape.size])


def _taken(sack: Knapsack, height: int) -> tuple[float, Column]:
    counts = sack.take(sack.mark)
    return sack.value(sack.mark), column_of(height, {(place,): number for place, number in counts.items()})


def _best_stacked(problem: Problem, worth: Sequence[float], height: int) -> tuple[float, Column]:
    """Stack each width as well as the height allows, then fill the strip with stacks.

    Stacks are not bounded by the demand: one that holds more than is wanted is still a way to cut.
    """
    stacks: list[Stack] = []
    across = Knapsack(problem.width)
    for width in sorted({shape.width for shape in problem.shapes}):
        up = Knapsack(height)
        for place, shape in enumerate(problem.shapes):
            if shape.width == width:
                up.add(place, width=shape.height, value=worth[place], limit=height)
        stack = tuple(sorted(place for place, number in up.take(up.mark).items() for _ in range(number)))
        if stack:
            across.add(len(stacks), width=width, value=up.value(up.mark), limit=problem.width)
            stacks.append(stack)
    counts = across.take(across.mark)
    return across.value(across.mark), column_of(height, {stacks[each]: n for each, n in counts.items()})


def _listed(problem: Problem, worth: Sequence[float], *, height: int, needed: float) -> Iterator[Column]:
    sack = Knapsack(problem.width)
    for place in _fitting(problem, height):
        _offer(problem, worth, sack=sack, place=place)
    for counts in sack.fillings(capacity=problem.width, worth=needed):
        yield column_of(height, {(place,): number for place, number in counts.items()})
