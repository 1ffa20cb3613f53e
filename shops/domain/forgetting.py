"""Taking a person's name and address out: what was counted, cut and given out stays true without them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.errors import ProgramError
from bom.models import Outbox
from shops.models import SheetCopy, ShopMember, SignUp

if TYPE_CHECKING:
    from datetime import datetime

    from patterns.models import User

NOWHERE = "gone.invalid"  # an ending that no mail can go to (RFC 2606)


@transaction.atomic
def forget_person(person: User, *, now: datetime) -> None:
    """Take out name, address, mails and stamps of a participant who has left; a second call changes nothing.

    ProgramError where the person still has a place at a shop, designs a program or works in a shop.
    """
    _guard(person)
    mine = SignUp.objects.filter(participant__user=person)
    for sign_up in mine:
        SheetCopy.objects.filter(sign_up=sign_up).update(stamp=str(sign_up.number))
        SignUp.objects.filter(pk=sign_up.pk).update(packet_name=str(sign_up.number))
    Outbox.objects.filter(to__iexact=person.email).delete()
    person.name, person.email, person.is_active = "", f"{person.pk}@{NOWHERE}", False
    person.save(update_fields=("name", "email", "is_active"))
    record("forgot a person", actor=None, subject=f"user:{person.pk}", facts={}, now=now)


def _guard(person: User) -> None:
    if SignUp.objects.filter(participant__user=person, left_on__isnull=True).exists():
        raise ProgramError(
            "email", _("This person still has a place at a shop: let the shop take it back first.")
        )
    if person.programs.exists() or ShopMember.objects.filter(user=person).exists():
        raise ProgramError(
            "email", _("This person designs a program or works in a shop: hand that over first.")
        )
