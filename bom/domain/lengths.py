"""Lengths as a program writes them: inches, or centimetres where it is made in them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.domain.proofs import units_of
from patterns.engine.measure import CENTIMETRE, Units, centimetres, inches, write_inches

if TYPE_CHECKING:
    from fractions import Fraction

__all__ = ("read_length", "units_of", "write_length")

THOUSANDTHS = 1000  # a length that is no short decimal of centimetres is written in inches


def write_length(length: Fraction, units: Units) -> str:
    """Write an exact length the way it is typed: "2 1/2", in a program of centimetres "7.5".

    `read_length` reads the same length back.
    """
    if units != Units.CENTIMETRES:
        return write_inches(length)
    thousandths = length / CENTIMETRE * THOUSANDTHS
    if thousandths.denominator != 1:
        return f"{write_inches(length)} in"
    whole, rest = divmod(int(thousandths), THOUSANDTHS)
    digits = f"{rest:03}".rstrip("0")
    return f"{whole}.{digits}" if digits else str(whole)


def read_length(text: str, units: Units) -> Fraction:
    """Read a typed length into exact inches; "in" or "cm" behind it says otherwise than the program.

    ValueError where it is no length.
    """
    for ending, read in (("cm", centimetres), ("in", inches)):
        number = text.strip().removesuffix(ending)
        if number != text.strip():
            return read(number.strip())
    return centimetres(text) if units == Units.CENTIMETRES else inches(text)
