"""The fabric freeze: from then on drawings, sizes, methods, cloths and needs stay as they are."""

from __future__ import annotations

from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain import audit
from bom.domain.frozen import Break
from bom.domain.frozen_state import present_state, what_breaks
from bom.domain.proofs import prove_program
from bom.enums import GateName
from bom.errors import FabricIsFrozen, ProofStops, WrongState
from bom.models import Program

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime

    from patterns.models import User

__all__ = ("Break", "freeze_fabric", "guard_change", "what_breaks")


def freeze_fabric(program: Program, *, by: User, now: datetime) -> Program:
    """Pass the fabric freeze, once, and give the program as stored.

    Stores every part and need of the year, so that what would break can be said later.  ProofStops
    where the proof stops, WrongState when it is frozen already; then nothing is stored.
    """
    prove_program(program)  # kept by content, so that the lock below is held briefly
    with transaction.atomic():
        locked = Program.objects.select_for_update().get(pk=program.pk)
        _refuse(locked)
        state = present_state(locked)
        locked.frozen_at, locked.frozen_by = now, by
        locked.frozen_work, locked.frozen_need = state.parts, state.needs
        locked.frozen_hash = state.hash
        locked.save(update_fields=("frozen_at", "frozen_by", "frozen_work", "frozen_need", "frozen_hash"))
        _pass_gates(locked, now)
        facts = {"hash": state.hash}
        audit.record("freeze fabric", actor=by, subject=audit.subject_of(locked), facts=facts, now=now)
    return locked


def guard_change(program: Program, apply: Callable[[], object]) -> None:
    """Carry out a change of the records, or none of it.

    Raises FabricIsFrozen, its fact `breaks` a tuple of Break, when the program is frozen and the
    change touches a frozen drawing, size, method, cloth or letter, or raises a need.  Words pass.
    """
    with transaction.atomic():
        Program.objects.select_for_update().get(pk=program.pk)
        apply()
        breaks = what_breaks(program)
        if breaks:
            remedy = _("The fabric is frozen and shops order from its numbers. This would break it: {what}.")
            raise FabricIsFrozen("frozen_at", remedy, what=_words(breaks), breaks=breaks)


def _words(breaks: tuple[Break, ...]) -> str:
    """Name installments, and what each would lose, once."""
    found: dict[int, dict[str, None]] = {}
    for each in breaks:
        found.setdefault(each.number, {})[f"{each.place} ({each.what})"] = None
    return "; ".join(f"{number}: {', '.join(places)}" for number, places in found.items())


def _refuse(program: Program) -> None:
    if program.is_frozen:
        raise WrongState("frozen_at", _("The fabric freeze has been passed already."))
    stops = [each.number for each in prove_program(program).installments if each.stops]
    if stops:
        remedy = _("Put right what stops the proof first: installment {installments}.")
        raise ProofStops("proof", remedy, installments=", ".join(str(number) for number in stops))


def _pass_gates(program: Program, now: datetime) -> None:
    day = now.astimezone(ZoneInfo(program.zone)).date()
    for name in (GateName.PROOF, GateName.FABRIC_FREEZE):
        program.gates.get_or_create(name=name, defaults={"passed_on": day})
