"""Recipes under the names of a longer cut list."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.cutting import cut_list
from patterns.engine.measure import inches
from patterns.engine.recipes import write_recipe
from patterns.engine.rebuild import prove
from patterns.engine.renaming import with_names_of
from patterns.engine.steps import Recipe
from patterns.engine.units.base import Style

BLOCKS = Path("fixtures/blocks")


def drawn(slug: str) -> Block:
    block = block_from_data(json.loads((BLOCKS / f"{slug}.json").read_text()))
    return block.at_size(inches(12), inches(12))


def recipe_of(slug: str) -> Recipe:
    return write_recipe(sewing_order(drawn(slug)), name=slug, style=Style())


@pytest.fixture
def two_blocks() -> tuple[Recipe, Recipe]:
    return recipe_of("ohio-star"), recipe_of("dutchmans-puzzle")


def test_pieces_take_the_names_of_the_longer_list(two_blocks: tuple[Recipe, Recipe]) -> None:
    together = [piece for cut in cut_list((each, 1) for each in two_blocks).values() for piece in cut]
    sizes = {piece.id: (piece.fabric, piece.width, piece.length) for piece in together}
    for recipe in two_blocks:
        for piece in with_names_of(recipe, together).pieces:
            assert sizes[piece.id] == (piece.fabric, piece.width, piece.length)


def test_a_renamed_recipe_still_goes_together(two_blocks: tuple[Recipe, Recipe]) -> None:
    together = [piece for cut in cut_list((each, 1) for each in two_blocks).values() for piece in cut]
    for recipe, slug in zip(two_blocks, ("ohio-star", "dutchmans-puzzle"), strict=True):
        renamed = with_names_of(recipe, together)
        assert prove(renamed.as_data(), block_as_data(drawn(slug))).goes_together


def test_a_piece_that_the_list_lacks_is_an_error(two_blocks: tuple[Recipe, Recipe]) -> None:
    with pytest.raises(KeyError):
        with_names_of(two_blocks[0], two_blocks[1].pieces)
