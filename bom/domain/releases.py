"""Release: the sweep that follows the clock.  Access never waits for it; it reads the row."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction

from bom.domain.audit import record, subject_of
from bom.domain.planning import derive_instants
from bom.enums import InstallmentState
from bom.models import Installment, Program

if TYPE_CHECKING:
    from datetime import datetime

__all__ = ("derive_all_instants", "due_installments", "release_due")


def due_installments(*, now: datetime) -> list[Installment]:
    """List scheduled installments whose instant has come, earliest first; missed ones are among them."""
    rows = Installment.objects.filter(state=InstallmentState.SCHEDULED, release_at__lte=now)
    return list(rows.select_related("program").order_by("release_at", "pk"))


def release_due(*, now: datetime) -> int:
    """Mark due installments released and give how many this call marked.

    Each row is a transaction of its own: a call that dies goes on where it stopped, and of two calls
    at once only one marks a row.  A second call gives 0.
    """
    return sum(_release(installment, now=now) for installment in due_installments(now=now))


def derive_all_instants() -> int:
    """Work out again the instants of all programs with something scheduled; give how many changed."""
    programs = Program.objects.filter(installments__state=InstallmentState.SCHEDULED).distinct()
    return sum(derive_instants(program) for program in programs)


@transaction.atomic
def _release(installment: Installment, *, now: datetime) -> bool:
    """Mark one row if it is still due; False when another worker was first or it was moved away."""
    still_due = Installment.objects.filter(
        pk=installment.pk, state=InstallmentState.SCHEDULED, release_at__lte=now
    )
    if not still_due.update(state=InstallmentState.RELEASED):
        return False
    facts = {"release_at": str(installment.release_at)}
    record("released", actor=None, subject=subject_of(installment), facts=facts, now=now)
    return True
