"""The fabric freeze: from then on drawings, sizes, methods, cloths and needs stay as they are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain import audit
from bom.domain.chain import work_of
from bom.domain.frozen import Break, need_breaks, needs_data, part_breaks, parts_data
from bom.domain.keeping import hash_of
from bom.domain.packets import packets
from bom.domain.proofs import prove_program
from bom.domain.records import buying_numbers, colorway_numbers, read_colorways
from bom.enums import GateName
from bom.errors import FabricIsFrozen, ProofStops, WrongState
from bom.models import Program

if TYPE_CHECKING:
    from datetime import datetime

    from bom.domain.frozen import Data
    from patterns.models import User

__all__ = ("Break", "freeze_fabric", "guard_change", "present_hash", "what_breaks")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Numbers:
    """All that the freeze fixes, and the hash of it."""

    parts: Data
    needs: Data
    hash: str


def freeze_fabric(program: Program, *, by: User, now: datetime) -> Program:
    """Pass the fabric freeze, once, and give the program as stored.

    Stores every part and need of the year, so that what would break can be said later.  ProofStops
    where the proof stops, WrongState when it is frozen already; then nothing is stored.
    """
    prove_program(program)  # kept by content, so that the lock below is held briefly
    with transaction.atomic():
        locked = Program.objects.select_for_update().get(pk=program.pk)
        _refuse(locked)
        numbers = _present(locked)
        locked.frozen_at, locked.frozen_by = now, by
        locked.frozen_work, locked.frozen_need = numbers.parts, numbers.needs
        locked.frozen_hash = numbers.hash
        locked.save(update_fields=("frozen_at", "frozen_by", "frozen_work", "frozen_need", "frozen_hash"))
        _pass_gates(locked, now)
        facts = {"hash": numbers.hash}
        audit.record("freeze fabric", actor=by, subject=audit.subject_of(locked), facts=facts, now=now)
    return locked


def what_breaks(program: Program) -> tuple[Break, ...]:
    """Compare the present numbers with the frozen ones, by installment; empty before the freeze."""
    stored = Program.objects.get(pk=program.pk)
    if not stored.is_frozen or present_hash(stored) == stored.frozen_hash:
        return ()
    now = _present(stored)
    parts = part_breaks(stored.frozen_work, now.parts)
    return tuple(sorted((*parts, *need_breaks(stored.frozen_need, now.needs)), key=lambda each: each.number))


def guard_change(program: Program, apply: Callable[[], None]) -> None:
    """Carry out a change of the records, or none of it.

    Raises FabricIsFrozen, its fact `breaks` a tuple of Break, when the program is frozen and the
    change touches a frozen drawing, size, method, cloth or letter, or raises a need.  Words pass.
    """
    with transaction.atomic():
        Program.objects.select_for_update().get(pk=program.pk)
        apply()
        breaks = what_breaks(program)
        if breaks:
            raise FabricIsFrozen(
                "frozen_at",
                _(
                    "The fabric is frozen: shops order from these numbers. Keep the drawing and sizes as they are."
                ),
                breaks=breaks,
            )


def present_hash(program: Program) -> str:
    """Hash every number that the freeze fixes: the work, the colorways and their cloths, the allowances."""
    cloths = [(each.slug, colorway_numbers(each)) for each in read_colorways(program)]
    return hash_of([work_of(program).content_hash, cloths, buying_numbers(program)])


def _refuse(program: Program) -> None:
    if program.is_frozen:
        raise WrongState("frozen_at", _("The fabric freeze has been passed already."))
    stops = [each.number for each in prove_program(program).installments if each.stops]
    if stops:
        remedy = _("Put right what stops the proof first: installment {installments}.")
        raise ProofStops("proof", remedy, installments=", ".join(str(number) for number in stops))


def _present(program: Program) -> _Numbers:
    work = work_of(program)
    year = {each.slug: packets(program, work, each) for each in read_colorways(program)}
    return _Numbers(parts=parts_data(work), needs=needs_data(year), hash=present_hash(program))


def _pass_gates(program: Program, now: datetime) -> None:
    day = now.astimezone(ZoneInfo(program.zone)).date()
    for name in (GateName.PROOF, GateName.FABRIC_FREEZE):
        program.gates.get_or_create(name=name, defaults={"passed_on": day})
