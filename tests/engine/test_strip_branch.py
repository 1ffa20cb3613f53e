"""Branch and bound: published lists that the first bound leaves open, and the counted effort."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from patterns.engine.strip_layout import sizes_of
from patterns.engine.strip_lots import Lot, packed
from patterns.engine.strip_model import PlanMode, Problem, Shape, column_of
from patterns.engine.strip_scale import problem_of, scale_of
from patterns.engine.strip_solve import Solved, solve
from patterns.engine.strips import Demand, plan_strips
from tests.benchmarks.strip_lists import LISTS

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
    return solve(problem(name)[0], effort=effort)


@pytest.mark.parametrize("name", OPEN_AT_FIRST)
def test_published_lists_are_proven(name: str) -> None:
    found, unit = solved(name), problem(name)[1]
    assert (found.length * unit, found.bound * unit) == (INSTANCES[name]["lower"], INSTANCES[name]["upper"])


def test_without_effort_the_bound_stays_open_and_holds() -> None:
    found = solved("beasley1985/gcut3", effort=0)
    assert found.bound < INSTANCES["beasley1985/gcut3"]["upper"] <= found.length


def test_one_effort_gives_one_plan() -> None:
    assert solved("beasley1985/gcut6") == solved("beasley1985/gcut6")


def test_lots_decide_where_numbers_of_strips_do_not() -> None:
    """Five sizes of pieced blocks: whole numbers of strips leave it open, numbers of pieces settle it."""
    cut_list = json.loads(LISTS.read_text("utf-8"))[95]
    demands = [
        Demand(label=str(at), width=Fraction(w, 8), length=Fraction(h, 8), count=n, may_turn=cut_list["turn"])
        for at, (w, h, n) in enumerate(cut_list["eighths"])
    ]
    plan = plan_strips(demands, usable_width=Fraction(cut_list["width"]))
    assert (plan.total_length * 8, plan.proven) == (1222, True)


def two_heights() -> Problem:
    """Squares of 2 and 3 units on fabric 7 wide; the lower ones may lie in either strip."""
    return Problem(7, (Shape(2, 2, 0, turned=False), Shape(3, 3, 1, turned=False)), (4, 2), PlanMode.TRIM)


def test_a_lot_counts_a_shape_in_high_strips_and_its_other_all_the_rest() -> None:
    mixed, low = column_of(3, {(0,): 2, (1,): 1}), column_of(2, {(0,): 3})
    lot = Lot(place=0, size=0, height=3, rest=False)
    assert [lot.count(two_heights(), column) for column in (mixed, low)] == [2, 0]
    assert [lot.other.count(two_heights(), column) for column in (mixed, low)] == [0, 3]
    assert lot.other.other == lot


def test_whole_lots_are_cut_height_by_height() -> None:
    ways = {column_of(3, {(0,): 2, (1,): 1}): 2.0}
    assert packed(two_heights(), ways) == {column_of(3, {(0,): 2, (1,): 1}): 2}
    stacked = Problem(7, two_heights().shapes, (4, 2), PlanMode.STACK)
    assert packed(stacked, ways) == {}


def test_lots_that_do_not_go_into_their_strips_give_no_layout() -> None:
    """Two squares of 3 and four of 2 do not fit one strip 7 wide."""
    assert packed(two_heights(), {column_of(3, {(0,): 4, (1,): 2}): 1.0}) == {}
