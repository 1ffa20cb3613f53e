"""Strip plans in words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patterns.domain.strip_words import (
    answer_words,
    cliff_words,
    cutting_order,
    near_words,
    order_lead,
    proof_words,
)
from patterns.engine.measure import Units
from patterns.engine.strip_cliffs import Cliff
from patterns.engine.strips import Demand, PlanMode, plan_strips
from patterns.engine.yardage import Allowances

Q = Fraction
IN = Units.INCHES


def demand(label: str, count: int, side: Fraction) -> Demand:
    return Demand(label=label, width=side, length=side, count=count)


def test_the_order_says_every_cut_of_every_strip() -> None:
    """8 x 4 1/2 + 1 x 4 = 40 in: one strip 4 1/2 in wide, its last piece cut down."""
    plan = plan_strips([demand("A1", 8, Q(9, 2)), demand("A2", 1, Q(4))], usable_width=Q(40))
    (order,) = cutting_order(plan, IN)
    assert order.strips == "1 strip 4 1/2 in wide, across the fabric"
    assert order.pieces == ("8 × A1, 4 1/2 in long", "1 × A2, 4 in long, then cut down to 4 in")
    assert order_lead(plan).startswith("Cut each strip across")


def test_strips_alike_are_one_line_and_the_widest_come_first() -> None:
    plan = plan_strips([demand("A1", 4, Q(10)), demand("A2", 40, Q(2))], usable_width=Q(40))
    assert [order.strips for order in cutting_order(plan, IN)] == [
        "1 strip 10 in wide, across the fabric",
        "2 strips 2 in wide, across the fabric",
    ]
    assert "the widest first" in order_lead(plan)


def test_stacks_are_cut_again() -> None:
    plan = plan_strips(
        [demand("A1", 5, Q(13, 2)), demand("A2", 6, Q(5, 2))],
        usable_width=Q(40),
        mode=PlanMode.STACK,
    )
    words = [piece for order in cutting_order(plan, IN) for piece in order.pieces]
    assert words[1] == "3 × 2 1/2 in long, each cut again into A2 2 1/2 in, A2 2 1/2 in"


def test_the_answer_is_said_in_the_same_three_words_beside_a_length() -> None:
    plan, allowances = plan_strips([demand("A1", 40, Q(5, 2))], usable_width=Q(40)), Allowances()
    assert answer_words(plan, allowances, IN) == "Proven: no layout in strips takes less."
    near, far = replace(plan, lower_bound=Q(7)), replace(plan, lower_bound=Q(2))
    assert answer_words(near, allowances, IN) == "No smaller purchase is possible: at least 7 in is needed."
    assert answer_words(far, allowances, IN) == "No layout in strips takes less than 2 in; 5 1/2 in is open."


def test_proven_no_smaller_purchase_or_the_gap() -> None:
    plan = plan_strips([demand("A1", 40, Q(5, 2))], usable_width=Q(40))
    assert proof_words(plan, Allowances(), IN) == "Minimum 7 1/2 in, proven: no layout in strips takes less."
    open_plan = replace(plan, lower_bound=Q(29, 4))
    assert "no smaller purchase is possible: at least 7 1/4 in is needed" in proof_words(
        open_plan, Allowances(), IN
    )
    far = replace(plan, lower_bound=Q(3))
    assert "less than 3 in, up to 4 1/2 in is open" in proof_words(far, Allowances(), IN)


def test_nearly_equal_strips_are_pointed_out() -> None:
    """Six strips of 6 1/4 in and six of 6 in: all of 6 1/4 in take 6 x 1/4 = 1 1/2 in more."""
    plan = plan_strips([demand("A1", 36, Q(25, 4)), demand("A2", 36, Q(6))], usable_width=Q(40))
    (words,) = near_words(plan, IN)
    assert (
        words
        == "Strips of 6 1/4 in and 6 in are nearly equal: cut all 6 1/4 in wide, it takes 1 1/2 in more."
    )
    apart = plan_strips([demand("A1", 36, Q(13, 2)), demand("A2", 36, Q(6))], usable_width=Q(40))
    assert near_words(apart, IN) == ()


def test_a_cliff_close_by_comes_with_a_warning() -> None:
    near = Cliff(needs_width=Q(40), length=Q(225, 2), longer=Q(120))
    far = Cliff(needs_width=Q(39), length=Q(120), longer=None)
    first, second = cliff_words([near, far], usable_width=Q(40), units=IN)
    assert first == (
        "Narrower than 40 in of usable width: 120 in in place of 112 1/2 in. "
        "Half an inch less costs another strip: measure the fabric first."
    )
    assert second == "Narrower than 39 in of usable width: a piece no longer fits across."
