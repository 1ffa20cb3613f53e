"""The mail that confirms a sign-up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.db import transaction
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import override

from bom.domain.letters import queue_letter
from patterns.domain.wording import instant_text, money_text, zone_text
from shops.domain.costs import cost_of
from shops.domain.entitlement import opens_at
from shops.domain.sign_ups import Wish, sign_up
from shops.domain.year_rows import installments_of
from shops.enums import Place

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Installment
    from shops.models import SignUp, Terms


@transaction.atomic
def sign_up_by_mail(*, terms: Terms, wish: Wish, now: datetime) -> SignUp:
    """Sign up and queue the mail that says so, both or neither; again, it changes and sends nothing."""
    made, _new = sign_up(terms=terms, wish=wish, now=now)
    confirm(made)
    return made


def confirm(place: SignUp) -> bool:
    """Queue the mail with the place, the cost, the first day and the way to sign in; once per sign-up."""
    user = place.participant.user
    installments = installments_of(place.terms.program)
    with override(user.language):
        context = _facts(place, installments)
    return queue_letter(
        "sign_up", key=f"sign-up:{place.pk}", to=user.email, language=user.language, context=context
    )


def _facts(place: SignUp, installments: list[Installment]) -> dict[str, Any]:
    """Gather what the mail says."""
    terms, user = place.terms, place.participant.user
    cost = cost_of(terms, installments, takes=place.takes)
    first = min((at for each in installments if (at := opens_at(each, terms))), default=None)
    return {
        "sign_up": place,
        "terms": terms,
        "shop": terms.shop,
        "program": terms.program,
        "name": user.name,
        "seat": place.place == Place.SEAT,
        "url": settings.SITE_URL.rstrip("/") + reverse("my-program", args=[place.pk]),
        "facts": _lines(place, first=first, to_pay=money_text(cost.to_pay, cost.currency)),
        "language": user.language,
    }


def _lines(place: SignUp, *, first: datetime | None, to_pay: str) -> list[tuple[str, str]]:
    """Give names and values, those that are known."""
    terms, zone = place.terms, place.participant.user.zone
    lines = [
        (_("Name on the packet"), place.packet_name),
        (_("Colorway"), place.colorway.name),
        (_("Each month"), str(place.get_takes_display())),
        (_("To pay at the shop, in all"), to_pay),
        (_("Pick-up"), terms.pick_up),
        (_("First sheet"), f"{instant_text(first, zone, year=True)}, {zone_text(zone)}" if first else ""),
    ]
    return [(name, value) for name, value in lines if value]
