"""Lots of pieces, by which layouts with as many strips of every height are told apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import floor
from typing import TypeAlias

from patterns.engine.strip_model import Column, Layout, PlanMode, Problem, Shape, column_of
from patterns.engine.strip_quick import search_for

NEAR = float(Fraction(1, 10**4))  # of a whole number

Solution: TypeAlias = Mapping[Column, float]  # strips cut each way, in fractions
Laid: TypeAlias = Mapping[
    tuple[int, int], float
]  # (place of a shape, height): pieces in strips so high or higher


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """Pieces of one size laid as one shape in strips so high or higher; or else the `rest` of that size."""

    place: int
    size: int
    height: int
    rest: bool

    @property
    def other(self) -> Lot:
        """Give all pieces of its size that it does not hold."""
        return replace(self, rest=not self.rest)

    def holds(self, problem: Problem, place: int, height: int) -> bool:
        """Whether it counts a shape in a strip of a height."""
        if problem.shapes[place].size != self.size:
            return False
        return (place == self.place and height >= self.height) != self.rest

    def count(self, problem: Problem, column: Column) -> int:
        """Count its pieces in a strip."""
        return sum(
            number
            for stack, number in column.cuts
            for place in stack
            if self.holds(problem, place, column.height)
        )


def laid(problem: Problem, solution: Solution) -> Laid:
    """Count the pieces of every shape in strips of every height and higher."""
    found = {(place, height): 0 * NEAR for place in range(len(problem.shapes)) for height in problem.heights}
    for column, strips in solution.items():
        for stack, number in column.cuts:
            for place in stack:
                found[place, column.height] += number * strips
    for place in range(len(problem.shapes)):
        above = 0 * NEAR
        for height in reversed(problem.heights):
            above += found[place, height]
            found[place, height] = above
    return found


def packed(problem: Problem, solution: Solution) -> Layout:
    """Cut a solution whose numbers of strips and lots are whole, each height by itself; empty if not found.

    The strips of one height are a cutting stock problem along the width.  Stacks are not looked at.
    """
    if problem.mode == PlanMode.STACK:
        return {}
    layout: Layout = {}
    pieces, above = laid(problem, solution), dict.fromkeys(range(len(problem.shapes)), 0)
    for height in reversed(problem.heights):
        so_high = {place: floor(pieces[place, height] + NEAR) for place in above}
        strips = round(sum(number for column, number in solution.items() if column.height == height))
        numbers = [so_high[place] - number for place, number in above.items()]
        columns = _one_height(problem, height, numbers, strips=strips)
        if columns is None:
            return {}
        layout |= columns
        above = so_high
    return layout


def _one_height(problem: Problem, height: int, numbers: Sequence[int], *, strips: int) -> Layout | None:
    places = [place for place, number in enumerate(numbers) if number]
    if not places:
        return {}
    shapes = tuple(
        Shape(problem.shapes[place].width, 1, size, turned=False) for size, place in enumerate(places)
    )
    flat = Problem(problem.width, shapes, tuple(numbers[place] for place in places), PlanMode.EXACT)
    found = search_for(flat, strips)
    return {_raised(column, height, places): number for column, number in found.items()} or None


def _raised(column: Column, height: int, places: Sequence[int]) -> Column:
    return column_of(height, {(places[stack[0]],): number for stack, number in column.cuts})
