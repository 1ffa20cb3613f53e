"""The fewest precuts that give a cut list, cut either way first."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.precut_sizes import PRECUTS, Precut
from patterns.engine.precuts import PrecutPlan, fewest_precuts
from patterns.engine.strips import Demand, plan_strips
from tests.engine.strip_checker import check_edge_to_edge

pytestmark = pytest.mark.slow

NAMED = {precut.name: precut for precut in PRECUTS}
USABLE = (Fraction(21), Fraction(18))
QUARTER = Precut(name="fat quarter", nominal=(Fraction(22), Fraction(18)), usable=USABLE)


def piece(width: Fraction | int, length: Fraction | int, count: int, *, may_turn: bool = True) -> Demand:
    return Demand(
        label=f"{width} x {length}",
        width=Fraction(width),
        length=Fraction(length),
        count=count,
        may_turn=may_turn,
    )


def check(plan: PrecutPlan, demands: list[Demand]) -> None:
    """Assert that every piece asked for lies in a precut, edge to edge, and none across another."""
    given: Counter[str] = Counter()
    for cut in plan.cuts:
        reach, across = plan.precut.usable if cut.strips_along else reversed(plan.precut.usable)
        assert sum(strip.height for strip in cut.strips) <= reach
        for strip in cut.strips:
            check_edge_to_edge([(each.x, each.y, each.width, each.length) for each in strip.cuts])
            assert strip.used_width <= across
            assert all(each.length <= strip.height for each in strip.cuts)
            given.update({label: n * cut.repeat for label, n in Counter(c.label for c in strip.cuts).items()})
    assert given == Counter({demand.label: demand.count for demand in demands})
    assert sum(cut.repeat for cut in plan.cuts) == plan.count >= plan.lower_bound


def test_squares_of_a_fat_quarter() -> None:
    """21 x 18 in hold 8 x 7 squares of 2 1/2 in, so 57 squares need two."""
    for count, precuts in ((56, 1), (57, 2)):
        squares = [piece(Fraction(5, 2), Fraction(5, 2), count)]
        plan = fewest_precuts(squares, precut=QUARTER)
        assert (plan.count, plan.proven) == (precuts, True)
        check(plan, squares)


def test_the_first_cut_goes_the_way_that_takes_fewer() -> None:
    """One-way pieces 5 x 9 in: four across in two strips, 8 of one precut, however they are cut."""
    pieces = [piece(5, 9, 8, may_turn=False)]
    plan = fewest_precuts(pieces, precut=QUARTER)
    assert (plan.count, plan.proven) == (1, True)
    check(plan, pieces)


def test_a_charm_square_gives_four_and_a_strip_sixteen() -> None:
    squares = [piece(Fraction(5, 2), Fraction(5, 2), 32)]
    assert fewest_precuts(squares, precut=NAMED["5 in square"]).count == 8
    assert fewest_precuts(squares, precut=NAMED["2 1/2 in strip"]).count == 2


def test_a_piece_that_fits_no_precut_is_named() -> None:
    with pytest.raises(PieceWiderThanFabric) as wide:
        fewest_precuts([piece(6, 6, 1)], precut=NAMED["5 in square"])
    assert wide.value.label == "6 x 6"


def test_nothing_wanted_takes_none() -> None:
    assert fewest_precuts([piece(2, 2, 0)], precut=QUARTER).count == 0


def by_chance(chance: Random) -> list[Demand]:
    """Make a list of two to six sizes, as many pieces as the blocks of a quilt take."""
    eighths = [(chance.randint(12, 60), chance.randint(12, 60)) for _ in range(chance.randint(2, 6))]
    return [piece(Fraction(w, 8), Fraction(h, 8), chance.randint(4, 80)) for w, h in dict.fromkeys(eighths)]


def test_forty_of_forty_lists_by_chance_are_proven() -> None:
    chance = Random("fat quarters 40")
    for _ in range(40):
        demands = by_chance(chance)
        plan = fewest_precuts(demands, precut=QUARTER)
        check(plan, demands)
        assert plan.proven


def test_one_is_enough_just_where_the_strips_of_one_way_reach_no_further() -> None:
    """Checked against strip plans, which are searched another way."""
    chance = Random("one is enough")
    for _ in range(12):
        demands = [
            piece(
                Fraction(chance.randint(12, 60), 8), Fraction(chance.randint(12, 60), 8), chance.randint(1, 5)
            )
            for _ in range(3)
        ]
        turned = [replace(each, width=each.length, length=each.width) for each in demands]
        lengths = [
            plan_strips(each, usable_width=across).total_length - along
            for each, (across, along) in ((demands, USABLE), (turned, USABLE[::-1]))
        ]
        assert (fewest_precuts(demands, precut=QUARTER).count == 1) == (min(lengths) <= 0)
