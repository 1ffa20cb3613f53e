"""Bias binding, binding round corners of any angle, hanging sleeve and packaged batting."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.binding_bias import bias_binding, bias_length, bias_rounds
from patterns.engine.binding_corners import (
    BindingCorner,
    CornerKind,
    binding_corners,
    finished_binding,
    outline_length,
)
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.finishing import (
    backing,
    before_washing,
    bias_square,
    binding,
    binding_round,
    binding_strip,
)
from patterns.engine.hanging import hanging_sleeve, packaged_batting
from patterns.engine.layout import rectangle
from patterns.engine.parts import Point
from patterns.engine.surds import ceiling, root

Q = Fraction
QUARTER = Q(1, 4)
SIXTEENTH = Q(1, 16)


def points(*pairs: tuple[int, int]) -> tuple[Point, ...]:
    return tuple((Q(x), Q(y)) for x, y in pairs)


def corner(outline: tuple[Point, ...], at: tuple[int, int]) -> BindingCorner:
    found = binding_corners(outline, seam=QUARTER, finished=QUARTER)
    return next(each for each in found if each.at == at)


def test_a_bias_square_gives_its_length_in_whole_rounds() -> None:
    """BIN-14 (a soft-furnishing forum's rule by area): 250 in of 2 in strip from 23 in square.

    (23 - 1/4) / root 2 = 16.09 in, 8 rounds; each gives (23 - 3/4) root 2 = 31.47 in: 251.7 in.
    """
    planned = bias_binding(Q(250), strip=Q(2), usable_width=Q(40))
    assert (planned.square, planned.rounds, planned.joins) == (23, 8, 15)
    assert planned.joined == 8 * Q(89, 4) * root(2)
    assert planned.fabric_length == 23


def test_the_rule_by_area_can_come_up_short() -> None:
    """By area 30 in gives 360 in of 2 1/2 in; 21.04 in hold 8 rounds of 41.37 in: 330.9 in."""
    assert bias_square(Q(360), strip=Q(5, 2)) == 30
    assert bias_rounds(Q(30), strip=Q(5, 2)) == 8
    assert bias_length(Q(30), strip=Q(5, 2)) == 8 * Q(117, 4) * root(2)
    planned = bias_binding(Q(360), strip=Q(5, 2), usable_width=Q(40))
    assert planned.square == 33
    assert planned.joined >= 360


@given(st.integers(20, 500), st.fractions(min_value=1, max_value=3, max_denominator=8))
def test_bias_binding_is_never_short_and_its_square_never_an_inch_too_large(length: int, strip: Q) -> None:
    planned = bias_binding(Q(length), strip=strip, usable_width=Q(100))
    assert planned.joined >= length
    by_area = bias_square(Q(length), strip=strip)
    assert planned.square == by_area or bias_length(planned.square - 1, strip=strip) < length


def test_a_bias_square_wider_than_the_fabric_is_refused() -> None:
    with pytest.raises(PieceWiderThanFabric) as error:
        bias_binding(Q(900), strip=Q(5, 2), usable_width=Q(40))
    assert error.value.label == "bias square"


def test_square_corners_stop_a_seam_before_and_fold_twice_the_width() -> None:
    """Common practice: stop 1/4 in before the corner, fold up, fold down."""
    found = binding_corners(rectangle((Q(50), Q(60))), seam=QUARTER, finished=QUARTER)
    assert [(each.kind, each.stop, each.fold) for each in found] == [
        (CornerKind.SQUARE, QUARTER, Q(1, 2))
    ] * 4
    assert "level with the edge just sewn" in found[0].words[1].facts["turned"].text


def test_sharp_and_blunt_corners_have_marks_of_their_own() -> None:
    """45 degrees: cot 22 1/2 = 1 + root 2; 135 degrees: root 2 - 1."""
    slanted = points((0, 0), (10, 0), (14, 4), (4, 4))
    sharp, blunt = corner(slanted, (0, 0)), corner(slanted, (10, 0))
    assert (sharp.kind, sharp.stop) == (CornerKind.SHARP, (1 + root(2)) / 4)
    assert (blunt.kind, blunt.stop) == (CornerKind.BLUNT, (root(2) - 1) / 4)
    assert (sharp.fold, blunt.fold) == ((1 + root(2)) / 2, (root(2) - 1) / 2)
    assert ceiling(sharp.stop, SIXTEENTH) == Q(5, 8)
    assert ceiling(blunt.stop, SIXTEENTH) == Q(1, 8)


def test_a_hexagon_has_six_blunt_corners() -> None:
    """120 degrees: cot 60 = 1 / root 3."""
    high = 4 * root(3)
    hexagon = ((Q(4), Q(0)), (Q(12), Q(0)), (Q(16), high), (Q(12), 2 * high), (Q(4), 2 * high), (Q(0), high))
    found = binding_corners(hexagon, seam=QUARTER, finished=Q(3, 8))
    assert {(each.kind, each.stop, each.fold) for each in found} == {
        (CornerKind.BLUNT, root(3) / 12, root(3) / 4)
    }
    assert outline_length(hexagon) == 48


def test_an_inner_corner_is_clipped_and_pleated() -> None:
    ell = points((0, 0), (10, 0), (10, 10), (6, 10), (6, 6), (0, 6))
    inner = corner(ell, (6, 6))
    assert (inner.kind, inner.stop, inner.fold) == (CornerKind.INNER, QUARTER, Q(1, 2))
    assert "Clip" in inner.words[0].text
    assert [each.kind for each in binding_corners(ell, seam=QUARTER, finished=QUARTER)].count(
        CornerKind.SQUARE
    ) == 5


def test_what_the_folds_take_the_seam_line_saves() -> None:
    """With the binding as wide as its seam, strip to strip: seam line and folds add up to the outline."""
    slanted = points((0, 0), (10, 0), (14, 4), (4, 4))
    found = binding_corners(slanted, seam=QUARTER, finished=QUARTER)
    sewn = outline_length(slanted) - sum((2 * each.stop for each in found), start=Q(0))
    assert sewn + sum((each.fold for each in found), start=Q(0)) == outline_length(slanted)


def test_an_outline_is_bound_like_a_rectangle() -> None:
    around = outline_length(rectangle((Q(50), Q(60)))) + 10
    straight = binding(Q(50), Q(60), strip=Q(5, 2), usable_width=Q(40))
    assert binding_round(around, strip=Q(5, 2), usable_width=Q(40)) == straight


def test_a_length_with_nested_roots_is_rounded_up() -> None:
    kite = ((Q(0), Q(0)), (1 + root(2), Q(1)), (Q(0), Q(2)))
    exact = 2 * (1 + (1 + 2**0.5) ** 2) ** 0.5 + 2
    assert 0 <= float(outline_length(kite)) - exact < 0.002


@given(st.sampled_from([Q(1, 4), Q(3, 8), Q(1, 2)]), st.fractions(Q(1, 4), Q(1), max_denominator=8))
def test_a_binding_strip_finishes_as_it_was_planned(seam: Q, finished: Q) -> None:
    assert finished_binding(binding_strip(finished, seam=seam), seam=seam) == finished


def test_a_hanging_sleeve_is_8_and_a_half_wide_and_an_inch_short() -> None:
    """International Quilt Association, on sleeves: 8 1/2 in, 2 in longer, 1 1/2 in hems."""
    sleeve = hanging_sleeve(Q(54), usable_width=Q(40))
    assert (sleeve.cut_width, sleeve.cut_length, sleeve.hem) == (Q(17, 2), 56, Q(3, 2))
    assert (sleeve.finished_length, sleeve.strips, sleeve.fabric_length) == (53, 2, 17)
    assert hanging_sleeve(Q(38), usable_width=Q(40)).strips == 1
    assert hanging_sleeve(Q(54), usable_width=Q(40), depth=Q(5)).cut_width == Q(21, 2)


@pytest.mark.parametrize(
    ("size", "name"),
    [((34, 45), "craft"), ((40, 50), "crib"), ((62, 76), "twin"), ((90, 92), "queen"), ((130, 130), "")],
)
def test_the_smallest_packaged_batting_that_holds(size: tuple[int, int], name: str) -> None:
    """WAD-01 to WAD-06: packaged batting, a blog of 2012."""
    assert packaged_batting(Q(size[0]), Q(size[1])) == name


def test_a_wide_back_has_no_seam_and_states_its_overage() -> None:
    planned = backing(Q(54), Q(68), overage=Q(4), seam=Q(1, 2), usable_width=Q(106))
    assert (planned.best.seams, planned.overage) == (0, 4)


def test_shrinkage_is_taken_from_what_is_made() -> None:
    """SHR-07: 90 / 0.95; adding 5 % gives 94.5 and falls short."""
    assert before_washing(Q(90), shrinkage=Q(1, 20)) == Q(1800, 19)
