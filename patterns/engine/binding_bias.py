"""Bias binding: one continuous strip from one square of fabric.  Inches; cut widths, seams included.

The square is cut in two along a diagonal, the halves are sewn into a slanting sheet, lines are drawn one
strip apart along its bias sides, and the sheet is sewn into a tube one line off and cut in one go.  Derived
geometry: of a square of side a, seams q take q from every leg, so the sheet is (a - q) / sqrt 2 high and
every round gives (a - 3q) sqrt 2.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.finishing import bias_square
from patterns.engine.surds import Number, ceiling, root

ONE, EIGHTH = Fraction(1), Fraction(1, 8)
SEAM = Fraction(1, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class BiasBinding:
    """A continuous bias strip: `length` must go round, tail included, `joined` is what the square gives."""

    strip: Fraction  # cut width
    square: Fraction  # side of the square of fabric, cut
    rounds: int  # strip widths across the sheet
    length: Number
    joined: Number

    @property
    def joins(self) -> int:
        """Count the seams across the strip: one of the sheet in every round, one of the tube between two."""
        return 2 * self.rounds - 1

    @property
    def fabric_length(self) -> Fraction:
        """Give the length of fabric: the square's side."""
        return self.square


def bias_binding(
    length: Number, *, strip: Fraction, usable_width: Fraction, seam: Fraction = SEAM, step: Fraction = ONE
) -> BiasBinding:
    """Plan a continuous bias binding of `length`, tail included: the least square, up to the next step.

    The square of equal area (`bias_square`, the published rule) is where the search starts: a sheet gives
    whole strip widths only.  PieceWiderThanFabric where the square is wider than the fabric.
    """
    square = bias_square(ceiling(length, EIGHTH), strip=strip, step=step)
    while bias_length(square, strip=strip, seam=seam) < length:
        square += step
    if square > usable_width:
        raise PieceWiderThanFabric(label="bias square", width=square, usable_width=usable_width)
    return BiasBinding(
        strip=strip,
        square=square,
        rounds=bias_rounds(square, strip=strip, seam=seam),
        length=length,
        joined=bias_length(square, strip=strip, seam=seam),
    )


def bias_rounds(square: Fraction, *, strip: Fraction, seam: Fraction = SEAM) -> int:
    """Count the whole strip widths across the sheet that a square makes."""
    return int(-ceiling((seam - square) / root(2) / strip, ONE))


def bias_length(square: Fraction, *, strip: Fraction, seam: Fraction = SEAM) -> Number:
    """Give the length of the continuous strip that a square makes."""
    return bias_rounds(square, strip=strip, seam=seam) * max(square - 3 * seam, Fraction(0)) * root(2)
