"""Difficulty is counted, graded and given with its reasons (thresholds: common practice)."""

from __future__ import annotations

from fractions import Fraction

from patterns.engine.blocks import block_from_data
from patterns.engine.difficulty import Difficulty, difficulty_of
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_straight import straight_set
from patterns.engine.steps import Piece
from patterns.engine.units.base import Style
from tests.engine.drawn import drawing, recipe
from tests.engine.test_quilts import rows_of
from tests.engine.test_row_words import said


def hard(slug: str, size: int = 12) -> Difficulty:
    block = block_from_data(drawing(slug)).at_size(Fraction(size), Fraction(size))
    return difficulty_of(recipe(slug, size=size), block.patches)


def reasons(slug: str, size: int = 12) -> list[str]:
    return [said(reason) for reason in hard(slug, size).reasons]


def test_a_nine_patch_is_plain() -> None:
    found = hard("nine-patch")
    assert (found.grade, found.reasons) == (1, ())
    assert (found.counts.joints, found.counts.smallest) == (4, 4)


def test_many_points_and_pieces_want_some_care() -> None:
    assert reasons("irish-chain") == ["16 points to match", "25 pieces"]
    assert hard("irish-chain").grade == 2


def test_the_same_block_is_harder_when_it_is_small() -> None:
    assert reasons("nine-patch", 4) == ["smallest patch 4/3"]
    assert (hard("nine-patch", 4).grade, hard("nine-patch", 2).grade) == (2, 3)


def test_edges_cut_on_the_diagonal_stretch() -> None:
    """Four-patch of triangles from squares cut twice: each triangle has two short bias edges."""
    made = recipe("turnstile")
    count = sum(
        {"cut twice diagonally": 8, "cut once diagonally": 2}[p.then] * p.count for p in cut(made.pieces)
    )
    assert hard("turnstile").counts.bias_edges == count == 20


def cut(pieces: tuple[Piece, ...]) -> list[Piece]:
    return [piece for piece in pieces if piece.then]


def test_a_top_matches_where_its_rows_cross() -> None:
    order = straight_set(rows_of(3, 3)).centre  # two rows of three
    top = write_recipe(order, name="top", style=Style(), finished=(Fraction(18), Fraction(12)))
    assert difficulty_of(top).counts.joints == 2
