"""Which grid the corners of a picture lie on."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.surds import Number, root
from patterns.engine.svg_numbers import nearly
from patterns.engine.svg_snapping import COARSE, FINE, Grid, Snapped, snapped

F = Fraction
ONE = F(1)


def numbers(*shares: Fraction, stated: Grid | None = None) -> tuple[Number, list[Number]]:
    found = snapped([ONE, *shares], stated=stated)
    assert isinstance(found, Snapped)
    return found.width, [found.numbers[share] for share in shares]


def rounded(number: Number, places: int) -> Fraction:
    return F(round(nearly(number) * 10**places), 10**places)


@pytest.mark.parametrize("parts", range(1, 49))
def test_every_grid_up_to_48_parts_is_found(parts: int) -> None:
    shares = [rounded(F(k, parts), 5) for k in range(parts + 1)]
    assert numbers(*shares) == (parts, list(range(parts + 1)))


def test_the_fewest_parts_are_taken() -> None:
    assert numbers(F(1, 4), F(1, 2), F(2, 3)) == (12, [3, 6, 8])
    assert numbers(F(0), ONE) == (1, [0, 1])


def test_corners_rounded_to_pixels_find_their_grid() -> None:
    assert numbers(F(133, 400), F(267, 400)) == (3, [1, 2])


def test_tolerances_are_those_stated() -> None:
    assert numbers(F(1, 3) + FINE * F(9, 10)) == (3, [1])
    assert numbers(F(1, 3) + COARSE * F(9, 10)) == (3, [1])
    assert isinstance(snapped([ONE, F(1, 100)], stated=None), Fraction)


def test_corners_outside_the_picture_have_their_numbers_too() -> None:
    assert numbers(F(-1, 3), F(4, 3)) == (3, [-1, 4])


@pytest.mark.parametrize(("under_root", "places"), [(2, 5), (3, 5), (2, 8), (3, 12)])
def test_roots_are_found(under_root: int, places: int) -> None:
    half = root(under_root) / 2
    width, found = numbers(rounded(half, places), rounded(1 - half, places), F(1, 2))
    assert [number / width for number in found] == [half, 1 - half, F(1, 2)]


def test_eighths_with_a_root_are_found() -> None:
    """The tips of a star with four diamonds to a side."""
    shares = [(1 - root(2) / 2) * F(k, 4) for k in range(5)]
    width, found = numbers(*(rounded(share, 6) for share in shares))
    assert [number / width for number in found] == shares


def test_a_corner_that_lies_on_no_grid_is_given_back() -> None:
    odd = F(31_415_927, 10**8)
    assert snapped([ONE, F(1, 3), F(1, 4), odd, F(2, 3)], stated=None) == odd


def test_a_stated_grid_is_taken_first() -> None:
    assert numbers(F(1, 2), stated=Grid(width=F(9), parts=2)) == (9, [F(9, 2)])
    width = 2 + root(2)
    star = Grid(width=width, under_root=2, most_roots=1)
    assert numbers(rounded(1 / width, 12), stated=star) == (width, [1])


def test_a_stated_grid_that_does_not_fit_is_passed_over() -> None:
    assert numbers(F(1, 3), stated=Grid(width=F(2))) == (3, [1])


@given(st.lists(st.integers(0, 36), min_size=1, max_size=9), st.integers(1, 36))
def test_any_corners_of_a_grid_come_back_in_proportion(places: list[int], parts: int) -> None:
    shares = [rounded(F(place, parts), 6) for place in places]
    width, found = numbers(*shares)
    assert [number / width for number in found] == [F(place, parts) for place in places]
