"""What fabric costs a shop and how it comes: price, length of a bolt, what straightening takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.db import transaction

from bom.domain.audit import record
from bom.domain.records import read_colorways
from patterns.engine.measure import write_inches
from shops.models import FabricOffer, Swap

if TYPE_CHECKING:
    from datetime import datetime
    from decimal import Decimal
    from fractions import Fraction

    from patterns.models import Fabric, User
    from shops.models import Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt:
    """How one fabric comes: a price in the shop's currency, lengths in inches."""

    fabric: Fabric
    price: Decimal
    length: Fraction
    end_loss: Fraction


def fabrics_of(terms: Terms) -> list[Fabric]:
    """List the fabrics of the colorways that the shop sells, each once, by colorway and letter.

    What stands in at the shop comes after them.
    """
    sold = set(terms.colorways.values_list("colorway_id", flat=True))
    found: dict[int, Fabric] = {}
    for colorway in (each for each in read_colorways(terms.program) if each.pk in sold):
        rows = sorted(colorway.fabrics.all(), key=lambda row: (len(row.letter.letter), row.letter.letter))
        found |= {row.fabric_id: row.fabric for row in rows if row.fabric_id not in found}
    swaps = Swap.objects.filter(terms=terms).select_related("fabric")
    return list((found | {swap.fabric_id: swap.fabric for swap in swaps}).values())


@transaction.atomic
def keep_offers(terms: Terms, bolts: list[Bolt], *, by: User, now: datetime) -> int:
    """Keep how each fabric comes to the shop; give how many changed.  An order that is sent keeps its own."""
    changed = [bolt for bolt in bolts if _keep(terms, bolt)]
    if changed:
        facts = {
            bolt.fabric.number: {"price": str(bolt.price), "length": write_inches(bolt.length)}
            for bolt in changed
        }
        subject = f"terms:{terms.shop.slug}/{terms.program.slug}"
        record("keep bolts", actor=by, subject=subject, facts=facts, now=now)
    return len(changed)


def _keep(terms: Terms, bolt: Bolt) -> bool:
    fields = {"price_per_bolt": bolt.price, "bolt_length": bolt.length, "end_loss": bolt.end_loss}
    offer, is_new = FabricOffer.objects.get_or_create(shop=terms.shop, fabric=bolt.fabric, defaults=fields)
    before = {name: getattr(offer, name) for name in fields}
    if is_new or before == fields:
        return is_new
    FabricOffer.objects.filter(pk=offer.pk).update(**fields)
    return True
