"""What a designer suggests that a month costs.  Shops set their own price; nothing is reckoned from it."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from django.db import transaction

from bom.domain.audit import record, subject_of

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Program
    from patterns.models import User


@transaction.atomic
def suggest_price(
    program: Program, *, amount: Decimal | None, currency: str, by: User, now: datetime
) -> None:
    """Keep the suggestion, or none; the same again changes and records nothing."""
    kept = (amount, currency if amount is not None else "")
    if (program.suggested_monthly, program.suggested_currency) == kept:
        return
    program.suggested_monthly, program.suggested_currency = kept
    program.save(update_fields=("suggested_monthly", "suggested_currency"))
    facts = {"amount": None if amount is None else str(amount), "currency": kept[1]}
    record("suggest price", actor=by, subject=subject_of(program), facts=facts, now=now)
