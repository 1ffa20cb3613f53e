"""Packets that were cut already and that a change since the fabric freeze has touched."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.frozen import BACKING, needs_data
from bom.domain.need_changes import need_changes
from bom.domain.packets import packets
from bom.domain.records import read_colorways
from shops.models import CutCount

if TYPE_CHECKING:
    from bom.domain.need_changes import NeedChange
    from bom.models import Program


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchedCut:
    """Cuts of one shop whose packet needs another length now than when the fabric was frozen."""

    count: CutCount
    change: NeedChange


def touched_cuts(program: Program) -> list[TouchedCut]:
    """List what was cut and has changed since; nothing before the freeze.  ProgramError as the chain."""
    made = CutCount.objects.filter(terms__program=program, made__gt=0)
    found = list(
        made.select_related("terms__shop", "installment", "fabric").order_by("terms__shop__name", "pk")
    )
    if not (program.frozen_need and found):
        return []
    work = work_of(program)
    now = needs_data({each.slug: packets(program, work, each) for each in read_colorways(program)})
    changes = need_changes(program.frozen_need, now)
    return [
        TouchedCut(count=count, change=change)
        for count in found
        for change in changes
        if change.number == count.installment.number
        and change.cloth.removesuffix(BACKING) == f"{count.fabric.number} {count.fabric.name}"
    ]
