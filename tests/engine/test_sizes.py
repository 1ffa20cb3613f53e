"""Sizes that fall on the cutting step, and patches too thin to sew."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.blocks import Block
from patterns.engine.measure import CENTIMETRE, inches
from patterns.engine.sizes import NearestSizes, nearest_sizes, slivers
from tests.engine.drawings import block, box, patch

EIGHTH = Fraction(1, 8)


def grid(columns: int, rows: int, size: Fraction) -> Block:
    """Draw squares, the wider side `size` inches."""
    squares = [box("A", x, y) for x in range(columns) for y in range(rows)]
    share = size / max(columns, rows)
    return block((columns, rows), *squares).at_size(columns * share, rows * share)


def test_a_grid_of_nine_at_twelve_inches() -> None:
    """Case C35, a public account, common practice: units of 1 1/3 in; 9 x 1 1/4 and 9 x 1 3/8."""
    found = nearest_sizes(grid(9, 9, Fraction(12)), EIGHTH)
    assert found == NearestSizes(part=Fraction(4, 3), below=inches("11 1/4"), above=inches("12 3/8"))


@pytest.mark.parametrize("size", ["9", "11 1/4", "12 3/8", "13 1/2", "18"])
def test_a_size_on_the_step_needs_no_other(size: str) -> None:
    assert nearest_sizes(grid(9, 9, inches(size)), EIGHTH) is None


def test_the_wider_side_is_offered_and_proportions_are_kept() -> None:
    found = nearest_sizes(grid(7, 5, Fraction(10)), EIGHTH)
    assert found == NearestSizes(part=Fraction(10, 7), below=inches("9 5/8"), above=inches("10 1/2"))


def test_centimetres_have_their_own_step() -> None:
    found = nearest_sizes(grid(7, 7, 30 * CENTIMETRE), CENTIMETRE / 4)
    assert found is not None
    assert (found.below, found.above) == (inches("29.75") * CENTIMETRE, inches("31.5") * CENTIMETRE)


def test_slanted_edges_ask_for_nothing() -> None:
    halves = block((1, 1), patch("A", (0, 0), (1, 0), (1, 1)), patch("B", (0, 0), (1, 1), (0, 1)))
    assert nearest_sizes(halves.at_size(Fraction(3), Fraction(3)), EIGHTH) is None


def test_a_seam_at_a_root_falls_on_the_step_at_no_size() -> None:
    halves = block((2, 1), patch("A", (0, 0), ("1r2", 0), ("1r2", 1), (0, 1)),
                   patch("B", ("1r2", 0), (2, 0), (2, 1), ("1r2", 1)))  # fmt: skip
    assert nearest_sizes(halves.at_size(Fraction(12), Fraction(6)), EIGHTH) is None


def test_a_size_far_away_is_not_offered() -> None:
    found = nearest_sizes(grid(97, 1, Fraction(13)), EIGHTH)
    assert found == NearestSizes(part=Fraction(13, 97), below=inches("12 1/8"), above=inches("24 1/4"))
    assert nearest_sizes(grid(97, 1, Fraction(1)), EIGHTH) == NearestSizes(
        part=Fraction(1, 97), below=None, above=None
    )


@given(
    st.integers(1, 13), st.fractions(min_value=1, max_value=30, max_denominator=16)
)  # fmt: skip
def test_what_is_offered_falls_on_the_step_and_nothing_between_does(count: int, size: Fraction) -> None:
    found = nearest_sizes(grid(count, 1, size), EIGHTH)
    if found is None:
        assert (size / count) % EIGHTH == 0
        return
    offered = [each for each in (found.below, found.above) if each]
    assert all(nearest_sizes(grid(count, 1, each), EIGHTH) is None for each in offered)
    if len(offered) == 2:
        assert found.below < size < found.above
        assert found.above - found.below == count * EIGHTH


def test_a_thin_patch_is_named_with_its_place() -> None:
    thin = [
        patch("A", (0, 0), (5, 0), (5, 10), (0, 10)),
        patch("B", (5, 0), ("101/20", 0), ("101/20", 10), (5, 10)),
        patch("C", ("101/20", 0), (10, 0), (10, 10), ("101/20", 10)),
    ]
    (found,) = slivers(block((10, 10), *thin))
    assert (found.patch, found.where) == (1, (Fraction(201, 40), 5))
    assert slivers(grid(9, 9, Fraction(12))) == ()
