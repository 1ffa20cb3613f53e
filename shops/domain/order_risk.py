"""Ordering less than every seat: how many packets the year wants when leavers' seats are not sold again.

A reading for whoever decides, never an order: the usual order is every seat.  Each person stays on
through a month with the same probability, independently of the others; a group that leaves together
is not in it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.keeping import Kept, hash_of
from patterns.engine.risk import Wanted, wanted_in_the_year
from shops.domain.needs import cuts_for
from shops.domain.orders import bolts_for

if TYPE_CHECKING:
    from shops.domain.needs import Need
    from shops.domain.orders import Order, OrderRow

ONE_IN_TWENTY = Fraction(1, 20)
RETENTION = Fraction(97, 100)  # 3 of 100 leave each month: an assumption, said where it is shown

_pools: Kept[Wanted] = Kept(most=512)


@dataclass(frozen=True, slots=True, kw_only=True)
class Less:
    """What ordering at a risk comes to: packets and bolts of the year, and what is saved.

    `by_fabric` gives the bolts by the key of the fabric.
    """

    risk: Fraction
    retention: Fraction
    packets: int
    every: int
    bolts: int
    saved: int
    money: Decimal
    by_fabric: Mapping[int, int]


def ordering_less(order: Order, *, risk: Fraction = ONE_IN_TWENTY, retention: Fraction = RETENTION) -> Less:
    """Reckon the order that runs short of some fabric with no more than this risk, fabric by fabric.

    The pool is the fabric's whole year; the packets left out are those of the months in which most
    are expected to have left.
    """
    packets, by_fabric = 0, {}
    for row in order.rows:
        kept = {key: _kept(row, key, risk=risk, retention=retention) for key in _pools_of(row)}
        packets += sum(count for each in kept.values() for count in each.values())
        by_fabric[row.fabric.pk] = _bolts(row, kept)
    bolts = sum(by_fabric.values())
    fewer = ((row.bolts - by_fabric[row.fabric.pk]) * row.offer.price_per_bolt for row in order.rows)
    return Less(
        risk=risk,
        retention=retention,
        packets=packets,
        every=order.counts.seats,
        bolts=bolts,
        saved=order.bolts - bolts,
        money=sum(fewer, start=Decimal(0)),
        by_fabric=by_fabric,
    )


def pool(*, people: int, retention: Fraction, risk: Fraction, numbers: tuple[int, ...]) -> int:
    """Give the packets of one year's pool that run short with no more than this risk.

    `numbers` are the installments that take one; everybody is there in installment 1.
    """
    cuts = [int(number in numbers) for number in range(1, max(numbers) + 1)]
    key = hash_of([people, str(retention), cuts])

    def make() -> Wanted:
        return wanted_in_the_year(people=people, retention=retention, cuts=cuts)

    return _pools.get(key, make).order_for_risk(risk)


def left_out(*, people: int, retention: Fraction, numbers: tuple[int, ...], fewer: int) -> dict[int, int]:
    """Spread packets left out over the installments, as leavers are expected; largest remainders first.

    No more are left out of an installment than there are people.
    """
    gone = {number: 1 - retention ** (number - 1) for number in numbers}
    whole = sum(gone.values(), start=Fraction(0))
    if not whole:
        return dict.fromkeys(numbers, 0)
    shares = {number: min(Fraction(people), fewer * share / whole) for number, share in gone.items()}
    out = {number: int(share) for number, share in shares.items()}
    by_rest = sorted(numbers, key=lambda number: (out[number] - shares[number], -number))
    for number in by_rest[: max(0, fewer - sum(out.values()))]:
        out[number] += 1
    return out


def _pools_of(row: OrderRow) -> Mapping[int, tuple[int, tuple[int, ...]]]:
    """Give seats and installments of a fabric by colorway."""
    found: dict[int, tuple[int, set[int]]] = {}
    for need in row.needs:
        found.setdefault(need.colorway.pk, (need.counts.seats, set()))[1].add(need.number)
    return {key: (seats, tuple(sorted(numbers))) for key, (seats, numbers) in found.items()}


def _kept(row: OrderRow, colorway: int, *, risk: Fraction, retention: Fraction) -> dict[int, int]:
    """Give the seats ordered for, by installment."""
    people, numbers = _pools_of(row)[colorway]
    ordered = pool(people=people, retention=retention, risk=risk, numbers=numbers)
    out = left_out(people=people, retention=retention, numbers=numbers, fewer=people * len(numbers) - ordered)
    return {number: people - out[number] for number in numbers}


def _bolts(row: OrderRow, kept: Mapping[int, Mapping[int, int]]) -> int:
    cuts: Counter[Fraction] = Counter()
    for need in row.needs:
        cuts[need.length] += cuts_for(_packets(need, kept[need.colorway.pk]), need.line)
    plan = bolts_for(sorted(cuts.items(), reverse=True), row.offer)
    return min(row.bolts, sum(bolt.repeat for bolt in plan.bolts))


def _packets(need: Need, seats: Mapping[int, int]) -> int:
    return need.counts.packets - need.counts.seats + seats[need.number]
