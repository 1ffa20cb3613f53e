"""Faults by chance: each is named, or changes nothing: the block still equals its drawing."""

from __future__ import annotations

from random import Random

import pytest

from tests.engine.fault_rounds import BLOCKS, CAUGHT, HARMLESS, MISSED, NOT_THERE, one_fault
from tests.engine.injected_faults import KINDS

pytestmark = pytest.mark.slow

ROUNDS = 3


@pytest.mark.parametrize("kind", KINDS)
def test_a_fault_is_named_or_changes_nothing(kind: str) -> None:
    chance = Random(kind)
    found = [one_fault(chance.choice(BLOCKS), kind, chance) for _ in range(ROUNDS)]
    assert MISSED not in found


def test_faults_of_every_plain_kind_are_named_somewhere() -> None:
    chance = Random(1)
    for kind in ("one piece more", "another letter", "cut 1/8 small", "step dropped", "seam 1/8 wider"):
        found = {one_fault(slug, kind, chance) for slug in ("ohio-star", "log-cabin", "sawtooth-star")}
        assert found <= {CAUGHT, HARMLESS, NOT_THERE}
        assert CAUGHT in found
