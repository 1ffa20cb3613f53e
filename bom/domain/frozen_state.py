"""The present state of all that the fabric freeze fixes, and how it differs from the frozen one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.frozen import Break, need_breaks, needs_data, part_breaks, parts_data
from bom.domain.keeping import hash_of
from bom.domain.packets import packets
from bom.domain.records import buying_numbers, colorway_numbers, read_colorways
from bom.models import Program

if TYPE_CHECKING:
    from bom.domain.frozen import Data


@dataclass(frozen=True, slots=True, kw_only=True)
class FrozenState:
    """Parts by installment, needs by colorway, and the hash of every number they follow from."""

    parts: Data
    needs: Data
    hash: str


def present_state(program: Program) -> FrozenState:
    """Work the whole year out as it would be frozen now."""
    work = work_of(program)
    year = {each.slug: packets(program, work, each) for each in read_colorways(program)}
    return FrozenState(parts=parts_data(work), needs=needs_data(year), hash=present_hash(program))


def present_hash(program: Program) -> str:
    """Hash every number that the freeze fixes: the work, the colorways and their cloths, the allowances."""
    cloths = [(each.slug, colorway_numbers(each)) for each in read_colorways(program)]
    return hash_of([work_of(program).content_hash, cloths, buying_numbers(program)])


def what_breaks(program: Program) -> tuple[Break, ...]:
    """Compare the present numbers with the frozen ones, by installment; empty before the freeze.

    ProgramError where the present records cannot be worked out at all.
    """
    stored = Program.objects.select_related("quilt").get(pk=program.pk)
    if not stored.is_frozen or present_hash(stored) == stored.frozen_hash:
        return ()
    now = present_state(stored)
    breaks = (*part_breaks(stored.frozen_work, now.parts), *need_breaks(stored.frozen_need, now.needs))
    return tuple(sorted(breaks, key=lambda each: each.number))
