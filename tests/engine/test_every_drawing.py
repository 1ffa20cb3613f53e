"""Every other drawing that comes with the tree goes its whole way, as the traditional blocks do.

The blocks of the program files and the drawings of figures: patches that sum to the block, a sewing order,
virtual sewing at two sizes in both styles, and no piece rounded down.
"""

from __future__ import annotations

import json
from fractions import Fraction
from functools import cache
from inspect import getmembers, isfunction, signature
from pathlib import Path

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.geometry import area
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.steps import Recipe
from tests.engine import figure_drawings
from tests.engine.test_traditional_blocks import FINE, STEP, measures

pytestmark = pytest.mark.slow

PROGRAMS = sorted((Path(__file__).parents[2] / "fixtures" / "programs").glob("*.json"))


def drawings() -> dict[str, Block]:
    """Give them by name; of the drawings of figures those that are drawn without being told how."""
    found = {}
    for file in PROGRAMS:
        for kept in json.loads(file.read_text("utf-8"))["blocks"]:
            found[f"{file.stem} {kept['key']}"] = block_from_data(kept["drawing"])
    for name, draw in getmembers(figure_drawings, isfunction):
        told = signature(draw)
        plain = draw.__module__ == figure_drawings.__name__ and not name.startswith("_")
        if (
            plain
            and told.return_annotation == "Block"
            and all(each.default is not each.empty for each in told.parameters.values())
        ):
            found[f"figure {name}"] = draw()
    return found


DRAWINGS = drawings()


def two_sizes(drawn: Block) -> tuple[Block, Block]:
    """Give it 12 in wide, and 15 in."""
    one, other = (
        drawn.at_size(Fraction(size), drawn.height * Fraction(size) / drawn.width) for size in (12, 15)
    )
    return one, other


@cache
def written(name: str, at: int, style: Style) -> Recipe:
    return write_recipe(sewing_order(two_sizes(DRAWINGS[name])[at]), name=name, style=style)


@pytest.mark.parametrize("name", DRAWINGS)
def test_its_patches_sum_to_it(name: str) -> None:
    drawn = DRAWINGS[name]
    assert sum((area(patch.points) for patch in drawn.patches), Fraction(0)) == drawn.width * drawn.height


@pytest.mark.parametrize("house", list(HouseStyle))
@pytest.mark.parametrize("name", DRAWINGS)
def test_it_goes_together_at_two_sizes(name: str, house: HouseStyle) -> None:
    for at in (0, 1):
        found = prove(written(name, at, Style(house=house)).as_data(), block_as_data(DRAWINGS[name]))
        assert found.findings == ()
        assert found.patches_right == found.patches


@pytest.mark.parametrize("name", DRAWINGS)
def test_no_piece_of_it_is_rounded_down(name: str) -> None:
    sheet, fine = written(name, 1, Style()), written(name, 1, FINE)
    pairs = zip(sorted(map(measures, fine.pieces)), sorted(map(measures, sheet.pieces)), strict=True)
    for (*what, short, long), (*same, width, length) in pairs:
        assert what == same
        assert 0 <= width - short < 2 * STEP
        if "slanting" not in what[1]:  # those strips are filled as the fabric's width allows
            assert 0 <= length - long < 2 * STEP
