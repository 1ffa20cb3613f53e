"""Who may have which sheet, and from when: read from the rows, never from a flag that a sweep sets."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from bom.enums import InstallmentState
from shops.enums import Place, Takes

if TYPE_CHECKING:
    from bom.models import Installment
    from shops.models import SignUp, Terms

_DATED = (InstallmentState.SCHEDULED, InstallmentState.RELEASED)


def opens_at(installment: Installment, terms: Terms) -> datetime | None:
    """Give the instant from which a shop's people may have the sheet; None while it is not scheduled.

    A shop may hold a sheet back by its hours, never advance it.
    """
    if installment.state not in _DATED or installment.release_at is None:
        return None
    return installment.release_at + timedelta(hours=terms.hold_hours)


def has_opened(sign_up: SignUp, installment: Installment, *, now: datetime) -> bool:
    """Whether this seat takes part in the installment and its instant has come.

    False for a waiting place, another program, an installment before the one the person joined at,
    and one that opened after the person left.  The day of leaving is a day of the shop's zone and
    still counts.
    """
    terms = sign_up.terms
    opening = opens_at(installment, terms)
    if opening is None or opening > now or sign_up.place != Place.SEAT:
        return False
    if installment.program_id != terms.program_id or installment.number < sign_up.first_installment:
        return False
    left = sign_up.left_on
    return left is None or opening.astimezone(ZoneInfo(terms.shop.zone)).date() <= left


def may_have(sign_up: SignUp, installment: Installment, *, now: datetime) -> bool:
    """Whether this sign-up may have the installment's sheet now."""
    return sign_up.takes != Takes.PACKET and has_opened(sign_up, installment, now=now)
