"""The head-count freeze and the fabric order of a shop: how many people it is for, kept as sent.

Two freezes, never confused: the program's fabric freeze fixes what a packet takes, the shop's
head-count freeze fixes for how many the order is.  An order needs both.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.errors import WrongState
from shops.domain.buying_less import bolts_to_buy, price_of
from shops.domain.needs import seats_of
from shops.domain.orders import Order, order_of
from shops.models import FabricOrder, OrderLine, Terms

if TYPE_CHECKING:
    from datetime import datetime

    from patterns.models import User


@transaction.atomic
def freeze_head_count(terms: Terms, *, by: User, now: datetime) -> dict[str, int]:
    """Fix the seats with a packet by colorway, once; give them.

    WrongState names what is in the way: the program's fabric freeze has not been passed, or the
    head-count is frozen already.  Then nothing is stored, however often it is called.
    """
    locked = _locked(terms)
    if not locked.program.is_frozen:
        raise WrongState(
            "fabric freeze",
            _("The designer has not passed the fabric freeze yet, so the numbers of {program} may change."),
            program=locked.program.title,
        )
    if locked.head_count_is_frozen:
        raise WrongState("head-count freeze", _("The head-count is frozen already."))
    seats = seats_of(locked)
    locked.head_count_frozen_at, locked.head_count_frozen_by, locked.frozen_seats = now, by, seats
    locked.save(update_fields=("head_count_frozen_at", "head_count_frozen_by", "frozen_seats"))
    record("freeze head-count", actor=by, subject=_subject(locked), facts={"seats": seats}, now=now)
    return seats


@transaction.atomic
def send_order(terms: Terms, *, by: User, now: datetime) -> FabricOrder:
    """Keep the order as it is sent, once, with the hash of the fabric freeze it was reckoned from.

    WrongState where one of the two freezes is missing, a fabric has no price, nobody takes a packet,
    or the order was sent before.
    """
    locked = _locked(terms)
    _refuse(locked)
    order = order_of(locked)
    _refuse_lines(order)
    bolts = bolts_to_buy(order)
    sent = FabricOrder.objects.create(
        terms=locked, sent_at=now, sent_by=by, frozen_hash=locked.program.frozen_hash
    )
    OrderLine.objects.bulk_create(
        OrderLine(
            order=sent,
            fabric=row.fabric,
            bolts=bolts[row.fabric.pk],
            bolt_length=row.offer.bolt_length,
            price_per_bolt=row.offer.price_per_bolt,
        )
        for row in order.rows
    )
    total = str(price_of(order, bolts))
    facts = {"bolts": sum(bolts.values()), "people": order.people, "total": total}
    record("send fabric order", actor=by, subject=_subject(locked), facts=facts, now=now)
    return sent


@transaction.atomic
def freeze_and_order(terms: Terms, *, by: User, now: datetime) -> FabricOrder:
    """Freeze the head-count where that is still to do, and send the order; both or neither."""
    if not _locked(terms).head_count_is_frozen:
        freeze_head_count(terms, by=by, now=now)
    return send_order(terms, by=by, now=now)


def is_out_of_date(order: FabricOrder) -> bool:
    """Whether the program's fabric freeze is another than the one the order was reckoned from."""
    return order.frozen_hash != order.terms.program.frozen_hash


def sent_order(terms: Terms) -> FabricOrder | None:
    """Give the order as sent, its lines and fabrics joined; None before it."""
    orders = FabricOrder.objects.select_related("terms__program", "sent_by").prefetch_related("lines__fabric")
    return orders.filter(terms=terms).first()


def _locked(terms: Terms) -> Terms:
    locked = Terms.objects.select_for_update(of=("self",)).select_related("shop", "program__quilt")
    return locked.get(pk=terms.pk)


def _refuse(terms: Terms) -> None:
    if not terms.program.is_frozen:
        remedy = _("The designer has not passed the fabric freeze yet. Order when it is passed.")
        raise WrongState("fabric freeze", remedy)
    if not terms.head_count_is_frozen:
        raise WrongState("head-count freeze", _("Freeze the head-count first."))
    if FabricOrder.objects.filter(terms=terms).exists():
        raise WrongState("order", _("The order has been sent already and is kept as sent."))


def _refuse_lines(order: Order) -> None:
    if not order.rows:
        raise WrongState("sign-ups", _("Nobody takes a packet, so there is nothing to order."))
    if order.unpriced:
        names = ", ".join(row.fabric.name for row in order.unpriced)
        raise WrongState("price", _("Say first what a bolt costs: {fabrics}."), fabrics=names)


def _subject(terms: Terms) -> str:
    return f"terms:{terms.shop.slug}/{terms.program.slug}"
