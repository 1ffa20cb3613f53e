"""Exact roots: large numbers are split quickly, and inverses are exact whatever roots come together."""

from __future__ import annotations

from fractions import Fraction
from math import isqrt
from random import Random

import pytest

from patterns.engine.surds import Surd, root

SQUAREFREE = (1, 2, 3, 5, 6, 7, 10, 14, 15, 21, 30, 35, 42, 105)


@pytest.mark.parametrize("number", range(1, 400))
def test_a_root_is_a_whole_number_times_the_root_of_a_number_without_squares(number: int) -> None:
    found = root(number)
    ((inside, outside),) = found.terms if isinstance(found, Surd) else ((1, found),)
    assert outside * outside * inside == number
    assert all(inside % (factor * factor) for factor in range(2, isqrt(inside) + 1))


def test_numbers_of_large_primes_are_split_at_once() -> None:
    prime = 1_000_003  # trying every factor up to it, hundreds of times, would be noticed
    large = root(prime * prime * 2)
    assert large == root(2) * prime
    assert root(Fraction(prime, 4)) * root(Fraction(prime, 9)) == Fraction(prime, 6)


@pytest.mark.parametrize("number", range(40))
def test_a_number_times_its_inverse_is_one(number: int) -> None:
    chance = Random(number)
    total = sum(
        (root(chance.choice(SQUAREFREE)) * Fraction(chance.randint(1, 9), 4) for _ in range(4)), Fraction(0)
    )
    assert total * (1 / total) == 1
