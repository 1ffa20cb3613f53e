"""Where a strip plan breaks, and how good a plan is known to be."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import inches
from patterns.engine.strip_cliffs import Cliff, breaks_at_once, cliffs
from patterns.engine.strips import Answer, Demand, StripPlan, plan_strips

WIDTH = Fraction(40)


def square(side: str, count: int) -> Demand:
    return Demand(label=side, width=inches(side), length=inches(side), count=count)


def known(total: str, bound: str) -> StripPlan:
    return StripPlan(
        total_length=inches(total),
        lower_bound=inches(bound),
        needs_width=WIDTH,
        usable_width=WIDTH,
        strips=(),
    )


def test_sixteen_squares_across_break_at_once() -> None:
    """45 strips of sixteen squares of 2 1/2 in; on less than 40 in only fifteen fit (case C16)."""
    squares = [square("2 1/2", 720)]
    assert list(cliffs(squares, usable_width=WIDTH)) == [
        Cliff(needs_width=WIDTH, length=Fraction(225, 2), longer=Fraction(120))
    ]
    assert breaks_at_once(plan_strips(squares, usable_width=WIDTH), squares)


def test_a_cliff_below_the_stated_width_is_found() -> None:
    """21 squares of 1 7/8 in are 39 3/8 in across: 20 strips of 21, or 21 strips of 20."""
    found = list(cliffs([square("1 7/8", 420)], usable_width=WIDTH))
    assert [cliff.needs_width for cliff in found] == [inches("39 3/8")]
    assert found[0].longer == 21 * inches("1 7/8")


def test_a_plan_with_room_does_not_break() -> None:
    squares = [square("2 1/2", 40)]  # 14 across need 35 in
    assert list(cliffs(squares, usable_width=WIDTH)) == []
    assert not breaks_at_once(plan_strips(squares, usable_width=WIDTH), squares)


def test_a_piece_that_no_longer_fits_ends_the_list() -> None:
    border = [Demand(label="A", width=WIDTH, length=inches("3"), count=1, may_turn=False)]
    assert list(cliffs(border, usable_width=WIDTH)) == [
        Cliff(needs_width=WIDTH, length=inches("3"), longer=None)
    ]
    assert breaks_at_once(plan_strips(border, usable_width=WIDTH), border)
    with pytest.raises(PieceWiderThanFabric):
        list(cliffs(border, usable_width=Fraction(39)))


def test_nothing_wanted_has_no_cliff() -> None:
    assert list(cliffs([square("2", 0)], usable_width=WIDTH)) == []


@pytest.mark.parametrize(
    ("total", "bound", "answer"),
    [
        ("9", "9", Answer.PROVEN),
        ("9", "8", Answer.NO_SMALLER_PURCHASE),  # both 1/4 yd
        ("9", "4 1/2", Answer.OPEN),
        ("9 1/8", "9", Answer.OPEN),
    ],
)
def test_how_good_a_plan_is_known_to_be(total: str, bound: str, answer: Answer) -> None:
    plan = known(total, bound)
    assert plan.answer == answer
    assert plan.gap == inches(total) - inches(bound)
