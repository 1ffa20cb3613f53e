"""Strip plans: right length, proven; kind to the cutter; and what holds for every list."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import CENTIMETRE, inches
from patterns.engine.strip_scale import scale_of
from patterns.engine.strips import Demand, PlanMode, StripPlan, plan_strips, sensitivity
from tests.engine.strip_checker import check_plan

FIXTURES = Path(__file__).parents[2] / "fixtures"
# Realistic cut lists with the proven shortest length of each layout, computed independently.
LISTS: list[dict[str, Any]] = json.loads((FIXTURES / "strip_cases.json").read_text("utf-8"))["quilts"]
WIDTH = Fraction(40)


def demand(  # noqa: PLR0917 -- reads as a row of a cut list
    label: str, width: str, length: str, count: int, *, one_way: bool = False
) -> Demand:
    return Demand(label=label, width=inches(width), length=inches(length), count=count, may_turn=not one_way)


def drawn(plan: StripPlan) -> list[str]:
    """Draw each strip as text, one letter a piece: "AAAB x 2"."""
    return [f"{''.join(cut.label for cut in strip.cuts)} x {strip.repeat}" for strip in plan.strips]


@pytest.mark.parametrize("turned", [False, True], ids=["one-way", "turned"])
@pytest.mark.parametrize("mode", [PlanMode.EXACT, PlanMode.TRIM])
@pytest.mark.parametrize("cut_list", LISTS, ids=[each["id"] for each in LISTS])
def test_realistic_lists_meet_their_proven_length(
    cut_list: dict[str, Any], mode: PlanMode, turned: bool
) -> None:
    key = f"{'E' if mode == PlanMode.EXACT else 'N'}_{'rot' if turned else 'fixed'}"
    demands = [
        demand(f"A{n}", piece["w"], piece["h"], piece["n"], one_way=not turned)
        for n, piece in enumerate(cut_list["pieces"], 1)
    ]
    width = Fraction(cut_list["W_in"])
    plan = plan_strips(demands, usable_width=width, mode=mode)
    check_plan(plan.as_data(), demands, usable_width=width)
    assert plan.total_length * 8 == cut_list["results"][key]["optimal_eighths"]
    assert plan.proven


def test_forty_squares_need_three_strips() -> None:
    plan = plan_strips([demand("A", "2 1/2", "2 1/2", 40)], usable_width=WIDTH)
    assert plan.total_length == 3 * inches("2 1/2")
    assert drawn(plan) == ["AAAAAAAAAAAAAA x 2", "AAAAAAAAAAAA x 1"]
    assert plan.needs_width == 35  # 14 across; 16 would fit, but then only on 40 in


def test_of_equal_plans_the_one_for_narrow_fabric_is_taken() -> None:
    """The example of the trade-off: mixing all three in the first strip would need 37 in."""
    squares = [demand("A", "5 1/2", "5 1/2", 3), demand("B", "4 1/2", "4 1/2", 3), demand("C", "4", "4", 8)]
    plan = plan_strips(squares, usable_width=WIDTH)
    assert plan.total_length == inches("5 1/2") + 4
    assert drawn(plan) == ["AAABBB x 1", "CCCCCCCC x 1"]
    assert plan.needs_width == 32


def test_stacks_use_what_is_left_over() -> None:
    """Snowballs: 50 squares of 6 1/2 and 200 of 2 1/2 in, 88 1/2 in without stacks (common practice)."""
    squares = [demand("A", "6 1/2", "6 1/2", 50), demand("B", "2 1/2", "2 1/2", 200)]
    trimmed = plan_strips(squares, usable_width=WIDTH)
    stacked = plan_strips(squares, usable_width=WIDTH, mode=PlanMode.STACK)
    assert trimmed.total_length == inches("88 1/2")
    assert stacked.total_length == 86  # 9 x 6 1/2 + 11 x 2 1/2
    assert stacked.proven
    check_plan(stacked.as_data(), squares, usable_width=WIDTH)


def test_a_print_with_a_direction_is_not_turned() -> None:
    as_written = plan_strips([demand("A", "3", "2", 300, one_way=True)], usable_width=WIDTH)
    turned = plan_strips([demand("A", "3", "2", 300)], usable_width=WIDTH)
    assert (as_written.total_length, turned.total_length) == (48, 45)
    assert not any(cut.turned for strip in as_written.strips for cut in strip.cuts)


def test_a_piece_wider_than_the_fabric_is_named() -> None:
    with pytest.raises(PieceWiderThanFabric) as wide:
        plan_strips([demand("A1", "41", "3", 1, one_way=True)], usable_width=WIDTH)
    assert (wide.value.label, wide.value.width, wide.value.usable_width) == ("A1", 41, 40)
    turned = plan_strips([demand("A1", "41", "3", 1)], usable_width=WIDTH)
    assert turned.total_length == 41


def test_sensitivity_shows_the_cliff() -> None:
    """Sixteen squares of 2 1/2 in fill 40 in to the last thread (common practice, case C16)."""
    rows = sensitivity([demand("A", "2 1/2", "2 1/2", 720)], usable_width=WIDTH)
    assert rows == ((40, Fraction(225, 2)), (Fraction(79, 2), 120), (39, 120))


def test_sensitivity_leaves_out_widths_that_a_piece_does_not_fit() -> None:
    border = [demand("A", "40", "3", 1, one_way=True)]
    assert sensitivity(border, usable_width=WIDTH) == ((40, 3),)
    with pytest.raises(PieceWiderThanFabric):
        sensitivity(border, usable_width=Fraction(39))


def test_nothing_wanted_is_nothing_cut() -> None:
    plan = plan_strips([demand("A", "2", "2", 0)], usable_width=WIDTH)
    assert plan.as_data() == {
        "total_length": "0",
        "lower_bound": "0",
        "proven": True,
        "needs_width": "0",
        "strips": [],
    }


def test_one_size_under_two_labels_shares_its_strips() -> None:
    plan = plan_strips([demand("A", "5", "5", 5), demand("B", "5", "5", 3)], usable_width=WIDTH)
    assert drawn(plan) == ["AAAAABBB x 1"]
    assert plan.strips[0].as_data()["cuts"][5] == {
        "label": "B",
        "x": "25",
        "y": "0",
        "width": "5",
        "length": "5",
        "turned": False,
    }


def test_a_quilt_in_centimetres_is_planned_as_exactly() -> None:
    size = Fraction(65, 10) * CENTIMETRE
    plan = plan_strips([Demand(label="A", width=size, length=size, count=31)], usable_width=105 * CENTIMETRE)
    assert plan.total_length == 2 * size  # 16 in a strip of 104 cm


def test_lengths_too_fine_for_the_search_still_fit() -> None:
    """Odd decimals make the unit tiny: steps across are rounded up, and the bound is the area."""
    odd = [demand("A", "3.14159", "2.71828", 40), demand("B", "1.41421", "5.5", 17)]
    assert not scale_of([(each.width, each.length) for each in odd], WIDTH).exact
    plan = plan_strips(odd, usable_width=WIDTH)
    check_plan(plan.as_data(), odd, usable_width=WIDTH)


def test_a_piece_as_wide_as_the_fabric_fits_however_fine_the_others_are() -> None:
    across, fine = Fraction(10373, 254), Fraction(82675, 2032)
    whole = Demand(label="A", width=across, length=Fraction(575, 127), count=3, may_turn=False)
    strip = Demand(label="B", width=Fraction(575, 127), length=fine, count=2)
    plan = plan_strips([whole, strip], usable_width=across)
    check_plan(plan.as_data(), [whole, strip], usable_width=across)
    assert plan.total_length == 5 * Fraction(575, 127)


def test_the_same_list_gives_the_same_plan_again() -> None:
    cut_list = [demand(f"A{n}", w, h, c) for n, (w, h, c) in enumerate([("5 1/2", "3", 17), ("4", "7", 9)])]
    first = plan_strips(cut_list, usable_width=WIDTH)
    plan_strips.__globals__["_planned"].cache_clear()
    assert plan_strips(cut_list, usable_width=WIDTH) == first


eighths = some.integers(8, 90).map(lambda n: Fraction(n, 8))
few_sizes = some.lists(
    some.tuples(eighths, eighths, some.integers(1, 30), some.booleans()), min_size=1, max_size=3
)


def as_demands(sizes: list[tuple[Fraction, Fraction, int, bool]], *, scale: int = 1) -> list[Demand]:
    return [
        Demand(label=f"A{n}", width=w * scale, length=h * scale, count=count, may_turn=may_turn)
        for n, (w, h, count, may_turn) in enumerate(sizes)
    ]


@given(sizes=few_sizes, mode=some.sampled_from(PlanMode))
@settings(max_examples=15)
def test_any_plan_can_be_cut_and_is_no_shorter_than_its_area(
    sizes: list[tuple[Fraction, Fraction, int, bool]], mode: PlanMode
) -> None:
    demands = as_demands(sizes)
    plan = plan_strips(demands, usable_width=WIDTH, mode=mode)
    check_plan(plan.as_data(), demands, usable_width=WIDTH)
    assert sum(each.width * each.length * each.count for each in demands) <= plan.lower_bound * WIDTH


@given(sizes=few_sizes)
@settings(max_examples=10)
def test_more_pieces_never_need_less_and_cuts_deeper_never_need_more(
    sizes: list[tuple[Fraction, Fraction, int, bool]],
) -> None:
    more = [(w, h, count + 3, may_turn) for w, h, count, may_turn in sizes]
    lengths = {mode: plan_strips(as_demands(sizes), usable_width=WIDTH, mode=mode) for mode in PlanMode}
    assert (
        plan_strips(as_demands(more), usable_width=WIDTH).total_length >= lengths[PlanMode.TRIM].lower_bound
    )
    assert lengths[PlanMode.STACK].total_length <= lengths[PlanMode.TRIM].total_length
    assert lengths[PlanMode.TRIM].lower_bound <= lengths[PlanMode.EXACT].total_length


@given(sizes=few_sizes)
@settings(max_examples=10)
def test_twice_as_large_needs_twice_the_length(sizes: list[tuple[Fraction, Fraction, int, bool]]) -> None:
    once = plan_strips(as_demands(sizes), usable_width=WIDTH)
    twice = plan_strips(as_demands(sizes, scale=2), usable_width=2 * WIDTH)
    assert twice.total_length == 2 * once.total_length
    assert twice.needs_width == 2 * once.needs_width
