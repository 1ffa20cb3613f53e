"""Lengths: read exactly, written for people, rounded once with a direction."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as some

from patterns.engine import measure
from patterns.engine.errors import LengthNotRead, PatternError
from patterns.engine.measure import Units, inches, write_inches
from patterns.engine.surds import Number, root

if TYPE_CHECKING:
    from collections.abc import Callable


@pytest.mark.parametrize(
    ("text", "length"),
    [
        ("2 1/2", Fraction(5, 2)),
        ("5/2", Fraction(5, 2)),
        ("2.5", Fraction(5, 2)),
        ("2½", Fraction(5, 2)),
        (" ⅜ ", Fraction(3, 8)),
        ("40", Fraction(40)),
        ("0.1", Fraction(1, 10)),
        (7, Fraction(7)),
        (Fraction(7, 8), Fraction(7, 8)),
    ],
)
def test_a_length_is_read_exactly(text: str | int | Fraction, length: Fraction) -> None:
    assert inches(text) == length


@pytest.mark.parametrize("text", ["", "two", "1/0", "-1", "2-1/2", "2 1", "1e3", "nan", "1/2/3", "٣", -1])
def test_what_is_no_length_is_refused_with_its_text(text: str | int) -> None:
    with pytest.raises(LengthNotRead) as refused:
        inches(text)
    assert refused.value.text == str(text)
    assert isinstance(refused.value, PatternError)


@pytest.mark.parametrize("value", [0.25, None, True, [2]])
def test_a_float_is_refused_with_the_remedy(value: object) -> None:
    with pytest.raises(TypeError, match='as text, "2 1/2", or as a Fraction'):
        inches(value)  # type: ignore[arg-type]  # the point of the test


def test_centimetres_are_exact() -> None:
    assert measure.centimetres("2.54") == 1
    assert measure.centimetres("91.44") == measure.YARD


@given(some.fractions(min_value=0, max_value=500, max_denominator=64))
def test_what_is_written_is_read_back(length: Fraction) -> None:
    assert inches(write_inches(length)) == length


def test_a_length_below_zero_is_written_with_its_sign() -> None:
    assert write_inches(Fraction(-5, 2)) == "-2 1/2"


@pytest.mark.parametrize(
    ("rounded", "length", "expected"),
    [
        (measure.up_to_eighth, Fraction(29, 16), Fraction(15, 8)),
        (measure.up_to_eighth, root(2), Fraction(3, 2)),
        (measure.up_to_eighth_yard, Fraction(63, 2), Fraction(63, 2)),  # exact hit, not bumped
        (measure.up_to_eighth_yard, Fraction(32), Fraction(36)),
        (measure.up_to_millimetre, Fraction(5, 2), 64 * measure.MILLIMETRE),  # 63.5 mm
        (measure.up_to_5_cm, Fraction(36), 95 * measure.CENTIMETRE),  # 91.44 cm
    ],
)
def test_rounding_goes_up_and_leaves_exact_hits(
    rounded: Callable[[Number], Fraction], length: Number, expected: Fraction
) -> None:
    assert rounded(length) == expected
    assert rounded(expected) == expected


@given(some.fractions(min_value=0, max_value=300, max_denominator=24))
def test_rounding_up_never_goes_a_whole_step(length: Fraction) -> None:
    step = Fraction(9, 2)
    assert 0 <= measure.up_to_step(length, step) - length < step


def test_a_length_is_shown_in_the_readers_units() -> None:
    assert measure.show_length(Fraction(5, 2), Units.INCHES) == "2 1/2 in"
    assert measure.show_length(Fraction(5, 2), Units.CENTIMETRES) == "6.4 cm"
    assert measure.show_length(measure.centimetres("9.25"), Units.CENTIMETRES) == "9.25 cm"
    assert measure.show_length(Fraction(1, 4), Units.CENTIMETRES) == "0.64 cm"  # 6.35 mm, UNI-05
    assert measure.show_length(measure.centimetres("0.75"), Units.CENTIMETRES) == "0.75 cm"
    assert measure.show_length(Fraction(5, 2), Units.METRIC_PURCHASE) == "2 1/2 in"
    assert measure.show_length(6 * root(2), Units.INCHES) == "8 1/2 in"  # 8.485


def test_a_length_of_fabric_is_shown_as_it_is_sold() -> None:
    assert measure.show_fabric_length(Fraction(27, 2), Units.INCHES) == "3/8 yd"
    assert measure.show_fabric_length(Fraction(12), Units.INCHES) == "1/3 yd"
    assert measure.show_fabric_length(Fraction(81, 2), Units.INCHES) == "1 1/8 yd"
    assert measure.show_fabric_length(Fraction(14), Units.INCHES) == "14 in"
    assert measure.show_fabric_length(Fraction(27, 2), Units.METRIC_PURCHASE) == "0.35 m"  # 34.29 cm
    assert measure.show_fabric_length(100 * measure.CENTIMETRE, Units.INCHES) == "1 m"
