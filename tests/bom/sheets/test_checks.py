"""Where seams meet the edges of a block, from its geometry."""

from __future__ import annotations

from fractions import Fraction

from bom.domain.sheets.checks import seam_meets
from patterns.engine.blocks import block_from_data
from tests.factories import nine_patch, ohio_star


def test_seams_of_an_ohio_star_meet_every_side_at_thirds() -> None:
    """12 in finished: seams at 4 and 8 in, a quarter inch further from the raw corner."""
    block = block_from_data(ohio_star()).at_size(Fraction(12), Fraction(12))
    meets = seam_meets(block, Fraction(1, 4))
    assert set(meets.values()) == {(Fraction(17, 4), Fraction(33, 4))}


def test_seams_of_a_nine_patch_six_inches_wide() -> None:
    block = block_from_data(nine_patch()).at_size(Fraction(6), Fraction(6))
    assert seam_meets(block, Fraction(1, 4))["left"] == (Fraction(9, 4), Fraction(17, 4))
