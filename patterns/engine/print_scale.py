"""The scale of a printout: what to print at after a measured line, and what fitting to the paper does.

A template is never resized by printing it at a per cent, since that shrinks its seams too: its finished
shape is drawn anew at another size.  Lengths are inches, scales are shares: 1 is actual size.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.measure import MILLIMETRE


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet of paper, upright."""

    width: Fraction
    height: Fraction


LETTER = Paper(width=Fraction(17, 2), height=Fraction(11))
A4 = Paper(width=210 * MILLIMETRE, height=297 * MILLIMETRE)  # ISO 216


def print_again_at(true: Fraction, *, printed: Fraction) -> Fraction:
    """Give the scale at which a line comes out right that measured `printed` at actual size.

    >>> print_again_at(Fraction(2), printed=Fraction(15, 8))
    Fraction(16, 15)
    """
    return true / printed


def fitted_scale(page: Paper, *, paper: Paper) -> Fraction:
    """Give the scale of a page that is printed to fit other paper; margins make it smaller still."""
    return min(paper.width / page.width, paper.height / page.height)
