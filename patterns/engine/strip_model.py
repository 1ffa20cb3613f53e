"""The strip plan as a problem in whole numbers: shapes, columns (ways to cut one strip), layouts.

Everything here counts in one unit, a fraction of an inch that all lengths are multiples of.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from typing import TypeAlias


class PlanMode(StrEnum):
    """How many cuts deep a strip is cut.

    EXACT: strip and cross-cut, every piece as high as its strip.  TRIM: pieces may be lower, the
    rest is trimmed off.  STACK: a cross-cut may hold several pieces of one width, one above the other.
    """

    EXACT = "exact"
    TRIM = "trim"
    STACK = "stack"


@dataclass(frozen=True, slots=True)
class Shape:
    """One size as it is laid: `size` is its place in the demand."""

    width: int
    height: int
    size: int
    turned: bool


Stack: TypeAlias = tuple[int, ...]  # places of shapes in Problem.shapes, from the bottom edge up


@dataclass(frozen=True, slots=True)
class Column:
    """One way to cut a strip: its height, and how often each stack of shapes is cross-cut."""

    height: int
    cuts: tuple[tuple[Stack, int], ...]


Layout: TypeAlias = dict[Column, int]  # how many strips are cut each way


@dataclass(frozen=True)
class Problem:
    """A demand per size, the shapes it may be cut in (lowest first), and the width of the fabric.

    Widths are `width_step` units each, shape widths rounded up and the fabric's width rounded down
    to it, so that a layout that fits in steps fits in units.
    """

    width: int
    shapes: tuple[Shape, ...]
    demand: tuple[int, ...]
    mode: PlanMode

    @cached_property
    def heights(self) -> tuple[int, ...]:
        """List the heights that a strip can have, lowest first."""
        return tuple(sorted({shape.height for shape in self.shapes}))

    @cached_property
    def shapes_of(self) -> Mapping[int, tuple[Shape, ...]]:
        """List the shapes of each size."""
        return {
            size: tuple(shape for shape in self.shapes if shape.size == size)
            for size in range(len(self.demand))
        }

    @cached_property
    def places_of(self) -> Mapping[int, tuple[int, ...]]:
        """List the places of the shapes of each size."""
        return {
            size: tuple(place for place, shape in enumerate(self.shapes) if shape.size == size)
            for size in range(len(self.demand))
        }

    def with_demand(self, demand: Iterable[int]) -> Problem:
        """Ask for other numbers of the same sizes."""
        return Problem(self.width, self.shapes, tuple(demand), self.mode)

    def with_width(self, width: int) -> Problem:
        """Lay the same demand on narrower fabric; shapes that no longer fit are left out."""
        shapes = tuple(shape for shape in self.shapes if shape.width <= width)
        return Problem(width, shapes, self.demand, self.mode)

    def made(self, column: Column) -> list[int]:
        """Count the pieces of each size that one strip gives."""
        counts = [0] * len(self.demand)
        for stack, number in column.cuts:
            for place in stack:
                counts[self.shapes[place].size] += number
        return counts

    def used(self, column: Column) -> int:
        """Add the widths of the cross-cuts up."""
        return sum(self.shapes[stack[0]].width * number for stack, number in column.cuts)


def length_of(layout: Layout) -> int:
    """Add the heights of all strips up."""
    return sum(column.height * number for column, number in layout.items())


def left_to_cut(problem: Problem, layout: Layout) -> list[int]:
    """Count what the layout still lacks of each size."""
    missing = list(problem.demand)
    for column, number in layout.items():
        for size, made in enumerate(problem.made(column)):
            missing[size] -= made * number
    return [max(0, number) for number in missing]


def column_of(height: int, counts: Mapping[Stack, int]) -> Column:
    """Write a column in its one normal form, so that equal ways to cut are equal values."""
    return Column(height, tuple(sorted((stack, number) for stack, number in counts.items() if number)))
