"""Pick-up: giving a packet to a person, recorded, and taken back when it was the wrong one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.errors import ProgramError, WrongState
from shops.domain.arrivals import lacking
from shops.domain.opening_box import opening_boxes
from shops.domain.packet_editions import packet_edition
from shops.enums import Place, Takes
from shops.errors import LongerThanBolt
from shops.models import PickUp, SignUp

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Installment
    from patterns.models import Fabric, User
    from shops.domain.opening_box import Box
    from shops.models import Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class PickUpRow:
    """One person of an installment's list; `given` says when and by whom, or None.

    `lacks` names the fabrics that the bolts which came did not give for this packet; `box` is what the
    first packet of somebody who begins now holds besides.
    """

    sign_up: SignUp
    given: PickUp | None
    lacks: tuple[Fabric, ...] = ()
    box: Box = ()


def pick_up_rows(terms: Terms, installment: Installment) -> list[PickUpRow]:
    """List who gets a packet of this installment.

    Those with a seat and a packet who take part by then; who has left stays on the list only with a
    packet that was given.
    """
    lacks = _lacking(terms, installment)
    given = {
        each.sign_up_id: each
        for each in PickUp.objects.filter(sign_up__terms=terms, installment=installment).select_related(
            "given_by"
        )
    }
    everybody = terms.sign_ups.select_related("colorway").order_by("number")
    people = [each for each in everybody if each.pk in given or takes_packet(each, installment)]
    boxes = _boxes(terms, installment, people)
    return [
        PickUpRow(
            sign_up=each,
            given=given.get(each.pk),
            lacks=lacks.get(each.number, ()),
            box=boxes.get(each.number, ()),
        )
        for each in people
    ]


def _boxes(terms: Terms, installment: Installment, people: list[SignUp]) -> dict[int, Box]:
    try:
        return opening_boxes(terms, installment, people)
    except ProgramError:
        return {}


def _lacking(terms: Terms, installment: Installment) -> dict[int, tuple[Fabric, ...]]:
    """Give what packets lack, by number; nothing where the order cannot be worked out (its page says so)."""
    try:
        return lacking(terms, installment.number)
    except (LongerThanBolt, ProgramError):
        return {}


def takes_packet(sign_up: SignUp, installment: Installment) -> bool:
    """Whether a packet of this installment lies ready for the person."""
    is_here = sign_up.place == Place.SEAT and sign_up.left_on is None
    return is_here and sign_up.takes != Takes.SHEET and sign_up.first_installment <= installment.number


@transaction.atomic
def give_packet(sign_up: SignUp, installment: Installment, *, by: User, now: datetime) -> bool:
    """Record that the packet was given; False when it was recorded before.

    WrongState where no packet of this installment is for this person.
    """
    if not takes_packet(sign_up, installment):
        raise WrongState(
            "sign-up",
            _("No packet of installment {number} is for {name}."),
            number=installment.number,
            name=sign_up.packet_name,
        )
    cut_from = packet_edition(sign_up.terms, installment)
    made = PickUp.objects.get_or_create(
        sign_up=sign_up,
        installment=installment,
        defaults={"given_by": by, "at": now, "edition": cut_from},
    )[1]
    if made:
        _note("give packet", sign_up, installment, by=by, now=now)
    return made


@transaction.atomic
def take_back_packet(sign_up: SignUp, installment: Installment, *, by: User, now: datetime) -> bool:
    """Take the record back, as when the wrong row was pressed; False when there is none."""
    gone = PickUp.objects.filter(sign_up=sign_up, installment=installment).delete()[0]
    if gone:
        _note("take packet back", sign_up, installment, by=by, now=now)
    return bool(gone)


def _note(verb: str, sign_up: SignUp, installment: Installment, *, by: User, now: datetime) -> None:
    facts = {"installment": installment.number, "number": sign_up.number}
    record(verb, actor=by, subject=f"sign-up:{sign_up.pk}", facts=facts, now=now)
