"""One fault put into one block's recipe: caught, or else the block is its drawing all the same."""

from __future__ import annotations

import json
from copy import deepcopy
from fractions import Fraction
from functools import cache
from random import Random
from typing import Any

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_from_data
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.parts import Assembly
from patterns.engine.rebuild import prove, sew
from patterns.engine.rebuilding.trimming import inner_looks
from tests.engine.drawn import SLUGS, drawing, recipe
from tests.engine.injected_faults import KINDS
from tests.engine.unit_samples import with_methods_by_chance

FITTED = (  # sewn by more than rows, or of kinds that the sample lacks
    "attic-window",
    "bright-hopes",
    "crazy-patch",
    "drunkards-path",
    "economy-patch",
    "fifty-four-forty-or-fight",
    "hunters-star",
    "kaleidoscope",
    "lemoyne-star",
    "polka-dot",
    "snowball",
    "spool",
    "storm-at-sea",
)
BLOCKS = (*SLUGS, *FITTED)
SIZE = Fraction(12)
CAUGHT, HARMLESS, MISSED, NOT_THERE = "caught", "harmless", "missed", "no such place"
HOUSES = (HouseStyle.EXACT, HouseStyle.OVERSIZED)
WAYS = 6  # two house styles with the preferred methods, then with methods by chance


@cache
def _data(slug: str, number: int) -> str:
    style = Style(house=HOUSES[number % len(HOUSES)])
    if number >= len(HOUSES):
        order = recipe_order(slug)
        style = with_methods_by_chance(order, style, Random(number))
    return json.dumps(recipe(slug, style=style).as_data())


@cache
def recipe_order(slug: str) -> Assembly:
    """Give the sewing order of a block at 12 in."""
    block = block_from_data(drawing(slug))
    return sewing_order(block.at_size(SIZE, SIZE * block.height / block.width))


@cache
def _looks(slug: str, number: int) -> Any:
    return finished_looks(json.loads(_data(slug, number)))


def finished_looks(data: dict[str, Any]) -> Any:
    """Give what is seen of the sewn whole inside its finished edge, or None when it cannot be sewn."""
    whole = sew(data).whole
    return whole and inner_looks(whole.facets, whole.box, Fraction(data["seam"]))


def one_fault(slug: str, kind: str, chance: Random) -> str:
    """Spoil one thing; the block is caught, or harmless when the sewn whole looks as before."""
    number = chance.randrange(WAYS)
    data = deepcopy(json.loads(_data(slug, number)))
    if not KINDS[kind](data, chance):
        return NOT_THERE
    if not prove(data, drawing(slug)).goes_together:
        return CAUGHT
    return HARMLESS if finished_looks(data) == _looks(slug, number) else MISSED
