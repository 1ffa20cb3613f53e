"""Pictures of steps come from the sewing table: layers, marks, results."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patterns.engine.methods import Style
from patterns.engine.pictures import illustrate
from patterns.engine.steps import Mark, MarkKind, Picture, Recipe
from tests.engine.drawn import SLUGS, recipe


def marks(picture: Picture, kind: MarkKind) -> list[Mark]:
    return [mark for mark in picture.marks if mark.kind is kind]


def test_squares_in_pairs_show_the_back_two_seams_and_one_cut() -> None:
    stacked, ready = recipe("pinwheel").steps[0].pictures
    assert [facet.wrong_side for facet in stacked.facets] == [False, True]
    assert {facet.label for facet in stacked.facets} == {"A1", "B1"}
    assert len(marks(stacked, MarkKind.SEAM)) == 2
    (cut,) = marks(stacked, MarkKind.CUT)
    assert {cut.start, cut.end} == {(Fraction(0), Fraction(0)), (Fraction(55, 8), Fraction(55, 8))}
    assert {facet.label for facet in ready.facets} == {"A", "B"}
    assert ready.size == (Fraction(13, 2), Fraction(13, 2))


def test_half_square_is_pressed_toward_the_darker_fabric() -> None:
    (arrow,) = marks(recipe("pinwheel").steps[0].pictures[-1], MarkKind.PRESS)
    light = marks(
        recipe("pinwheel", style=Style(dark={"A": 1, "B": 0})).steps[0].pictures[-1], MarkKind.PRESS
    )
    assert [(mark.end, mark.start) for mark in light] == [(arrow.start, arrow.end)]


def test_rows_are_laid_apart_then_joined() -> None:
    apart, joined = recipe("ohio-star").steps[-1].pictures
    across = [max(p[0] for facet in picture.facets for p in facet.points) for picture in (apart, joined)]
    assert across == [Fraction(27, 2) + 1, Fraction(25, 2)]  # 3 x 4 1/2 in with two gaps of 1/2 in
    assert len(marks(apart, MarkKind.SEAM)) == 8  # two in each row, two between rows
    assert len(marks(joined, MarkKind.PRESS)) == 8


def test_result_of_a_step_is_as_large_as_its_check() -> None:
    for slug in SLUGS[::4]:
        for step in recipe(slug).steps:
            points = [p for facet in step.pictures[-1].facets for p in facet.points]
            assert step.check == (max(p[0] for p in points), max(p[1] for p in points))


def test_same_picture_is_not_shown_twice_in_a_step() -> None:
    for step in recipe("ohio-star").steps:
        assert len(set(step.pictures)) == len(step.pictures)


def test_recipe_that_cannot_be_sewn_is_left_without_pictures_from_there_on() -> None:
    made = recipe("ohio-star")
    spoilt: Recipe = replace(
        made,
        pieces=tuple(replace(piece, count=1) for piece in made.pieces),
        steps=tuple(replace(step, pictures=()) for step in made.steps),
    )
    assert [len(step.pictures) for step in illustrate(spoilt, Style()).steps] == [0, 0]
