"""What holds for every strip plan: harder lists never need less fabric than easier ones."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from patterns.engine.strips import Demand, PlanMode, StripPlan, plan_strips

pytestmark = pytest.mark.slow

WIDTH = Fraction(40)
Sizes = list[tuple[Fraction, Fraction, int]]
eighths = some.integers(8, 90).map(lambda n: Fraction(n, 8))
lists = some.lists(some.tuples(eighths, eighths, some.integers(1, 30)), min_size=1, max_size=3)


def planned(
    sizes: Sizes, *, width: Fraction = WIDTH, turn: bool = False, mode: PlanMode = PlanMode.TRIM
) -> StripPlan:
    demands = [
        Demand(label=f"A{n}", width=w, length=h, count=count, may_turn=turn)
        for n, (w, h, count) in enumerate(sizes)
    ]
    return plan_strips(demands, usable_width=width, mode=mode)


def never_needs_less(more: StripPlan, less: StripPlan) -> None:
    """Assert that a harder list is no shorter than an easier one can be; of two proven, than it is."""
    assert more.total_length >= less.lower_bound
    if more.proven and less.proven:
        assert more.total_length >= less.total_length


@given(sizes=lists, extra=some.integers(1, 9))
@settings(max_examples=15)
def test_more_pieces_never_need_less(sizes: Sizes, extra: int) -> None:
    more = [(w, h, count + extra) for w, h, count in sizes]
    never_needs_less(planned(more), planned(sizes))


@given(sizes=lists, eighth=some.integers(1, 24))
@settings(max_examples=15)
def test_less_width_never_needs_less(sizes: Sizes, eighth: int) -> None:
    never_needs_less(planned(sizes, width=WIDTH - Fraction(eighth, 8)), planned(sizes))


@given(sizes=lists)
@settings(max_examples=15)
def test_turning_never_needs_more(sizes: Sizes) -> None:
    never_needs_less(planned(sizes), planned(sizes, turn=True))


@given(sizes=lists)
@settings(max_examples=15)
def test_deeper_cuts_never_need_more_and_no_bound_is_longer_than_its_plan(sizes: Sizes) -> None:
    exact, trim, stack = (
        planned(sizes, mode=mode) for mode in (PlanMode.EXACT, PlanMode.TRIM, PlanMode.STACK)
    )
    never_needs_less(exact, trim)
    never_needs_less(trim, stack)
    assert stack.total_length <= trim.total_length
    assert all(plan.lower_bound <= plan.total_length for plan in (exact, trim, stack))
