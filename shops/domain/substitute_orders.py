"""Ordering what stands in after the order was sent: the sent lines stay, the substitutes are added."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.errors import WrongState
from shops.domain.orders import Order, order_of
from shops.models import FabricOrder, OrderLine, Swap, Terms

if TYPE_CHECKING:
    from datetime import datetime

    from patterns.models import User
    from shops.domain.orders import OrderRow


def still_to_order(order: Order) -> tuple[tuple[OrderRow, int], ...]:
    """List the substitutes that the sent order does not hold, and how many bolts more; none before it."""
    if not FabricOrder.objects.filter(terms=order.terms).exists():
        return ()
    lines = OrderLine.objects.filter(order__terms=order.terms)
    sent = dict(lines.values_list("fabric", "bolts"))
    swapped = set(Swap.objects.filter(terms=order.terms).values_list("fabric", flat=True))
    return tuple(
        (row, row.bolts - sent.get(row.fabric.pk, 0))
        for row in order.rows
        if row.fabric.pk in swapped and row.bolts > sent.get(row.fabric.pk, 0)
    )


@transaction.atomic
def order_substitutes(terms: Terms, *, by: User, now: datetime) -> int:
    """Add what stands in to the sent order; give the bolts added, 0 the second time.

    WrongState where a substitute has no price.
    """
    locked = Terms.objects.select_for_update(of=("self",)).select_related("shop", "program").get(pk=terms.pk)
    missing = still_to_order(order_of(locked))
    unpriced = ", ".join(row.fabric.name for row, _more in missing if not row.is_priced)
    if unpriced:
        raise WrongState("price", _("Say first what a bolt costs: {fabrics}."), fabrics=unpriced)
    for row, more in missing:
        line, is_new = OrderLine.objects.get_or_create(
            order=locked.order,
            fabric=row.fabric,
            defaults={
                "bolts": more,
                "bolt_length": row.offer.bolt_length,
                "price_per_bolt": row.offer.price_per_bolt,
            },
        )
        if not is_new:
            line.bolts += more
            line.save(update_fields=("bolts",))
    if missing:
        facts = {row.fabric.number: more for row, more in missing}
        subject = f"terms:{locked.shop.slug}/{locked.program.slug}"
        record("order substitutes", actor=by, subject=subject, facts=facts, now=now)
    return sum(more for _row, more in missing)
