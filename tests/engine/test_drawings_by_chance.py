"""Drawings by chance, of four families, sizes, seams and steps: each gets a recipe that goes together."""

from __future__ import annotations

import pytest

from tests.engine.chance_rounds import fault_of

pytestmark = pytest.mark.slow


FOUND = (  # of ten thousand, the ones that taught something
    403,  # oversized geese, goose rounded up and wings not: too small to trim
    1720,  # oversized corners of a square in a square, tips beyond the next seam
    2645,  # a sliver, its seam off by more than itself
    4794,  # a partial seam on an edge under three quarters of an inch
)


@pytest.mark.parametrize("number", [*range(200), *FOUND])
def test_a_drawing_by_chance_goes_together_and_adds_up(number: int) -> None:
    assert fault_of(number) == ""
