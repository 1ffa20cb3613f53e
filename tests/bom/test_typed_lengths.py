"""Lengths that were typed into words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bom.domain.typed_lengths import is_one_of, typed_lengths
from patterns.engine.surds import root

CM = Fraction(50, 127)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Trim to 2 1/2 in.", [Fraction(5, 2)]),
        ('Trim to 2 1/2".', [Fraction(5, 2)]),
        ("a 2½″ strip", [Fraction(5, 2)]),
        ("a 2½” strip", [Fraction(5, 2)]),
        ("a 2 ⅛ in strip", [Fraction(17, 8)]),
        ("the 2-1/2-inch square", [Fraction(5, 2)]),
        ("2.5 inches", [Fraction(5, 2)]),
        ("1/4 Zoll", [Fraction(1, 4)]),
        ("6 cm", [6 * CM]),
        ("6,5 Zentimeter", [Fraction(13, 2) * CM]),
        ("15mm", [Fraction(3, 2) * CM]),
        ("1/2 yd and 2 m", [Fraction(18), 200 * CM]),
        ("3 ft", [Fraction(36)]),
        ("3 x 4 1/2 in", [Fraction(3), Fraction(9, 2)]),
        ('3" × 4"', [Fraction(3), Fraction(4)]),
        ("3 by 4 inches", [Fraction(3), Fraction(4)]),
        ("1/4 in the seam", [Fraction(1, 4)]),
        ("It is 4 in.", [Fraction(4)]),
    ],
)
def test_a_number_with_a_unit_is_a_length(text: str, expected: list[Fraction]) -> None:
    assert [length for typed in typed_lengths(text) for length in typed.lengths] == expected


@pytest.mark.parametrize(
    "text",
    [
        "Put 4 in each corner.",
        "Sew 2 in a row.",
        'She said "see step 3" and left.',
        "“Count to 3” is the rule.",
        "4 indigo squares",
        "3 minutes, 5 metrics",
        "step 3",
        "1950's",
        "24/7",
        "A1in",
    ],
)
def test_other_numbers_are_left_alone(text: str) -> None:
    assert list(typed_lengths(text)) == []


def test_it_says_where() -> None:
    (typed,) = typed_lengths("Trim to 2 1/2 in now.")
    assert (typed.text, typed.start) == ("2 1/2 in", 8)


def test_no_number_has_no_length() -> None:
    (typed,) = typed_lengths("1/0 in")
    assert typed.lengths == ()


def test_a_length_is_known_as_the_sheet_shows_it() -> None:
    known = [Fraction(5, 2), root(2)]  # 2 1/2 in is 6.35 cm, shown as 6.4; 1.4142 in is shown as 1 7/16
    assert is_one_of(Fraction(64, 10) * CM, known)
    assert is_one_of(Fraction(635, 100) * CM, known)
    assert is_one_of(Fraction(23, 16), known)
    assert not is_one_of(Fraction(63, 10) * CM, known)
    assert not is_one_of(Fraction(21, 8), known)
