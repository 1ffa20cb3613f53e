"""The field of exact lengths, in forms and in records."""

from __future__ import annotations

from fractions import Fraction

import pytest
from django.core.exceptions import ValidationError

from patterns.models import Quilt
from patterns.models.fields import InchesFormField


def test_a_typed_length_is_read_exactly() -> None:
    assert InchesFormField(max_length=20).clean("2 1/2") == Fraction(5, 2)


def test_the_letters_of_a_length_are_counted_not_its_size() -> None:
    with pytest.raises(ValidationError, match="at most 5 characters"):
        InchesFormField(max_length=5).clean("12 15/16")


@pytest.mark.parametrize("typed", ["two", "1/0", "-3", "2 1/2 1/4"])
def test_what_is_no_length_says_how_to_type_one(typed: str) -> None:
    with pytest.raises(ValidationError, match="for example 2 1/2"):
        InchesFormField().clean(typed)


def test_a_record_checks_its_lengths_as_they_are_written() -> None:
    quilt = Quilt(name="Small", rows=1, columns=1, block_size=Fraction(25, 2))
    quilt.clean_fields(exclude=["owner"])
    assert quilt.block_size == Fraction(25, 2)


@pytest.mark.parametrize("typed", ["0.0000000001", "1 1/10000000000", "1e9", "99999999", "1/2541"])
def test_what_nobody_can_measure_is_refused(typed: str) -> None:
    with pytest.raises(ValidationError):
        InchesFormField().clean(typed)


@pytest.mark.parametrize("typed", ["1/64", "10 2/3", "0.125", "10000"])
def test_what_somebody_can_measure_is_taken(typed: str) -> None:
    assert InchesFormField().clean(typed) > 0


@pytest.mark.parametrize("typed", ["9" * 400, "\x00"])
def test_a_text_that_is_none_is_one_fault_with_its_code(typed: str) -> None:
    with pytest.raises(ValidationError) as caught:
        InchesFormField(max_length=20).clean(typed)
    assert caught.value.code in {"max_length", "null_characters_not_allowed"}
