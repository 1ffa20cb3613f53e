"""Recipes are made without pictures; the pictures are drawn when somebody looks."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bom.domain.chain import work_of
from bom.domain.making import NARROWEST, illustrated, make
from bom.domain.work import PartWork
from patterns.engine.assembly import sewing_order
from patterns.engine.methods import Style
from patterns.engine.recipes import write_recipe
from tests.engine.drawings import traditional
from tests.factories import make_program

pytestmark = pytest.mark.slow


def parts() -> list[PartWork]:
    return [part for month in work_of(make_program()).installments for part in month.parts if part.recipe]


@pytest.mark.django_db
def test_every_step_has_its_pictures_with_the_names_of_the_installments_list() -> None:
    for part in parts():
        recipe = illustrated(part)
        assert part.recipe is not None
        assert not any(step.pictures for step in part.recipe.steps)
        assert all(step.pictures for step in recipe.steps)
        names = {piece.id for piece in recipe.pieces}
        labels = {
            facet.label
            for step in recipe.steps
            for picture in step.pictures
            for facet in picture.facets
            if any(sign.isdigit() for sign in facet.label)
        }
        assert labels <= names
        assert illustrated(part) == recipe


@pytest.mark.django_db
def test_a_part_without_a_recipe_has_no_pictures() -> None:
    (part,) = (replace(each, recipe=None) for each in parts()[:1])
    with pytest.raises(ValueError, match="has no recipe"):
        illustrated(part)


@pytest.mark.parametrize("slug", ["ohio-star", "sawtooth-star", "nine-patch"])
def test_a_block_is_made_as_the_engine_makes_it_on_any_width(slug: str) -> None:
    drawing = traditional(slug)
    for width in (NARROWEST, Fraction(40), Fraction(54)):
        style = Style(usable_width=width)
        made = make(drawing, order=lambda: sewing_order(drawing), style=style)
        finished = (drawing.width, drawing.height)
        written = write_recipe(sewing_order(drawing), name=drawing.name, style=style, finished=finished)
        assert made.recipe is not None
        assert made.recipe.as_data() == written.as_data()
        assert made.recipe.warnings == written.warnings
