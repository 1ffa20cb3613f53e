"""Check-in of bolts: the lengths and dye lots that came, measured, kept fabric by fabric and taken back."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.errors import WrongState
from patterns.engine.measure import write_inches
from shops.enums import OrderState
from shops.models import Bolt, CutCount, FabricOrder, OrderLine

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime
    from fractions import Fraction

    from patterns.models import User


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One bolt as it came: inches of full width, and the dye lot on its label (empty: not known)."""

    length: Fraction
    dye_lot: str = ""


@transaction.atomic
def check_in(line: OrderLine, measured: Sequence[Measured], *, by: User, now: datetime) -> tuple[Bolt, ...]:
    """Keep the bolts of one fabric in place of those kept before; the shop's plans follow.

    WrongState when cuts of this fabric have been counted, since they were made from the bolts before.
    """
    order = _locked(line)
    if [_fact(each) for each in line.checked_bolts.order_by("pk")] == [_fact(each) for each in measured]:
        return tuple(line.checked_bolts.order_by("pk"))
    _refuse(line, order)
    before = _cleared(line)
    bolts = tuple(
        Bolt(line=line, name=f"{place}", length=each.length, dye_lot=each.dye_lot.strip())
        for place, each in enumerate(measured, 1)
    )
    Bolt.objects.bulk_create(bolts)
    _keep_state(order)
    facts = {"fabric": line.fabric.number, "before": before, "came": [_fact(each) for each in measured]}
    record("check in bolts", actor=by, subject=_subject(order), facts=facts, now=now)
    return bolts


@transaction.atomic
def take_back_check_in(line: OrderLine, *, by: User, now: datetime) -> bool:
    """Forget the bolts of one fabric, so that the order's plan holds again; False where none were kept.

    WrongState when cuts of this fabric have been counted.
    """
    order = _locked(line)
    if not line.checked_bolts.exists():
        return False
    _refuse(line, order)
    facts = {"fabric": line.fabric.number, "before": _cleared(line)}
    _keep_state(order)
    record("take back check-in", actor=by, subject=_subject(order), facts=facts, now=now)
    return True


def dye_lots(bolts: Sequence[Bolt]) -> tuple[str, ...]:
    """List the dye lots of one fabric, each once, however it is written; bolts without one not counted."""
    lots = {" ".join(bolt.dye_lot.split()).casefold(): bolt.dye_lot for bolt in bolts if bolt.dye_lot.strip()}
    return tuple(lots.values())


def _locked(line: OrderLine) -> FabricOrder:
    orders = FabricOrder.objects.select_for_update(of=("self",)).select_related(
        "terms__shop", "terms__program"
    )
    return orders.get(pk=line.order_id)


def _refuse(line: OrderLine, order: FabricOrder) -> None:
    if CutCount.objects.filter(terms=order.terms, fabric=line.fabric_id, made__gt=0).exists():
        remedy = _("Cuts of {fabric} are counted already. Take them back on cutting day first.")
        raise WrongState("cuts", remedy, fabric=line.fabric.name)


def _cleared(line: OrderLine) -> list[list[str]]:
    before = [_fact(each) for each in line.checked_bolts.order_by("pk")]
    line.checked_bolts.all().delete()
    return before


def _keep_state(order: FabricOrder) -> None:
    """Say that the order is checked in once bolts of every fabric are."""
    whole = not order.lines.filter(checked_bolts__isnull=True).exists()
    order.state = OrderState.CHECKED_IN if whole else OrderState.SENT
    order.save(update_fields=("state",))


def _fact(bolt: Measured | Bolt) -> list[str]:
    return [write_inches(bolt.length), bolt.dye_lot.strip()]


def _subject(order: FabricOrder) -> str:
    return f"terms:{order.terms.shop.slug}/{order.terms.program.slug}"
