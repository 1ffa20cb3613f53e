"""Buying less than every seat, as a choice that somebody signs, takes back, and the order follows.

Each seat stays taken from one month to the next with the same probability, independently of the
others: its person stays, or leaves and the seat is sold again at once.  One fabric is one stock for
the year; single installments are shown beside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.errors import WrongState
from patterns.engine.risk import Cohort, any_installment_short, risk_from_money, wanted
from shops.domain.order_risk import Less, ordering_less
from shops.models import BuyingLess, FabricOrder, Terms

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from patterns.models import User
    from shops.domain.orders import Order

RISKS = tuple(Fraction(part, 100) for part in (1, 2, 5, 10, 20))


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumed:
    """What is reckoned with, shares from 0 to 1: risk, who stays each month, leavers' seats sold again."""

    risk: Fraction
    retention: Fraction
    resold: Fraction = Fraction(0)

    @property
    def seat(self) -> Fraction:
        """Give the probability that a seat taken now is taken next month."""
        return self.retention + (1 - self.retention) * self.resold


@dataclass(frozen=True, slots=True, kw_only=True)
class Month:
    """One installment by itself: people expected, and the packets that run short at no more than the risk."""

    number: int
    expected: Fraction
    packets: int


def less_of(order: Order, assumed: Assumed) -> Less:
    """Reckon what the order comes to at the risk."""
    return ordering_less(order, risk=assumed.risk, retention=assumed.seat)


def months_of(order: Order, assumed: Assumed) -> tuple[tuple[Month, ...], Fraction]:
    """Give each installment by itself, and how likely some installment exceeds its own number."""
    numbers = sorted({number for row in order.rows for number in row.numbers})
    last = range(1, max(numbers, default=0) + 1)
    there = [wanted([Cohort(people=order.people, retention=assumed.seat, chances=k - 1)]) for k in last]
    orders = [each.order_for_risk(assumed.risk) for each in there]
    short = any_installment_short(people=order.people, retention=assumed.seat, orders=orders)
    months = (
        Month(number=number, expected=there[number - 1].mean, packets=orders[number - 1])
        for number in numbers
    )
    return tuple(months), short


def given_back(order: Order) -> Decimal:
    """Give the fees of a year, without finishing: what a person whose quilt cannot be finished gets back."""
    months = len({need.number for row in order.rows for need in row.needs})
    return order.terms.sign_up_fee + months * order.terms.monthly_fee


def balancing_risk(order: Order) -> Fraction | None:
    """Give the risk that balances the money: a packet too many costs its fabric, one too few a year's fees.

    None where nothing is ordered or nothing costs anything.
    """
    packets = {
        (need.number, need.colorway.pk): need.counts.packets for row in order.rows for need in row.needs
    }
    if not packets or not order.total + given_back(order):
        return None
    over = Fraction(order.total) / sum(packets.values())
    return risk_from_money(cost_over=over, cost_short=Fraction(given_back(order)))


def signed(terms: Terms) -> BuyingLess | None:
    """Give the signed choice, or None where every seat is ordered for."""
    return BuyingLess.objects.select_related("signed_by").filter(terms=terms).first()


def assumed_by(choice: BuyingLess) -> Assumed:
    """Give what a signed choice reckons with."""
    return Assumed(
        risk=Fraction(choice.risk), retention=Fraction(choice.retention), resold=Fraction(choice.resold)
    )


def bolts_to_buy(order: Order) -> dict[int, int]:
    """Give the bolts by fabric: for every seat, or as the signed choice says."""
    choice = signed(order.terms)
    if choice is None:
        return {row.fabric.pk: row.bolts for row in order.rows}
    return dict(less_of(order, assumed_by(choice)).by_fabric)


def price_of(order: Order, bolts: Mapping[int, int]) -> Decimal:
    """Add the prices of so many bolts up, of those fabrics that have one."""
    prices = (bolts[row.fabric.pk] * row.offer.price_per_bolt for row in order.rows if row.is_priced)
    return sum(prices, start=Decimal(0))


@transaction.atomic
def sign_buying_less(order: Order, assumed: Assumed, *, by: User, now: datetime) -> BuyingLess:
    """Keep the choice with who signed it and when, and what it came to; WrongState once ordered."""
    terms = _open(order.terms)
    fields = {
        "risk": _share(assumed.risk),
        "retention": _share(assumed.retention),
        "resold": _share(assumed.resold),
    }
    choice = BuyingLess.objects.update_or_create(
        terms=terms, defaults={**fields, "signed_by": by, "signed_at": now}
    )[0]
    less = less_of(order, assumed)
    facts = {name: str(share) for name, share in fields.items()}
    facts |= {"bolts": str(less.bolts), "every seat": str(order.bolts), "saved": str(less.money)}
    record("sign buying less", actor=by, subject=_subject(terms), facts=facts, now=now)
    return choice


@transaction.atomic
def take_back_buying_less(terms: Terms, *, by: User, now: datetime) -> bool:
    """Order for every seat again; False where nothing was signed, WrongState once ordered."""
    gone, _rows = BuyingLess.objects.filter(terms=_open(terms)).delete()
    if gone:
        record("take back buying less", actor=by, subject=_subject(terms), facts={}, now=now)
    return bool(gone)


def _open(terms: Terms) -> Terms:
    locked = Terms.objects.select_for_update(of=("self",)).get(pk=terms.pk)
    if FabricOrder.objects.filter(terms=locked).exists():
        raise WrongState("order", _("The order has been sent already and is kept as sent."))
    return locked


def _share(share: Fraction) -> Decimal:
    return Decimal(round(share * 10_000)) / 10_000


def _subject(terms: Terms) -> str:
    return f"terms:{terms.shop.slug}/{terms.program.slug}"
