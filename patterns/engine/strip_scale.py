"""Between inches and the whole numbers that strip plans are searched in."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from patterns.engine.strip_layout import Sizes
from patterns.engine.strip_model import PlanMode, Problem, Shape

_FINEST = 12_000  # steps across the fabric; finer lists are searched in steps a little too large


@dataclass(frozen=True, slots=True)
class Scale:
    """Lengths along the fabric are in `unit` inches; widths in steps of `step` units.

    Not `exact` where the widths are too fine: then they are rounded up, so layouts fit all the same,
    but bounds of the search are none for the list itself.
    """

    unit: Fraction
    step: int
    across: int  # steps
    exact: bool
    widest: int  # units

    def length(self, units: int) -> Fraction:
        """Give inches along the fabric."""
        return units * self.unit

    def units(self, length: Fraction) -> int:
        """Give an exact number of units."""
        return int(length / self.unit)

    def steps(self, width: Fraction) -> int:
        """Give the steps a piece takes across, rounded up; one as wide as the fabric fits all the same."""
        units = self.units(width)
        steps = -(-units // self.step)
        return min(steps, self.across) if units <= self.widest else steps


def scale_of(sizes: Iterable[tuple[Fraction, Fraction]], usable_width: Fraction) -> Scale:
    """Find the coarsest unit that every length is a multiple of; the usable width is rounded down to it."""
    lengths = [length for size in sizes for length in size]
    parts = lcm(*(length.denominator for length in lengths))
    common = gcd(*(int(length * parts) for length in lengths))
    unit = Fraction(common, parts)
    across = int(usable_width // unit)
    step = -(-across // _FINEST)
    return Scale(unit, step, across // step, step == 1, across)


def problem_of(scale: Scale, sizes: Sizes, mode: PlanMode) -> Problem:
    """Write the sizes as shapes in whole numbers, turned ones too where they may be and fit."""
    shapes = []
    for place, size in enumerate(sizes):
        both = [(size.width, size.length, False)]
        if size.may_turn and size.width != size.length:
            both.append((size.length, size.width, True))
        shapes += [
            Shape(scale.steps(width), scale.units(length), place, turned) for width, length, turned in both
        ]
    return Problem(scale.across, _fitting(shapes, scale.across), tuple(size.count for size in sizes), mode)


def _fitting(shapes: Sequence[Shape], across: int) -> tuple[Shape, ...]:
    fitting = [shape for shape in shapes if shape.width <= across]
    return tuple(sorted(fitting, key=lambda shape: (shape.height, -shape.width, shape.size)))
