"""Branch and bound: published lists that the first bound leaves open, and the counted effort."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patterns.engine.strip_layout import sizes_of
from patterns.engine.strip_model import PlanMode, Problem
from patterns.engine.strip_scale import problem_of, scale_of
from patterns.engine.strip_solve import Solved, solve
from patterns.engine.strips import Demand

pytestmark = pytest.mark.slow

PACKING = Path(__file__).parents[2] / "fixtures" / "check_values" / "packing.json"  # sources: packing.md
INSTANCES: dict[str, dict[str, Any]] = {
    each["name"]: each for each in json.loads(PACKING.read_text("utf-8"))["instances"]
}
OPEN_AT_FIRST = ("beasley1985/gcut3", "beasley1985/gcut6", "beasley1985/gcut11", "cintra2008_1bintype/gcut2d")


def problem(name: str) -> tuple[Problem, int]:
    """Give the problem, and the units of its lengths."""
    instance = INSTANCES[name]
    demands = [
        Demand(label=str(at), width=Fraction(w), length=Fraction(h), count=n, may_turn=False)
        for at, (w, h, n) in enumerate(instance["items"])
    ]
    sizes = sizes_of(demands)
    scale = scale_of([(size.width, size.length) for size in sizes], Fraction(instance["width"]))
    return problem_of(scale, sizes, PlanMode.TRIM), int(scale.unit)


def solved(name: str, *, effort: int = 1) -> Solved:
    return solve(problem(name)[0], seconds=0, effort=effort)


@pytest.mark.parametrize("name", OPEN_AT_FIRST)
def test_published_lists_are_proven(name: str) -> None:
    found, unit = solved(name), problem(name)[1]
    assert (found.length * unit, found.bound * unit) == (INSTANCES[name]["lower"], INSTANCES[name]["upper"])


def test_without_effort_the_bound_stays_open_and_holds() -> None:
    found = solved("beasley1985/gcut3", effort=0)
    assert found.bound < INSTANCES["beasley1985/gcut3"]["upper"] <= found.length


def test_one_effort_gives_one_plan() -> None:
    assert solved("beasley1985/gcut6") == solved("beasley1985/gcut6")
