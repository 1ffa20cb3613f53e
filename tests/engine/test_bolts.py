"""Bolts: whole cuts, the fewest inches bought, proven."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from patterns.engine.bolts import Assignment, BoltCuts, BoltPlan, assign_bolts, plan_bolts, whole_cuts
from patterns.engine.errors import CutLongerThanBolt
from patterns.engine.measure import YARD, inches

Cuts = dict[Fraction, int]
FIFTEEN, TEN = 15 * YARD, 10 * YARD
LOSS = inches("4 1/2")

# Yards bought: 15-yd bolts without and with end loss, 15- and 10-yd bolts without and with it.
# Computed independently by exact cutting stock.
TABLE: list[tuple[Cuts, tuple[int, int, int, int]]] = [
    ({YARD / 2: 5000}, (2505, 2595, 2500, 2590)),
    ({YARD / 4: 3000, YARD * 5 / 8: 2000}, (2010, 2025, 2000, 2020)),
    ({YARD / 3: 2200, YARD * 3 / 8: 1800, YARD * 5 / 4: 1000}, (2670, 2685, 2660, 2685)),
    (
        {inches("11 3/8"): 25, inches("17 1/4"): 13, inches("23 7/8"): 12, inches("40 1/8"): 10},
        (45, 45, 35, 35),
    ),
]
OFFERS = [
    ((FIFTEEN,), Fraction(0)),
    ((FIFTEEN,), LOSS),
    ((FIFTEEN, TEN), Fraction(0)),
    ((FIFTEEN, TEN), LOSS),
]


def check(plan: BoltPlan | Assignment, *, end_loss: Fraction) -> Cuts:
    """Assert that each bolt holds what is cut from it; give all cuts."""
    given_cuts: Cuts = {}
    for bolt in plan.bolts:
        used = sum(length * count for length, count in bolt.cuts)
        assert used + bolt.left_over == bolt.length - end_loss
        assert bolt.left_over >= 0
        for length, count in bolt.cuts:
            given_cuts[length] = given_cuts.get(length, 0) + count * bolt.repeat
    return given_cuts


@pytest.mark.parametrize(("offer", "column"), zip(OFFERS, range(4), strict=True), ids=range(4))
@pytest.mark.parametrize("row", TABLE, ids=["half yards", "two lengths", "three lengths", "odd lengths"])
def test_the_fewest_yards_are_bought(
    row: tuple[Cuts, tuple[int, int, int, int]], offer: tuple[tuple[Fraction, ...], Fraction], column: int
) -> None:
    cuts, yards = row
    lengths, end_loss = offer
    plan = plan_bolts(cuts, bolt_lengths=lengths, end_loss=end_loss)
    assert check(plan, end_loss=end_loss) == cuts
    assert plan.bought == yards[column] * YARD
    assert plan.proven


def test_whole_cuts_count_never_total_yards() -> None:
    """45 packets of 2/3 yd are 30 yd, and yet three bolts of 15 yd (common practice, case C52)."""
    plan = plan_bolts({Fraction(24): 45}, bolt_lengths=[FIFTEEN])
    assert plan.bolts == (
        BoltCuts(length=FIFTEEN, cuts=((Fraction(24), 22),), left_over=Fraction(12), repeat=2),
        BoltCuts(length=FIFTEEN, cuts=((Fraction(24), 1),), left_over=Fraction(516)),
    )
    assert plan.left_over == 2 * 12 + 516


def test_a_bolt_shorter_than_its_end_loss_gives_nothing() -> None:
    assert whole_cuts(Fraction(3), Fraction(1), end_loss=Fraction(4)) == 0


def test_a_cut_longer_than_any_bolt_is_refused() -> None:
    with pytest.raises(CutLongerThanBolt) as refused:
        plan_bolts({Fraction(540): 1}, bolt_lengths=[FIFTEEN, Fraction(1)], end_loss=Fraction(2))
    assert (refused.value.length, refused.value.longest) == (540, 538)


def test_nothing_wanted_is_nothing_bought() -> None:
    assert plan_bolts({Fraction(18): 0}, bolt_lengths=[FIFTEEN]).bolts == ()


def test_bolts_that_came_are_used_up_from_the_shortest() -> None:
    given_bolts = {"first": Fraction(540), "second": Fraction(300)}
    assignment = assign_bolts({Fraction(24): 30}, bolts=given_bolts)
    assert [(bolt.name, bolt.cuts) for bolt in assignment.bolts] == [
        ("second", ((Fraction(24), 12),)),
        ("first", ((Fraction(24), 18),)),
    ]
    assert assignment.complete


def test_what_short_bolts_cannot_give_is_missing() -> None:
    """Two of three bolts came: 44 cuts for 45 people."""
    cuts = {Fraction(24): 45}
    assignment = assign_bolts(cuts, bolts={"a": FIFTEEN, "b": FIFTEEN})
    assert assignment.missing == ((Fraction(24), 1),)
    assert not assignment.complete
    assert check(assignment, end_loss=Fraction(0)) == {Fraction(24): 44}


lengths = some.integers(4, 40).map(lambda n: Fraction(n * 9, 8))


@given(cuts=some.dictionaries(lengths, some.integers(1, 60), min_size=1, max_size=3))
@settings(max_examples=15)
def test_every_purchase_gives_what_is_wanted_and_no_less_than_its_bound(cuts: Cuts) -> None:
    plan = plan_bolts(cuts, bolt_lengths=[TEN, FIFTEEN], end_loss=Fraction(1))
    assert check(plan, end_loss=Fraction(1)) == cuts
    assert sum(length * count for length, count in cuts.items()) <= plan.lower_bound <= plan.bought
