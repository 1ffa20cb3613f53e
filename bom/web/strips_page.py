"""What the page of a strip plan shows: the picture, the proof, narrower cloth, the order of cutting."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from bom.domain.lengths import units_of, write_length
from bom.domain.packets import allowances_of
from bom.domain.precut_choices import cloth_text, precut_choices, precut_text
from patterns.domain.cut_list_reading import write_lines
from patterns.domain.pictures import strip_plan_svg
from patterns.domain.strip_words import cliff_words, cutting_order, near_words, order_lead, proof_words
from patterns.domain.wording import fabric_text, fractions_html, length_text
from patterns.engine.strip_cliffs import cliffs
from patterns.engine.strips import PlanMode, plan_strips, sensitivity

if TYPE_CHECKING:
    from fractions import Fraction

    from bom.models import Program
    from patterns.engine.hatches import Cloth
    from patterns.engine.measure import Units
    from patterns.engine.strips import Demand, StripPlan

PLAN_PX = 760


def strips_page(
    plan: StripPlan, demands: tuple[Demand, ...], *, mode: PlanMode, program: Program, cloth: Cloth
) -> dict[str, Any]:
    """Gather what the page shows of one plan, with the program's allowances."""
    units, allowances = units_of(program), allowances_of(program)
    return {
        "plan": plan,
        "picture": strip_plan_svg(plan, cloth=cloth, width_px=PLAN_PX, units=units),
        "proof": fractions_html(proof_words(plan, allowances, units)),
        "needs": fractions_html(length_text(plan.needs_width, units)),
        "suggested": allowances.suggested(plan.total_length),
        "squaring": allowances.squaring_up,
        "order_lead": order_lead(plan),
        "order": [
            (fractions_html(each.strips), [fractions_html(words) for words in each.pieces])
            for each in cutting_order(plan, units)
        ],
        "near": [fractions_html(words) for words in near_words(plan, units)],
        "edges": [fractions_html(words) for words in _edges(plan, demands, mode=mode, units=units)],
        "narrower": _narrower(plan, demands, mode=mode, program=program),
        "share": _share(plan, demands),
    }


def _edges(plan: StripPlan, demands: tuple[Demand, ...], *, mode: PlanMode, units: Units) -> tuple[str, ...]:
    """Say where the plan breaks."""
    found = cliffs(demands, usable_width=plan.usable_width, mode=mode)
    return cliff_words(found, usable_width=plan.usable_width, units=units)


def _narrower(
    plan: StripPlan, demands: tuple[Demand, ...], *, mode: PlanMode, program: Program
) -> list[dict[str, Any]]:
    """Give the plan's length at its width, at 1/2 in and at 1 in less; a cliff is marked."""
    units, allowances = units_of(program), allowances_of(program)
    rows = sensitivity(demands, usable_width=plan.usable_width, mode=mode)
    least = rows[0][1]
    bought = allowances.suggested(least)
    return [
        {
            "width": fractions_html(length_text(width, units)),
            "length": fractions_html(length_text(length, units)),
            "bought": fractions_html(fabric_text(allowances.suggested(length), units)),
            "more": length > least,
            "buys_more": allowances.suggested(length) > bought,
        }
        for width, length in rows
    ]


def _share(plan: StripPlan, demands: tuple[Demand, ...]) -> int:
    """Give the percent of the planned fabric that the pieces cover, rounded down."""
    used: Fraction | int = sum(each.width * each.length * each.count for each in demands)
    area = plan.total_length * plan.usable_width
    return int(100 * used / area) if area else 0


def from_left_overs(
    plan: StripPlan, demands: tuple[Demand, ...], *, mode: PlanMode, program: Program
) -> dict[str, Any]:
    """Give the plan that also cuts from what is left, where less is bought by it; else nothing."""
    if mode == PlanMode.STACK:
        return {}
    allowances = allowances_of(program)
    deeper = plan_strips(demands, usable_width=plan.usable_width, mode=PlanMode.STACK)
    buy, now = allowances.suggested(deeper.total_length), allowances.suggested(plan.total_length)
    if buy >= now:
        return {}
    write = partial(write_length, units=units_of(program))
    again = {"pieces": write_lines(demands, write=write), "width": write(plan.usable_width)}
    return {"deeper": {"plan": deeper, "buy": buy, "now": now, "again": {**again, "mode": PlanMode.STACK}}}


def in_precuts(program: Program, demands: tuple[Demand, ...], *, nominal_width: Fraction) -> dict[str, Any]:
    """Give the allowed precuts that the list can be cut from, the least cloth first."""
    units = units_of(program)
    found = precut_choices(program, demands, nominal_width=nominal_width)
    rows = [
        (fractions_html(precut_text(each.plan)), fractions_html(cloth_text(each, units))) for each in found
    ]
    return {"precuts": rows}
