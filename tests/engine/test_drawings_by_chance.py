"""Drawings by chance, of four families, sizes, seams and steps: each gets a recipe that goes together."""

from __future__ import annotations

import pytest

from tests.engine.chance_rounds import fault_of

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("number", range(200))
def test_a_drawing_by_chance_goes_together_and_adds_up(number: int) -> None:
    assert fault_of(number) == ""
