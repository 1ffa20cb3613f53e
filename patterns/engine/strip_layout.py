"""From a layout in whole numbers to strips a person can cut: labels dealt out, surplus left uncut."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, TypeAlias

from patterns.engine.strip_model import Column, Problem
from patterns.engine.strip_types import Cut, Demand, Strip

if TYPE_CHECKING:
    from patterns.engine.strip_quick import Solved


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Pieces of one size and one freedom to turn, with the labels that want them."""

    width: Fraction
    length: Fraction
    may_turn: bool
    labels: tuple[tuple[str, int], ...]

    @property
    def count(self) -> int:
        """Count the pieces of all labels."""
        return sum(number for _, number in self.labels)


Sizes: TypeAlias = tuple[Size, ...]


def sizes_of(demands: Iterable[Demand]) -> Sizes:
    """Gather demands of one size, in the order they were given."""
    labels: dict[tuple[Fraction, Fraction, bool], list[tuple[str, int]]] = {}
    for demand in demands:
        key = (demand.width, demand.length, demand.may_turn or demand.width == demand.length)
        labels.setdefault(key, []).append((demand.label, demand.count))
    return tuple(
        Size(width=width, length=length, may_turn=may_turn, labels=tuple(wanted))
        for (width, length, may_turn), wanted in labels.items()
    )


def strips_of(solved: Solved, sizes: Sizes, unit: Fraction) -> tuple[Strip, ...]:
    """Write a layout as strips, the highest first; strips that are alike are one with its number."""
    problem = solved.problem
    dealer = Dealer(problem, sizes)
    cut: list[tuple[Fraction, tuple[Cut, ...]]] = []
    for column in sorted(
        solved.layout, key=lambda column: (-column.height, -problem.used(column), column.cuts)
    ):
        for _ in range(solved.layout[column]):
            cut.append((column.height * unit, dealer.cuts(column)))
    return tuple(
        Strip(height=height, repeat=len(list(alike)), cuts=cuts) for (height, cuts), alike in groupby(cut)
    )


class Dealer:
    """Gives each piece of a layout to the next label that wants its size, as long as there is one."""

    def __init__(self, problem: Problem, sizes: Sizes) -> None:
        self.problem = problem
        self.sizes = sizes
        self.waiting = [
            [label for label, number in size.labels[::-1] for _ in range(number)] for size in sizes
        ]

    def cuts(self, column: Column) -> tuple[Cut, ...]:
        """Lay the stacks of a column side by side, the tallest and widest first."""
        shapes = self.problem.shapes
        order = sorted(column.cuts, key=lambda cut: ([-shapes[place].height for place in cut[0]], cut[0]))
        cuts: list[Cut] = []
        x = Fraction(0)
        for stack, number in order:
            for _ in range(number):
                pieces = self._stack(stack, x)
                cuts += pieces
                x += pieces[0].width if pieces else 0
        return tuple(cuts)

    def _stack(self, stack: tuple[int, ...], x: Fraction) -> list[Cut]:
        pieces: list[Cut] = []
        y = Fraction(0)
        for place in stack:
            shape = self.problem.shapes[place]
            if not self.waiting[shape.size]:
                continue
            size = self.sizes[shape.size]
            width, length = (size.length, size.width) if shape.turned else (size.width, size.length)
            label = self.waiting[shape.size].pop()
            pieces.append(Cut(label=label, x=x, y=y, width=width, length=length, turned=shape.turned))
            y += length
        return pieces
