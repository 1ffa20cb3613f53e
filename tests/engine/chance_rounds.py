"""One drawing by chance, made in a style by chance: what is wrong with its recipe, if anything."""

from __future__ import annotations

from fractions import Fraction
from random import Random

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data
from patterns.engine.cutting import reconcile
from patterns.engine.errors import PatternError
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from tests.engine.random_drawings import random_block
from tests.engine.random_figures import interlocked, merged, slanted

MOST_PATCHES = 60
SEAMS = (Fraction(1, 4), Fraction(3, 8), Fraction(25, 127), Fraction(75, 254), Fraction(50, 127))
STEPS = (Fraction(1, 8), Fraction(1, 16), Fraction(5, 127))  # 1 mm


def block_by_chance(number: int) -> Block:
    """Draw units, slanted pieces, interlocked rectangles or patches of any outline; 6 to 24 in."""
    chance = Random(number)
    drawn = (
        lambda: random_block(number),
        lambda: slanted(number, chance.randrange(2, MOST_PATCHES + 1)),
        lambda: interlocked(number, side=chance.randrange(3, 10)),
        lambda: merged(number, side=chance.randrange(2, 6)),
    )[number % 4]()
    side = Fraction(chance.randrange(48, 193), 8)
    return drawn.at_size(side, side)


def style_by_chance(number: int) -> Style:
    """Choose seam, cutting step and house style."""
    chance = Random(-number)
    return Style(seam=chance.choice(SEAMS), step=chance.choice(STEPS), house=chance.choice(list(HouseStyle)))


def fault_of(number: int) -> str:
    """Write and prove one drawing; "" when it goes together and adds up, else what is wrong."""
    block = block_by_chance(number)
    try:
        recipe = write_recipe(sewing_order(block), name=block.name, style=style_by_chance(number))
    except PatternError as error:
        return f"refused: {error}"
    proof = prove(recipe.as_data(), block_as_data(block))
    if not proof.goes_together:
        return f"does not go together: {proof.findings[0]}"
    if proof.patches_right != len(block.patches):
        return f"{proof.patches_right} of {len(block.patches)} patches"
    return "" if reconcile(recipe).reconciles else "does not add up"
