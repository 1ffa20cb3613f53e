"""Properties: blocks drawn at random from known units go together, whatever methods they are made by."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Any

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_from_data
from patterns.engine.cutting import reconcile
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.parts import Unit, UnitKind
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from tests.engine.unit_samples import (
    METRIC,
    checks,
    half_square,
    quarter_square,
    square,
    square_in_a_square,
    with_methods_by_chance,
)

pytestmark = pytest.mark.slow

STYLES = (
    Style(),
    Style(house=HouseStyle.OVERSIZED),
    METRIC,
    Style(seam=Fraction(3, 8), step=Fraction(1, 16)),
)


def draw(chance: Random) -> dict[str, Any]:
    """Draw four units of 2 x 2 side by side, fabrics by chance."""
    patches = []
    for x, y in ((0, 0), (2, 0), (0, 2), (2, 2)):
        for patch in chance.choice(_units(chance)).patches:
            points = [[str(p[0] + x), str(p[1] + y)] for p in patch.points]
            patches.append({"fabric": patch.fabric, "points": points})
    return {"name": "by chance", "grid": [4, 4], "patches": patches}


def _units(chance: Random) -> list[Unit]:
    letters = "".join(chance.choices("ABC", k=5))
    return [
        square(2, letters[0]),
        half_square(2, letters[:2]),
        quarter_square(2, letters[:4]),
        square_in_a_square(2, letters),
        checks(UnitKind.FOUR_PATCH, letters[:4], columns=2),
    ]


@pytest.mark.parametrize("number", range(12))
def test_blocks_by_chance_go_together_and_reconcile(number: int) -> None:
    chance = Random(number)
    drawing = draw(chance)
    size = Fraction(chance.choice([24, 25, 32, 36, 48]), 4)
    order = sewing_order(block_from_data(drawing).at_size(size, size))
    style = with_methods_by_chance(order, chance.choice(STYLES), chance)
    made = write_recipe(order, name="by chance", style=style)
    found = prove(made.as_data(), drawing)
    assert found.findings == ()
    assert found.patches_right == found.patches == len(drawing["patches"])
    assert reconcile(made).reconciles
