"""Appliqué: templates with a turn-under, the step that lays them, virtual sewing that finds faults."""

from __future__ import annotations

import json
from collections import Counter
from fractions import Fraction
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patterns.domain.wording import say
from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.cutting import reconcile
from patterns.engine.geometry import exact
from patterns.engine.likeness import turns_between
from patterns.engine.rebuild import Proof, prove, sew
from patterns.engine.recipes import write_recipe
from patterns.engine.steps import Recipe
from patterns.engine.surds import root
from patterns.engine.templates import cut_outline
from patterns.engine.true_size import template_shape
from patterns.engine.units.base import HouseStyle, Style
from tests.engine.applique_samples import SLUGS, appliqued, circle, sample, shape
from tests.engine.drawings import inches

F = Fraction
SQUARE = shape("B", (1, 1), (3, 1), (3, 3), (1, 3))
LEFT = shape("C", (0, 1), (1, 1), (1, 3))
RIGHT = shape("C", (3, 1), (4, 1), (3, 3))  # a mirror image of LEFT
HALF_TURN = shape("C", (4, 3), (3, 3), (3, 1))  # LEFT, turned by half a turn
Data = dict[str, Any]


@cache
def made(slug: str, size: int = 12) -> Recipe:
    block = inches(sample(slug), size)
    return write_recipe(sewing_order(block), name=block.name, style=Style())


def recipe_of(block: Block, style: Style | None = None) -> Recipe:
    return write_recipe(sewing_order(block), name=block.name, style=style or Style())


def proof_of(block: Block, style: Style | None = None) -> Proof:
    return prove(recipe_of(block, style).as_data(), block_as_data(block))


@pytest.mark.parametrize("size", [8, 12])
@pytest.mark.parametrize("slug", SLUGS)
def test_every_sample_goes_together_and_adds_up(slug: str, size: int) -> None:
    recipe, drawn = made(slug, size), sample(slug)
    proof = prove(json.loads(json.dumps(recipe.as_data())), block_as_data(drawn))
    assert proof.findings == ()
    assert proof.patches == proof.patches_right == len(drawn.cloth)
    sums = reconcile(recipe)
    assert sums.reconciles
    assert sums.area_of_block == size * size  # the ground counts whole, the shapes come on top


@pytest.mark.parametrize("house", list(HouseStyle))
def test_styles_and_seams_change_the_turn_under(house: HouseStyle) -> None:
    style = Style(house=house, seam=F(3, 8))
    assert proof_of(appliqued(SQUARE), style).goes_together
    cut = next(piece for piece in recipe_of(appliqued(SQUARE), style).pieces if piece.fabric == "B")
    assert (cut.width, cut.length, cut.shape) == (F(27, 4), F(27, 4), "template")  # 6 in and twice 3/8


def test_alike_shapes_share_a_template_however_they_are_turned_and_mirror_images_have_their_own() -> None:
    recipe = recipe_of(appliqued(SQUARE, LEFT, HALF_TURN))
    assert [(piece.id, piece.count) for piece in recipe.pieces] == [("A1", 1), ("B1", 1), ("C1", 2)]
    mirrored = recipe_of(appliqued(SQUARE, LEFT, RIGHT))
    assert [(piece.id, piece.count) for piece in mirrored.pieces][-2:] == [("C1", 1), ("C2", 1)]


def test_shapes_come_last_with_their_places_and_a_measure() -> None:
    step = recipe_of(appliqued(SQUARE, LEFT)).steps[-1]
    words = [say(phrase) for phrase in step.words]
    assert say(step.title) == "Appliqué"
    assert "1: B1, 3 in from the left, 3 in from the top." in words
    assert "2: C1, 0 in from the left, 3 in from the top." in words
    assert step.check == (F(25, 2), F(25, 2))
    assert any("1/4 in" in each and "turned under" in each for each in words)
    assert any("maker's instructions" in each for each in words)
    assert step is not recipe_of(appliqued(SQUARE)).steps[0]


def test_the_step_shows_the_order_of_laying_and_what_is_ready() -> None:
    order, ready = made("four-petals").steps[-1].pictures
    assert [facet.label for facet in order.facets if facet.label] == [str(n) for n in range(1, 10)]
    assert Counter(facet.label for facet in ready.facets) == {"A": 2, "B": 2, "C": 4, "D": 4, "E": 1}
    assert ready.size == (F(25, 2), F(25, 2))


def test_a_block_without_shapes_is_told_as_ever() -> None:
    data = recipe_of(block_from_data({**block_as_data(sample("four-petals")), "applique": []})).as_data()
    assert "appliqu" not in json.dumps(data, ensure_ascii=False)


