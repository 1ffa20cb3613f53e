"""The sums of a recipe: cut less spares is sewn, patches fill the block."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from patterns.engine.blocks import block_from_data
from patterns.engine.cutting import reconcile
from patterns.engine.layout import PlacedDrawing
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.parts import Hand
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.steps import Recipe
from tests.engine.drawn import SLUGS, drawing, recipe


@pytest.mark.parametrize("slug", SLUGS)
def test_pieces_cut_less_spares_are_pieces_sewn(slug: str) -> None:
    found = reconcile(recipe(slug))
    assert found.reconciles
    assert found.area_of_patches == found.area_of_block


def test_spares_are_counted_per_fabric_and_hand() -> None:
    found = reconcile(recipe("birds-in-the-air"))
    assert found.fabrics == {"A": (4, 1, 3), "B": (8, 2, 6), "C": (7, 1, 6)}
    assert found.hands[("half-square-1", Hand.EITHER)] == (4, 1, 3)


def test_oversized_style_reconciles_too() -> None:
    assert reconcile(recipe("bears-paw", size=14, style=Style(house=HouseStyle.OVERSIZED))).reconciles


def _unnamed(made: Recipe) -> Recipe:
    return replace(made, spares=())


def test_unnamed_spare_does_not_reconcile() -> None:
    assert not reconcile(_unnamed(recipe("birds-in-the-air"))).reconciles


def test_quilt_on_point_reconciles_without_the_blocks_it_is_brought() -> None:
    block = block_from_data(drawing("ohio-star")).at_size(Fraction(12), Fraction(12))
    star = PlacedDrawing(block=block)
    top = on_point_set([[star, star], [star], [star, star]], triangle="T")
    found = reconcile(write_recipe(top.centre, name="top", style=Style(), finished=(top.width, top.height)))
    assert found.fabrics == {"T": (8, 0, 8)}  # a square cut twice, two cut once
    assert found.reconciles
    assert found.area_of_block == 2 * 12 * 12 * 4
