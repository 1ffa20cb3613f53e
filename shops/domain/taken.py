"""Sheets that a person took a short while ago, kept with their stamp: who takes one again does not wait.

A kept file stands for one state of all that decides what a person gets.  Whoever may have a sheet may have
it later too, as long as none of that changes; so an equal state needs no second look at the rights.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.core.cache import cache

from bom.domain.editions import newest_edition
from bom.domain.keeping import hash_of
from bom.models import SheetEdition
from shops.models import SignUp, Swap

if TYPE_CHECKING:
    from django.contrib.auth.models import AnonymousUser

    from bom.models import Rendering
    from patterns.models import User

KEPT_SECONDS = 3600
_INSTALLMENT = "terms__program__installments"
_DECIDES = (
    *("terms", f"{_INSTALLMENT}__pk"),
    *("packet_name", "place", "takes", "first_installment", "left_on", "colorway", "terms__hold_hours"),
    *("participant__units", "participant__paper", "participant__print_size"),
    *("terms__shop__zone", "terms__program__slug", "participant__user__language"),
    *(f"{_INSTALLMENT}__{name}" for name in ("number", "title", "state", "release_at")),
)


@dataclass(frozen=True, slots=True)
class Taken:
    """A stamped file and the name that it is saved under."""

    pdf: bytes
    name: str


def state_key(user: User | AnonymousUser, sign_up: int, number: int) -> str:
    """Give the key of the state that decides what this person gets; "" where nothing is kept for it.

    Where the shop substitutes fabrics nothing is kept: what stands in may change.
    """
    found = SignUp.objects.filter(
        pk=sign_up, participant__user=user.pk, **{f"{_INSTALLMENT}__number": number}
    ).order_by()
    state: tuple[Any, ...] | None = next(iter(found.values_list(*_DECIDES)), None)
    if state is None:
        return ""
    terms, installment = state[:2]
    editions = SheetEdition.objects.filter(installment=installment).order_by("-number")
    newest = editions.values_list("pk", flat=True).first()
    if Swap.objects.filter(terms=terms).exists():
        return ""
    return f"taken-{hash_of([user.pk, sign_up, newest, *state])}"


def taken_before(key: str) -> Taken | None:
    """Give what is kept under a key of `state_key`."""
    kept: Taken | None = cache.get(key) if key else None
    return kept


def keep_taken(key: str, taken: Taken, *, rendering: Rendering, sign_up: SignUp) -> None:
    """Keep a file for an hour, once the right to it was read from the rows and the copy was written down.

    Not where it is another edition or form than the person's own, given for want of that one.
    """
    person, installment = sign_up.participant, rendering.edition.installment
    own = (person.paper, person.units, person.print_size, person.user.language)
    is_own = (rendering.paper, rendering.units, rendering.print_size, rendering.language) == own
    if key and is_own and rendering.edition == newest_edition(installment):
        cache.set(key, taken, KEPT_SECONDS)
