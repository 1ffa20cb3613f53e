"""Triangles that several units are made from: one square serves several, and nothing else changes."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_from_data
from patterns.engine.cutting import reconcile
from patterns.engine.measure import inches
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.sharing import KEEP, TAKE
from patterns.engine.steps import Recipe
from tests.engine.drawn import drawing, plain_data, proof_of, recipe

QUARTERS = "cut twice diagonally"


def quarters(made: Recipe) -> dict[str, int]:
    return {piece.fabric: piece.count for piece in made.pieces if piece.then == QUARTERS}


def test_five_units_of_a_card_trick_share_their_squares() -> None:
    """Twelve quarter triangles, four of the ground and two of each card, from five squares."""
    made = recipe("card-trick")
    assert quarters(made) == dict.fromkeys("ABCDE", 1)
    left = Counter(spare.fabrics for spare in made.spares if spare.size == (inches("2 5/8"), inches("5 1/4")))
    assert left == dict.fromkeys([("B",), ("C",), ("D",), ("E",)], 1)
    assert {spare.count for spare in made.spares if spare.fabrics == ("B",) and spare.size[0] < 3} == {2}


@pytest.mark.parametrize("house", list(HouseStyle))
def test_it_goes_together_and_every_triangle_is_accounted_for(house: HouseStyle) -> None:
    made = recipe("card-trick", size=Fraction(15), style=Style(house=house))
    assert proof_of("card-trick", made).goes_together
    assert reconcile(made).reconciles
    assert all(step.pictures for step in made.steps)


def test_steps_say_what_is_kept_and_taken() -> None:
    told = [[(words.text, words.facts) for words in step.words] for step in recipe("card-trick").steps]
    assert (KEEP, {"count": 3}) in told[1]
    assert (TAKE, {"count": 1, "piece": "A1"}) in told[3]
    assert not any("three-patch-1/" in str(facts) for step in told for _text, facts in step)


def test_a_print_with_a_direction_is_cut_unit_by_unit() -> None:
    block = block_from_data(drawing("card-trick")).at_size(Fraction(12), Fraction(12))
    made = write_recipe(sewing_order(block), name="trick", style=Style(directions={"A": "one-way"}))
    assert quarters(made) == {"A": 4, "B": 1, "C": 1, "D": 1, "E": 1}
    assert proof_of("card-trick", made).goes_together


def test_where_no_square_is_saved_nothing_changes() -> None:
    for slug in ("turnstile", "square-in-a-square", "sawtooth-star"):
        made = recipe(slug)
        assert not any(words.text in {TAKE, KEEP} for step in made.steps for words in step.words)


def test_a_square_too_few_is_found() -> None:
    """Virtual sewing runs out of triangles where a shared square is missing."""
    data = plain_data("card-trick")
    for piece in data["pieces"]:
        if piece["fabric"] == "A" and piece["then"] == QUARTERS:
            piece["count"] = 0
    assert not prove(data, drawing("card-trick")).goes_together