def test_the_ground_may_be_turned_and_shapes_may_lie_at_its_edges() -> None:
    ground = [
        {"fabric": "A", "points": [[0, 0], [4, 0], [4, 1], [0, 1]]},
        {"fabric": "B", "points": [[0, 1], [4, 1], [4, 4], [0, 4]]},
    ]
    corner = shape("C", (0, 0), (2, 0), (0, 2))
    drawn = block_from_data({"name": "x", "grid": [4, 4], "patches": ground, "applique": [corner]})
    for turn in range(4):
        turned = inches(drawn.turned(turn))
        assert proof_of(turned).goes_together
        assert proof_of(turned.mirrored()).goes_together


@settings(max_examples=15, deadline=None)
@given(
    st.lists(
        st.tuples(*[st.integers(0, 2)] * 2, *[st.integers(1, 2)] * 2, st.sampled_from("BCD")),
        min_size=1,
        max_size=5,
    ),
    st.integers(0, 3),
)
def test_any_triangles_on_a_square_go_together_however_the_block_is_turned(
    rows: list[tuple[int, int, int, int, str]], turn: int
) -> None:
    drawn = appliqued(*(shape(f, (x, y), (x + w, y), (x, y + h)) for x, y, w, h, f in rows), size=9)
    turned = drawn.turned(turn)
    assert proof_of(turned).goes_together
    counts = Counter({piece.fabric: 0 for piece in recipe_of(turned).pieces})
    for piece in recipe_of(turned).pieces:
        counts[piece.fabric] += piece.count
    assert counts == Counter(each.fabric for each in drawn.cloth)


def test_a_corner_given_twice_or_on_a_straight_edge_changes_nothing() -> None:
    plain = recipe_of(appliqued(SQUARE))
    said_twice = shape("B", (1, 1), (1, 1), (2, 1), (3, 1), (3, 3), (1, 3))
    assert recipe_of(appliqued(said_twice)).pieces == plain.pieces
    assert proof_of(appliqued(said_twice)).goes_together


def test_a_deep_notch_keeps_its_turn_under() -> None:
    """Where the edges of a notch are shorter than the turn-under, the cut line leaves them out."""
    notch = (("17/8", 4), ("49/24", "31/8"), ("47/24", "31/8"), ("15/8", 4))
    notched = shape("B", (0, 1), (4, 1), (4, 4), *notch, (0, 4))
    recipe = recipe_of(appliqued(notched))
    cut = cut_outline(recipe.pieces[-1].outline, F(1, 4))
    assert len(cut) < len(recipe.pieces[-1].outline)
    assert proof_of(appliqued(notched)).goes_together


def test_turns_between_are_found_and_mirror_images_have_none() -> None:
    flag = [(F(0), F(0)), (F(3), F(0)), (F(3), F(1))]
    turned = [(-y, x) for x, y in flag]
    assert list(turns_between(flag, turned)) == [(F(0), F(1))]
    assert list(turns_between(flag, [(-x, y) for x, y in flag])) == []
    square = [(F(0), F(0)), (F(1), F(0)), (F(1), F(1)), (F(0), F(1))]
    assert len(list(turns_between(square, square))) == 4
    half = root(2) / 2
    slanted = [((x - y) * half, (x + y) * half) for x, y in flag]
    assert [(exact(x), exact(y)) for x, y in turns_between(flag, slanted)] == [(half, half)]


def test_a_print_with_a_direction_that_lies_in_several_is_named() -> None:
    style = Style(directions={"C": "one-way"})
    warnings = [say(each) for each in recipe_of(appliqued(LEFT, HALF_TURN), style).warnings]
    assert any("Fabric C" in each and "2 directions" in each for each in warnings)
    two_way = Style(directions={"C": "two-way"})
    assert recipe_of(appliqued(LEFT, HALF_TURN), two_way).warnings == ()


def test_the_sewn_block_counts_its_shapes_among_the_patches() -> None:
    sewn = sew(recipe_of(appliqued(SQUARE, LEFT)).as_data())
    assert sewn.patches() == {"A": 1, "B": 1, "C": 1}


def test_a_leaf_has_true_arcs_and_a_whole_turn_under_at_its_tips() -> None:
    leaf = next(piece for piece in made("four-petals").pieces if piece.fabric == "D")
    cut = template_shape(leaf, F(1, 4)).cut
    assert len(cut.bends) == 2
    assert {bend.clockwise for bend in cut.bends.values()} == {True}
    assert len(cut.points) == 6  # at either tip: the ends of both arcs, and the corner between them


def test_the_cleft_of_a_heart_is_where_its_arcs_cross() -> None:
    heart = next(piece for piece in made("heart-on-nine-patch").pieces if piece.fabric == "C")
    shape_ = template_shape(heart, F(1, 4))
    assert len(shape_.cut.bends) == len(shape_.sewn.bends) == 4
    assert len(shape_.cut.points) == len(shape_.sewn.points)


def test_a_circle_is_cut_round() -> None:
    disc = recipe_of(appliqued(circle("B", 2, 2, radius=1))).pieces[-1]
    cut = template_shape(disc, F(1, 4)).cut
    assert len(cut.points) == len(cut.bends) == 4
    assert {round(bend.radius, 6) for bend in cut.bends.values()} == {F(13, 4)}
