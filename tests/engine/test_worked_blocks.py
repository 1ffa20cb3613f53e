"""Published cut lists of whole blocks come out of the drawing, piece by piece."""

from __future__ import annotations

from fractions import Fraction

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data
from patterns.engine.geometry import area
from patterns.engine.measure import inches
from patterns.engine.methods import Style
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from tests.engine.drawings import Drawing, block, box, patch


def pinwheel() -> Block:
    """Draw four quarters turned about the middle: a three-patch unit, squares and half-squares."""
    quarter = [
        box("A", 0, 0, width=2, height=2),
        box("A", 0, 4, width=2, height=2),
        *halves("AB", 2, 0),
        *halves("BC", 4, 0),
        *halves("AC", 0, 2),
        patch("A", (2, 2), (6, 2), (2, 6)),
        patch("C", (6, 2), (6, 6), (4, 4)),
        patch("A", (6, 6), (2, 6), (4, 4)),
    ]
    turned = [quarter]
    for _ in range(3):
        turned.append([turned_once(each) for each in turned[-1]])
    return block((12, 12), *(each for quarters in turned for each in quarters))


def halves(letters: str, x: int, y: int) -> list[Drawing]:
    upper = patch(letters[0], (x, y), (x + 2, y), (x, y + 2))
    return [upper, patch(letters[1], (x + 2, y), (x + 2, y + 2), (x, y + 2))]


def turned_once(drawn: Drawing) -> Drawing:
    return patch(drawn["fabric"], *((12 - y, x) for x, y in drawn["points"]))


def test_the_cut_list_of_a_guild_pinwheel_comes_out() -> None:
    """W10: Block of the Month directions, July 2023 (rolling pinwheel), LLQG (guild), 2023."""
    drawn = pinwheel()
    made = write_recipe(sewing_order(drawn), name="pinwheel", style=Style())
    assert {(p.fabric, p.width, p.length, p.then): p.count for p in made.pieces} == {
        ("A", inches("2 1/2"), inches("2 1/2"), ""): 8,
        ("A", inches("2 7/8"), inches("2 7/8"), ""): 4,
        ("A", inches("4 7/8"), inches("4 7/8"), "cut once diagonally"): 2,
        ("A", inches("5 1/4"), inches("5 1/4"), "cut twice diagonally"): 1,
        ("B", inches("2 7/8"), inches("2 7/8"), ""): 4,
        ("C", inches("2 7/8"), inches("2 7/8"), ""): 4,
        ("C", inches("5 1/4"), inches("5 1/4"), "cut twice diagonally"): 1,
    }
    assert prove(made.as_data(), block_as_data(drawn)).goes_together
    assert sum((area(each.points) for each in drawn.patches), Fraction(0)) == 144
