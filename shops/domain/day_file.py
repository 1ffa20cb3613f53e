"""The days of a program as a calendar file (RFC 5545)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from icalendar import Calendar, Event

from shops.domain.entitlement import opens_at

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from bom.models import Installment
    from shops.models import SignUp

PRODUCT = "-//Block of the month//Release days//EN"


def release_days(sign_up: SignUp, installments: Iterable[Installment], *, now: datetime) -> bytes:
    """Write the instants from which this person may have each sheet; instants are UTC.

    Installments that are not scheduled are left out.  UIDs stay the same, so that a second import
    moves a postponed day instead of doubling it.
    """
    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", sign_up.terms.program.title)
    for installment in installments:
        opening = opens_at(installment, sign_up.terms)
        if opening is not None:
            calendar.add_component(_event(sign_up, installment, opening=opening, now=now))
    return bytes(calendar.to_ical())


def _event(sign_up: SignUp, installment: Installment, *, opening: datetime, now: datetime) -> Event:
    """Make one event without a length."""
    terms = sign_up.terms
    event = Event()
    event.add("uid", f"{terms.program.slug}-{installment.number}-{sign_up.pk}@block-of-the-month")
    event.add("dtstamp", now)
    event.add("dtstart", opening)
    event.add(
        "summary",
        _("%(program)s %(number)s: %(title)s")
        % {"program": terms.program.title, "number": installment.number, "title": installment.title},
    )
    if terms.pick_up:
        event.add("description", f"{terms.shop.name}: {terms.pick_up}")
    return event
