"""Lengths as a program writes and reads them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bom.domain.lengths import read_length, write_length
from patterns.engine.measure import Units

CM = Fraction(50, 127)  # inches in a centimetre, exactly: 1 in = 2.54 cm


@pytest.mark.parametrize(
    ("length", "units", "text"),
    [
        (Fraction(5, 2), Units.INCHES, "2 1/2"),
        (30 * CM, Units.CENTIMETRES, "30"),
        (Fraction(3, 4) * CM, Units.CENTIMETRES, "0.75"),
        (Fraction(1, 4), Units.CENTIMETRES, "0.635"),
        (CM / 7, Units.CENTIMETRES, "50/889 in"),  # no short decimal of centimetres
    ],
)
def test_what_is_written_is_read_back(length: Fraction, units: Units, text: str) -> None:
    assert write_length(length, units) == text
    assert read_length(text, units) == length


def test_a_unit_behind_the_number_says_otherwise_than_the_program() -> None:
    assert read_length("2 1/2 in", Units.CENTIMETRES) == Fraction(5, 2)
    assert read_length("30 cm", Units.INCHES) == 30 * CM


@pytest.mark.parametrize("text", ["", "cm", "nine", "-3 cm", "1/0 in"])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r".*"):
        read_length(text, Units.CENTIMETRES)
