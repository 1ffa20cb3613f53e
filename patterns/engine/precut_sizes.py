"""Fabric sold in stated pieces: what it is sold as, and what of it is planned on.  The one table of both.

What is cut by hand (fat quarters and eighths) is squared up: 1/2 in is taken off its length, and 1 1/2 in
off a width sold as half of the fabric from selvage to fold, 1 in of it selvage.  So a fat quarter of
18 x 22 in gives 17 1/2 x 20 1/2 in, which half of a fabric 42 in wide gives too; common practice says
17 1/2 x 20 to 21.  A width sold without its selvage loses 1/2 in.  Squares and strips that a maker cuts by
the thousand are used as they come; of a strip's length 2 in are selvage.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.engine.measure import CENTIMETRE, EIGHTH

_SQUARED = Fraction(1, 2)  # off each length that is squared up
_SELVAGE = Fraction(1)

Size = tuple[Fraction, Fraction]  # inches across and along the fabric


@dataclass(frozen=True, slots=True, kw_only=True)
class Precut:
    """A piece as sold, `nominal` across and along the fabric, and what of it is planned on, inches."""

    name: str
    nominal: Size
    usable: Size

    @property
    def area(self) -> Fraction:
        """Give the square inches that are sold."""
        return self.nominal[0] * self.nominal[1]

    def washed(self, shrinkage: Fraction) -> Precut:
        """Give what washing leaves of it, rounded down to 1/8 in."""
        across, along = (side * (1 - shrinkage) // EIGHTH * EIGHTH for side in self.usable)
        return replace(self, usable=(across, along)) if shrinkage else self


def _by_hand(name: str, across: Fraction, along: Fraction, *, selvage: Fraction = _SELVAGE) -> Precut:
    usable = (across - selvage - _SQUARED, along - _SQUARED)
    return Precut(
        name=name,
        nominal=(across, along),
        usable=(usable[0] // EIGHTH * EIGHTH, usable[1] // EIGHTH * EIGHTH),
    )


def _square(side: int) -> Precut:
    size = (Fraction(side), Fraction(side))
    return Precut(name=f"{side} in square", nominal=size, usable=size)


# Sizes as sold: values PC-01, PC-03, PC-04, PC-08 to PC-10; the others are common practice.
FAT_QUARTER = _by_hand("fat quarter 18 x 22", Fraction(22), Fraction(18))
FAT_EIGHTH = _by_hand("fat eighth 9 x 22", Fraction(22), Fraction(9))
PRECUTS = (
    FAT_QUARTER,
    _by_hand("fat quarter 18 x 21", Fraction(21), Fraction(18), selvage=Fraction(0)),
    _by_hand("fat quarter 20 x 22", Fraction(22), Fraction(20)),
    _by_hand("fat quarter 50 x 55 cm", 55 * CENTIMETRE, 50 * CENTIMETRE),
    _by_hand("fat quarter 50 x 50 cm", 50 * CENTIMETRE, 50 * CENTIMETRE),
    FAT_EIGHTH,
    _by_hand("fat eighth 18 x 11", Fraction(11), Fraction(18)),
    _square(5),
    _square(10),
    Precut(
        name="2 1/2 in strip",
        nominal=(Fraction(42), Fraction(5, 2)),
        usable=(Fraction(40), Fraction(5, 2)),
    ),
)
