"""One line in the record for every domain verb that was carried out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bom.models import AuditEntry, Installment, Program

if TYPE_CHECKING:
    from datetime import datetime

    from patterns.models import User


def subject_of(record: Program | Installment) -> str:
    """Name a record as the audit does: "program:demo", "installment:demo/3"."""
    if isinstance(record, Program):
        return f"program:{record.slug}"
    return f"installment:{record.program.slug}/{record.number}"


def record(
    verb: str, *, actor: User | None, subject: str, facts: dict[str, Any], now: datetime
) -> AuditEntry:
    """Write one audit entry; call it inside the verb's own atomic block, so that both stand or fall."""
    return AuditEntry.objects.create(verb=verb, actor=actor, subject=subject, facts=facts, at=now)
