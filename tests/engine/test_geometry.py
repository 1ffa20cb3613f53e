"""Points and polygons, exactly; y grows downward, so clockwise is positive."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from patterns.engine import geometry
from patterns.engine.surds import root

SQUARE = ((0, 0), (2, 0), (2, 2), (0, 2))
points = st.tuples(st.integers(-9, 9), st.integers(-9, 9))


def test_area_is_positive_whichever_way_round() -> None:
    triangle = ((Fraction(0), Fraction(0)), (Fraction(3), Fraction(0)), (Fraction(0), Fraction(1)))
    assert geometry.area(triangle) == geometry.area(triangle[::-1]) == Fraction(3, 2)


def test_repeated_and_straight_corners_are_dropped_and_the_round_goes_clockwise() -> None:
    untidy = ((0, 2), (2, 2), (2, 2), (2, 1), (2, 0), (0, 0))
    assert geometry.tidied(untidy) == ((0, 0), (2, 0), (2, 2), (0, 2))


def test_a_point_on_the_edge_is_not_inside() -> None:
    assert geometry.inside((1, 1), SQUARE)
    assert not geometry.inside((0, 1), SQUARE)
    assert not geometry.inside((3, 1), SQUARE)


@given(st.tuples(points, points), st.tuples(points, points))
def test_segments_that_cross_also_touch(first: geometry.Polygon, second: geometry.Polygon) -> None:
    assert geometry.touch(first, second) >= geometry.crossing(first, second)


def test_segments_that_meet_at_an_end_touch_but_do_not_cross() -> None:
    meeting = (((0, 0), (2, 2)), ((1, 1), (2, 0)))
    assert geometry.touch(*meeting)
    assert not geometry.crossing(*meeting)


def test_a_quarter_turn_takes_the_top_left_corner_to_the_top_right() -> None:
    assert geometry.quarter_turned(((0, 0),), 1, size=(3, 2)) == ((2, 0),)
    assert geometry.quarter_turned(((0, 0),), 4, size=(3, 2)) == ((0, 0),)


def test_an_eighth_turn_is_exact_and_eight_of_them_are_none() -> None:
    once = geometry.turned(((Fraction(2), Fraction(0)),), geometry.EIGHTH_TURN)
    assert once == ((root(2), root(2)),)
    turned = once
    for _ in range(7):
        turned = geometry.turned(turned, geometry.EIGHTH_TURN)
    assert turned == ((2, 0),)


@given(points, st.integers(1, 5))
def test_parallel_vectors_have_one_direction(vector: tuple[int, int], times: int) -> None:
    if vector == (0, 0):
        return
    longer = (vector[0] * -times, vector[1] * -times)
    assert geometry.direction(vector) == geometry.direction(longer)


def test_numbers_become_whole_by_their_common_denominator_unless_one_is_a_surd() -> None:
    assert geometry.common_denominator([Fraction(1, 4), Fraction(5, 6)]) == 12
    assert geometry.scaled(Fraction(5, 6), 12) == 10
    assert geometry.common_denominator([Fraction(1, 4), root(2)]) == 1
