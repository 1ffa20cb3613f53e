"""The mails of a substitution: to exactly the people whose print another fabric stands in for, each once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.db import transaction
from django.urls import reverse

from bom.domain.letters import queue_letter
from shops.domain.swaps import SwapPlace, adopt, replaced, take_back, touched
from shops.enums import Takes

if TYPE_CHECKING:
    from datetime import datetime

    from patterns.models import Fabric, User
    from shops.domain.swaps import Touched
    from shops.models import SignUp, Swap


@transaction.atomic
def adopt_by_mail(place: SwapPlace, fabric: Fabric, *, by: User, now: datetime) -> int:
    """Substitute and tell whom it touches, both or neither; give how many mails were queued.

    WrongState as `adopt`; then nobody is told.
    """
    swap = adopt(place, fabric, by=by, now=now)
    return tell_of_swap(swap)


@transaction.atomic
def take_back_by_mail(swap: Swap, *, by: User, now: datetime) -> int:
    """Give the designer's fabric back and tell the same people; WrongState as `take_back`."""
    key, place = swap.pk, _place(swap)
    found = touched(place)
    take_back(swap, by=by, now=now)
    return _tell(place, found, swap.fabric, key=f"substitute-taken-back:{key}", is_back=True)


def tell_of_swap(swap: Swap) -> int:
    """Queue the mails of a substitution that were not queued before; a second call queues none."""
    place = _place(swap)
    return _tell(place, touched(place), swap.fabric, key=f"substitute:{swap.pk}")


def _place(swap: Swap) -> SwapPlace:
    return SwapPlace(
        terms=swap.terms, colorway=swap.colorway, letter=swap.letter, number=swap.from_installment
    )


def _tell(place: SwapPlace, found: Touched, fabric: Fabric, *, key: str, is_back: bool = False) -> int:
    facts = {
        "terms": place.terms,
        "shop": place.terms.shop,
        "program": place.terms.program,
        "colorway": place.colorway.name,
        "letter": place.letter.letter,
        "print": replaced(place).name,
        "substitute": fabric.name,
        "number": place.number,
        "numbers": ", ".join(map(str, found.numbers)),
        "is_back": is_back,
    }
    return sum(_queue(person, facts, key=f"{key}:{person.pk}") for person in found.people)


def _queue(person: SignUp, facts: dict[str, object], *, key: str) -> bool:
    user = person.participant.user
    context = {
        **facts,
        "name": user.name,
        "sign_up": person,
        "has_packet": person.takes != Takes.SHEET,
        "url": settings.SITE_URL.rstrip("/") + reverse("my-program", args=[person.pk]),
        "language": user.language,
    }
    return queue_letter("substitute", key=key, to=user.email, language=user.language, context=context)
