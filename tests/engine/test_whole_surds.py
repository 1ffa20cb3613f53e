"""Whole numbers with a root: the same sums, products and order as the exact numbers they stand for."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.surds import Number, root, sign
from patterns.engine.whole_surds import Scale, Whole, WholeSurd, direction, scale_of, whole

parts = st.integers(-50, 50)
fours = st.tuples(parts, parts, parts, parts)
roots = st.sampled_from([2, 3])


def plain(number: Whole) -> Number:
    if isinstance(number, WholeSurd):
        return number.a + root(number.d) * number.b
    return Fraction(number)


@given(fours, roots)
def test_sums_products_and_order_are_those_of_exact_numbers(
    numbers: tuple[int, int, int, int], n: int
) -> None:
    a, b, c, d = numbers
    first, second = whole(a, b, n), whole(c, d, n)
    assert plain(first + second) == plain(first) + plain(second)
    assert plain(first - second) == plain(first) - plain(second)
    assert plain(first * second) == plain(first) * plain(second)
    assert sign(first) == sign(plain(first))
    compared = [(first < second, first <= second, first > second, first >= second, first == second)]
    x, y = plain(first), plain(second)
    assert compared == [(x < y, x <= y, x > y, x >= y, x == y)]


def test_a_root_that_falls_out_leaves_a_whole_number() -> None:
    assert type(whole(1, 1, 2) - whole(0, 1, 2)) is int
    assert whole(0, 1, 2) * whole(0, 3, 2) == 6
    assert 5 - whole(1, 1, 2) == whole(4, -1, 2)


def test_with_a_fraction_it_is_any_exact_number() -> None:
    half = Fraction(1, 2)
    assert whole(1, 2, 2) * half == root(2) + half
    assert whole(1, 2, 2) - half == half + 2 * root(2)
    assert whole(0, 1, 2) > half
    assert whole(0, 1, 2) < Fraction(3, 2)


@given(fours, roots)
def test_parallel_vectors_have_one_direction(numbers: tuple[int, int, int, int], n: int) -> None:
    a, b, c, d = numbers
    x, y = whole(a, b, n), whole(c, d, n)
    if not x and not y:
        return
    stretch = whole(3, -1, n)
    ahead = direction(x, y)
    assert direction(x * stretch, y * stretch) == direction(-x, -y) == ahead
    assert plain(ahead[0] * y) == plain(ahead[1] * x)


def test_a_scale_makes_the_numbers_of_a_drawing_whole_and_gives_them_back() -> None:
    numbers = [Fraction(3, 4), Fraction(1, 6) + root(2) / 4, root(2)]
    scale = scale_of(numbers)
    assert scale == Scale(factor=12, root=2)
    assert [scale.of(number) for number in numbers] == [9, whole(2, 3, 2), whole(0, 12, 2)]
    assert [scale.back(scale.of(number)) for number in numbers] == numbers
    assert scale.back(whole(2, 4, 2), 2) == Fraction(1, 12) + root(2) / 6


def test_two_roots_stay_as_they_are() -> None:
    scale = scale_of([root(2), root(3)])
    assert scale.of(root(3)) == scale.back(root(3)) == root(3)
    assert direction(root(2), root(3)) == direction(-root(2), -root(3))


@pytest.mark.parametrize("way", [(0, -3), (0, 5)])
def test_upright_lines_have_one_direction(way: tuple[int, int]) -> None:
    assert direction(*way) == (0, 1)


@given(fours, st.fractions(min_value=-9, max_value=9, max_denominator=9))
def test_exact_numbers_keep_the_rules_of_sums_and_products(
    numbers: tuple[int, int, int, int], share: Fraction
) -> None:
    a, b, c, d = numbers
    first, second = a * share + root(2) * b, c + root(3) * d
    assert (first + second) - second == first
    assert first * (second + share) == first * second + first * share
    assert sign(first - second) == -sign(second - first)
    assert sign(first) * sign(first) == sign(first * first)
    if share:
        assert first * share / share == first
    below, above = (Fraction(14142, 10000), Fraction(14143, 10000))
    assert sign(first - a * share - b * (below if b > 0 else above)) == (b != 0)
