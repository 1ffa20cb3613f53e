"""What holds for every order: with nobody leaving it holds every packet, and more risk never orders more."""

from __future__ import annotations

from fractions import Fraction

import pytest

from shops.domain.buying_less import Assumed, less_of
from shops.domain.orders import order_of
from tests.shops.shop_cases import frozen_program, priced_terms, with_seats

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

RISKS = [Fraction(0), Fraction(1, 100), Fraction(1, 20), Fraction(1, 5), Fraction(1, 2), Fraction(99, 100)]


@pytest.mark.parametrize(
    ("seats", "spares", "first_packets", "samples", "bolt"),
    [(1, 0, 0, 0, "180"), (7, 2, 1, 1, "180"), (38, 3, 2, 0, "288"), (90, 0, 1, 2, "540")],
)
def test_the_order_holds_every_packet_and_more_risk_never_orders_more(  # noqa: PLR0917 -- one order of the table
    seats: int, spares: int, first_packets: int, samples: int, bolt: str
) -> None:
    terms = priced_terms(
        frozen_program(), bolt=bolt, spares=spares, first_packets=first_packets, samples=samples
    )
    order = order_of(with_seats(terms, harbour=seats, meadow=seats // 2))
    added = spares + first_packets + samples
    for row in order.rows:
        wanted = {seats + added, seats // 2 + added} if seats > 1 else {seats + added}
        assert {need.counts.packets for need in row.needs} <= wanted
        given = {length: 0 for length, _count in row.cuts}
        for bolts in row.plan.bolts:
            for length, count in bolts.cuts:
                given[length] += count * bolts.repeat
        assert given == dict(row.cuts)
        assert sum(given.values()) * row.needs[0].line.line.per_cut >= sum(
            need.counts.packets for need in row.needs
        )
    everybody = less_of(order, Assumed(risk=Fraction(1, 2), retention=Fraction(1)))
    assert everybody.by_fabric == {row.fabric.pk: row.bolts for row in order.rows}
    bolts = [less_of(order, Assumed(risk=risk, retention=Fraction(9, 10))).by_fabric for risk in RISKS]
    for row in order.rows:
        bought = [each[row.fabric.pk] for each in bolts]
        assert bought == sorted(bought, reverse=True)
        assert bought[0] <= row.bolts
