"""Exact lengths: read, written, and rounded once, at the exit, by functions that name the direction.

Inside the program a length is a `Fraction` of inches.  1 in = 2.54 cm and 1 yd = 0.9144 m exactly
(Addendum to NBS Circular 572, US National Bureau of Standards, 1960).
"""

from __future__ import annotations

import re
import unicodedata
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.errors import LengthNotRead
from patterns.engine.surds import Number, Surd, ceiling

Inches: TypeAlias = Fraction

CENTIMETRE = Fraction(50, 127)  # in inches
QUARTER_CENTIMETRE = CENTIMETRE / 4
MILLIMETRE = CENTIMETRE / 10
YARD = Fraction(36)
FINEST = Fraction(1, 64)  # inches, the finest marks of a ruler
SIXTEENTH = Fraction(1, 16)
EIGHTH = Fraction(1, 8)
EIGHTH_YARD = YARD / 8

_FORM = re.compile(
    r"(?:(?P<whole>[0-9]+)(?:\s+(?P<a>[0-9]+)\s*/\s*(?P<b>[0-9]+))?|(?P<c>[0-9]+)\s*/\s*(?P<d>[0-9]+)"
    r"|(?P<decimal>[0-9]*\.[0-9]+|[0-9]+\.))"
)


class Units(StrEnum):
    """How lengths are shown; never what is cut."""

    INCHES = "in"
    CENTIMETRES = "cm"
    METRIC_PURCHASE = "metric-purchase"


def inches(value: str | int | Fraction) -> Inches:
    """Read a length in inches: "2 1/2", "5/2", "2.5", "2½", a whole number or a Fraction.

    A float raises TypeError, since it has lost the exact number before it got here; anything else
    that is no length, a negative number too, raises LengthNotRead (a ValueError).

    >>> inches("2 1/2")
    Fraction(5, 2)
    """
    if isinstance(value, Fraction | int) and not isinstance(value, bool):
        if value < 0:
            raise LengthNotRead(text=str(value))
        return Fraction(value)
    if not isinstance(value, str):
        remedy = f'write the length as text, "2 1/2", or as a Fraction: {value!r} is not exact'
        raise TypeError(remedy)
    return _read(value)


def centimetres(value: str | int | Fraction) -> Inches:
    """Read a length in centimetres, in the forms of `inches`, into exact inches.

    >>> centimetres("2.54")
    Fraction(1, 1)
    """
    return inches(value) * CENTIMETRE


def write_inches(length: Fraction) -> str:
    """Write inches the way a quilter does; `inches` reads the same length back.

    >>> write_inches(Fraction(5, 2))
    '2 1/2'
    """
    whole, rest = divmod(abs(length), 1)
    sign = "-" if length < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def write_cm(length: Number) -> str:
    """Write a length of inches in centimetres, rounded up to the millimetre: "6.4" for 2 1/2 in.

    Quarter centimetres, a step that quilts in centimetres are cut on, stay exact: "9.25"; and what is
    under a centimetre, a seam, is written to a tenth of a millimetre: "0.64" for 1/4 in.
    """
    is_quarter = not isinstance(length, Surd) and length % QUARTER_CENTIMETRE == 0
    if is_quarter or length < CENTIMETRE:
        return _decimal(ceiling(length, MILLIMETRE / 10) / (MILLIMETRE / 10), places=2)
    return _decimal(up_to_millimetre(length) / MILLIMETRE, places=1)


def write_yards(length: Fraction) -> str:
    """Write a length of inches in yards: "1 1/8 yd" for 40 1/2 in.  Exact, not rounded."""
    return f"{write_inches(length / YARD)} yd"


def write_metres(length: Number) -> str:
    """Write a length of inches in metres, rounded up to the centimetre: "0.35 m"."""
    return f"{_decimal(ceiling(length, CENTIMETRE) / CENTIMETRE, places=2)} m"


def up_to_step(length: Number, step: Fraction) -> Fraction:
    """Round up to a multiple of `step`, both in inches; an exact multiple is not bumped."""
    return ceiling(length, step)


def up_to_eighth(length: Number) -> Fraction:
    """Round inches up to 1/8 in; an exact eighth is not bumped."""
    return ceiling(length, EIGHTH)


def up_to_eighth_yard(length: Number) -> Fraction:
    """Round inches up to 1/8 yd (4 1/2 in), still in inches; 31 1/2 in stays 31 1/2 in."""
    return ceiling(length, EIGHTH_YARD)


def up_to_millimetre(length: Number) -> Fraction:
    """Round inches up to a whole millimetre, still in inches."""
    return ceiling(length, MILLIMETRE)


def up_to_5_cm(length: Number) -> Fraction:
    """Round inches up to 5 cm, still in inches: how fabric is sold by the metre."""
    return ceiling(length, 5 * CENTIMETRE)


def show_length(length: Number, units: Units) -> str:
    """Write a cut, trim-to or finished length for plain text: "2 1/2 in" or "6.4 cm" (up to 1 mm).

    Inches that no ruler has are shown up to 1/16 in; who shows them says "about" (`is_on_ruler`).
    """
    if units == Units.CENTIMETRES:
        return f"{write_cm(length)} cm"
    shown = ceiling(length, FINEST if is_on_ruler(length) else SIXTEENTH)
    return f"{write_inches(shown)} in"


def is_on_ruler(length: Number) -> bool:
    """Say whether a length of inches falls on a mark of 1/64 in or coarser."""
    return not isinstance(length, Surd) and (length / FINEST).denominator == 1


def show_fabric_length(length: Fraction, units: Units) -> str:
    """Write a length of fabric as one asks for it in a shop: "3/8 yd", "14 in", or metres up to 5 cm.

    Yards are said only where they come out in eighths or thirds, the marks of a cutting table; metres
    also in inches where the length is one of whole centimetres.
    """
    if units != Units.INCHES or (length % CENTIMETRE == 0 and length % EIGHTH):
        return write_metres(up_to_5_cm(length))
    if length % EIGHTH_YARD == 0 or length % (YARD / 3) == 0:
        return write_yards(length)
    return f"{write_inches(length)} in"


def _read(text: str) -> Fraction:
    spelt = "".join(_spelt(sign) for sign in text).strip()
    found = _FORM.fullmatch(spelt)
    try:
        if found is None:
            raise LengthNotRead(text=text)
        if found["decimal"]:
            return Fraction(found["decimal"])
        if found["c"]:
            return Fraction(int(found["c"]), int(found["d"]))
        return int(found["whole"]) + Fraction(int(found["a"] or 0), int(found["b"] or 1))
    except (ZeroDivisionError, ValueError) as error:
        raise LengthNotRead(text=text) from error


def _spelt(sign: str) -> str:
    """Write ½ as " 1/2"; other characters stay."""
    plain = unicodedata.normalize("NFKC", sign)
    return " " + plain.replace("\N{FRACTION SLASH}", "/") if "\N{FRACTION SLASH}" in plain else sign


def _decimal(steps: Fraction, *, places: int) -> str:
    """Write a whole number of tenths or hundredths with a point, zeros at the end left out."""
    whole, rest = divmod(int(steps), 10**places)
    digits = f"{rest:0{places}}".rstrip("0")
    return f"{whole}.{digits}" if digits else f"{whole}"
