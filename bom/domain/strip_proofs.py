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
from bom.domain.frozen import frozen_minimum
from bom.domain.keeping import hash_of
from bom.domain.packets import packets
from bom.domain.records import read_colorways
from bom.models import StripProof
from patterns.engine.strips import Demand, PlanMode, plan_strips

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from bom.domain.packets import FabricLine, Packet
    from bom.models import Program
    from patterns.engine.strips import StripPlan

_EFFORT = 20  # a worker has more time than a page


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


def note_packets(listed: Iterable[Packet]) -> int:
    """Keep the open lists of packets for the worker; tell how many are open.  Two queries at most."""
    rows = {row.key: row for each in listed for line in each.lines if (row := _row(line))}
    if rows:
        known = set(StripProof.objects.filter(key__in=rows).values_list("key", flat=True))
        new = [row for key, row in rows.items() if key not in known]
        StripProof.objects.bulk_create(new, ignore_conflicts=True)
    return len(rows)


def offers(program: Program) -> Iterator[Offer]:
    """Tell of which packets a shorter plan is known than they hold; keep open lists for the worker.

    After the fabric freeze a packet holds what was frozen, whatever would be planned now.
    ProgramError where the program cannot be worked out.
    """
    work = work_of(program)
    listed = [each for colorway in read_colorways(program) for each in packets(program, work, colorway)]
    note_packets(listed)
    found = _found(listed)
    needs = program.frozen_need if program.is_frozen else {}
    for each in listed:
        for line in each.lines:
            saved = _saved(line, frozen_minimum(needs, each, line), found)
            if saved > 0:
                yield Offer(
                    number=each.number,
                    colorway=each.colorway.name,
                    fabric=line.fabric.name,
                    letters=line.letters,
                    saved=saved,
                )


def _found(listed: Iterable[Packet]) -> dict[str, Fraction]:
    """Give the shortest length known of every open list, by its key."""
    keys = {row.key for each in listed for line in each.lines if (row := _row(line))}
    rows = StripProof.objects.filter(key__in=keys) if keys else ()
    return {row.key: Fraction(row.found) for row in rows}


def _saved(line: FabricLine, frozen: Fraction | None, found: Mapping[str, Fraction]) -> Fraction:
    plan, row = line.line.plan, _row(line)
    if plan is None or not line.is_length:
        return Fraction(0)
    known = min(plan.total_length, found.get(row.key, plan.total_length) if row else plan.total_length)
    return (plan.total_length if frozen is None else frozen) - known


def _row(line: FabricLine) -> StripProof | None:
    """Give the row of an open plan, as yet unkept; None where there is nothing to prove."""
    plan = line.line.plan
    if plan is None or plan.proven or not line.is_length:
        return None
    facts = _facts(plan, line.demands, PlanMode.TRIM)
    return StripProof(key=hash_of(facts), **facts, bound=str(plan.lower_bound), found=str(plan.total_length))


def _prove(row: StripProof) -> None:
    demands = [
        Demand(label=str(at), width=Fraction(width), length=Fraction(length), count=count, may_turn=may_turn)
        for at, (width, length, count, may_turn) in enumerate(row.demands)
    ]
    plan = plan_strips(
        demands,
        usable_width=Fraction(row.usable_width),
        mode=PlanMode(row.mode),
        effort=_EFFORT,
    )
    row.bound = str(max(Fraction(row.bound), plan.lower_bound))
    row.found = str(min(Fraction(row.found), plan.total_length))
    row.is_tried = True
    row.save(update_fields=("bound", "found", "is_tried"))


def _facts(plan: StripPlan, demands: Iterable[Demand], mode: PlanMode) -> dict[str, object]:
    rows = [[str(each.width), str(each.length), each.count, each.may_turn] for each in demands if each.count]
    return {"demands": rows, "usable_width": str(plan.usable_width), "mode": mode.value}
