"""The seam test: three strips, the middle one as wide as it should be (common practice)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.measure import Units, centimetres
from patterns.engine.seam_test import seam_test

QUARTER = Fraction(1, 4)


def test_three_strips_of_an_inch_and_a_half_leave_an_inch() -> None:
    found = seam_test(QUARTER)
    assert (found.cut, found.middle, found.length) == (Fraction(3, 2), Fraction(1), Fraction(6))
    assert [phrase.text.count("{") for phrase in found.words] == [3, 1, 0]


@pytest.mark.parametrize("seam", [Fraction(1, 4), Fraction(3, 8), Fraction(1, 2), Fraction(5, 8)])
def test_the_middle_is_wider_than_what_its_seams_take(seam: Fraction) -> None:
    found = seam_test(seam)
    assert found.cut - 2 * seam == found.middle > 2 * seam
    assert found.middle.denominator == 1


def test_in_centimetres_the_middle_is_two_and_a_half() -> None:
    found = seam_test(centimetres("0.75"), Units.CENTIMETRES)
    assert (found.cut, found.middle) == (centimetres("4"), centimetres("2.5"))
    assert seam_test(centimetres("1.5"), Units.CENTIMETRES).middle == centimetres("5")
