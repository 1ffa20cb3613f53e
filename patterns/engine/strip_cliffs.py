"""Where a strip plan breaks: the widths below which it takes more fabric."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.strip_types import Demand, StripPlan
from patterns.engine.strips import PlanMode, plan_strips

_STEP = Fraction(1, 8)  # so much narrower than a plan needs is where it breaks
_DEPTH = Fraction(2)  # inches below the stated width that are looked at
LESS = Fraction(1, 2)  # by which fabrics of one name differ


@dataclass(frozen=True, slots=True, kw_only=True)
class Cliff:
    """Fabric narrower than `needs_width` takes `longer` inches in place of `length`.

    `longer` is None where a piece no longer fits across.
    """

    needs_width: Fraction
    length: Fraction
    longer: Fraction | None


def cliffs(
    demands: Iterable[Demand], *, usable_width: Fraction, mode: PlanMode = PlanMode.TRIM
) -> Iterator[Cliff]:
    """Give the widths within 2 in below the stated one at which the plan gets longer, widest first.

    Raises PieceWiderThanFabric when a piece does not fit the stated width.
    """
    wanted = tuple(demand for demand in demands if demand.count)
    plan = plan_strips(wanted, usable_width=usable_width, mode=mode)
    while wanted and plan.needs_width > usable_width - _DEPTH:
        narrower = _planned(wanted, plan.needs_width - _STEP, mode)
        longer = narrower.total_length if narrower else None
        if longer is None or longer > plan.total_length:
            yield Cliff(needs_width=plan.needs_width, length=plan.total_length, longer=longer)
        if narrower is None:
            return
        plan = narrower


def breaks_at_once(plan: StripPlan, demands: Iterable[Demand]) -> bool:
    """Whether fabric 1/2 in narrower than the plan's takes more; plans of strips with trimming."""
    if plan.needs_width <= plan.usable_width - LESS:
        return False
    narrower = _planned(tuple(demands), plan.usable_width - LESS, PlanMode.TRIM)
    return narrower is None or narrower.total_length > plan.total_length


def _planned(demands: tuple[Demand, ...], width: Fraction, mode: PlanMode) -> StripPlan | None:
    try:
        return plan_strips(demands, usable_width=width, mode=mode)
    except PieceWiderThanFabric:
        return None
