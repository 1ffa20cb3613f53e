"""Hard strip plans, proven by a worker after they were shown.

A proof raises the bound of a plan and never replaces the plan: a shorter one is offered.  One row per
list; the row is the queue, and a list that was tried is not tried again.  At least once: a worker that
stops in the middle leaves its row to the next.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.keeping import hash_of
from bom.domain.packets import packets
from bom.domain.records import read_colorways
from bom.models import StripProof
from patterns.engine.strips import Demand, PlanMode, plan_strips

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bom.domain.packets import FabricLine
    from bom.models import Program
    from patterns.engine.strips import StripPlan

_EFFORT = 20  # a worker has more time than a page
_SECONDS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A plan of one fabric that is `saved` inches shorter than the one that the packet holds."""

    number: int
    colorway: str
    fabric: str
    letters: tuple[str, ...]
    saved: Fraction


def note(plan: StripPlan, demands: Iterable[Demand], *, mode: PlanMode = PlanMode.TRIM) -> StripPlan:
    """Give the plan with the best bound known; keep the list for the worker where that is open."""
    if plan.proven:
        return plan
    facts = _facts(plan, demands, mode)
    lengths = {"bound": str(plan.lower_bound), "found": str(plan.total_length)}
    row, _ = StripProof.objects.get_or_create(key=hash_of(facts), defaults=facts | lengths)
    bound = max(plan.lower_bound, Fraction(row.bound))
    return replace(plan, lower_bound=min(bound, plan.total_length))


def prove_waiting(*, limit: int) -> int:
    """Prove so many lists that wait; tell how many were."""
    rows = list(StripProof.objects.filter(is_tried=False)[:limit])
    for row in rows:
        _prove(row)
    return len(rows)


def offers(program: Program) -> Iterator[Offer]:
    """Tell of which packets a shorter plan was found than they hold; keep open lists for the worker.

    ProgramError where the program cannot be worked out.
    """
    work = work_of(program)
    for colorway in read_colorways(program):
        for each in packets(program, work, colorway):
            for line in each.lines:
                saved = _saved(line)
                if saved > 0:
                    yield Offer(
                        number=each.number,
                        colorway=colorway.name,
                        fabric=line.fabric.name,
                        letters=line.letters,
                        saved=saved,
                    )


def _saved(line: FabricLine) -> Fraction:
    plan = line.line.plan
    if plan is None or plan.proven:
        return Fraction(0)
    note(plan, line.demands)
    row = StripProof.objects.get(key=hash_of(_facts(plan, line.demands, PlanMode.TRIM)))
    return plan.total_length - Fraction(row.found)


def _prove(row: StripProof) -> None:
    demands = [
        Demand(label=str(at), width=Fraction(width), length=Fraction(length), count=count, may_turn=may_turn)
        for at, (width, length, count, may_turn) in enumerate(row.demands)
    ]
    plan = plan_strips(
        demands,
        usable_width=Fraction(row.usable_width),
        mode=PlanMode(row.mode),
        seconds=_SECONDS,
        effort=_EFFORT,
    )
    row.bound = str(max(Fraction(row.bound), plan.lower_bound))
    row.found = str(min(Fraction(row.found), plan.total_length))
    row.is_tried = True
    row.save(update_fields=("bound", "found", "is_tried"))


def _facts(plan: StripPlan, demands: Iterable[Demand], mode: PlanMode) -> dict[str, object]:
    rows = [[str(each.width), str(each.length), each.count, each.may_turn] for each in demands if each.count]
    return {"demands": rows, "usable_width": str(plan.usable_width), "mode": mode.value}
