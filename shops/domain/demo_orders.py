"""What the demo's shops have done by now: the order sent, the packets of past months given out."""

from __future__ import annotations

from datetime import datetime, time, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from bom.enums import InstallmentState
from shops.domain.head_count import send_order
from shops.domain.pick_ups import takes_packet
from shops.enums import ShopRole
from shops.models import PickUp

if TYPE_CHECKING:
    from shops.models import Terms

STILL_AT_THE_SHOP = 9  # every ninth packet waits for its person
FIRST_HOUR = timedelta(hours=1)


def order_fabric(terms: Terms) -> None:
    """Send the order of a shop whose head-count is frozen, at ten on its order-by day."""
    if terms.head_count_frozen_by is not None:
        at = datetime.combine(terms.order_by_day, time(10), ZoneInfo(terms.shop.zone))
        send_order(terms, by=terms.head_count_frozen_by, now=at)


def give_packets(terms: Terms) -> None:
    """Give the packets of all installments that are out but the newest, in the hours after the release."""
    released = terms.program.installments.filter(state=InstallmentState.RELEASED).order_by("number")
    manager = terms.shop.members.filter(role=ShopRole.MANAGER).select_related("user").get().user
    people = list(terms.sign_ups.order_by("number"))
    PickUp.objects.bulk_create(
        PickUp(
            sign_up=person,
            installment=installment,
            given_by=manager,
            at=installment.release_at + FIRST_HOUR + timedelta(minutes=person.number),
        )
        for installment in list(released)[:-1]
        if installment.release_at is not None
        for person in people
        if takes_packet(person, installment) and person.number % STILL_AT_THE_SHOP
    )
