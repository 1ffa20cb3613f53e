"""Buying less as a signed choice: what it comes to, who signed, and that the order follows."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from django.urls import reverse

from bom.errors import WrongState
from bom.models import AuditEntry
from shops.domain.buying_less import (
    Assumed,
    balancing_risk,
    bolts_to_buy,
    given_back,
    less_of,
    months_of,
    price_of,
    sign_buying_less,
    signed,
    take_back_buying_less,
)
from shops.domain.head_count import freeze_and_order, send_order
from shops.domain.orders import order_of
from shops.enums import ShopRole
from shops.models import BuyingLess, OrderLine, ShopMember, Terms
from tests.cast import login, olga, person, sam
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people, with_seats

if TYPE_CHECKING:
    from django.test import Client

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
ASSUMED = Assumed(risk=Fraction(1, 20), retention=Fraction(8, 10))


@pytest.fixture
def terms() -> Terms:
    """Forty seats on bolts of 5 yd: enough that leaving out a fifth each month saves bolts."""
    return with_seats(priced_terms(frozen_program(), bolt="180"), harbour=40)


def url(name: str = "shop-buying-less") -> str:
    return reverse(name, args=["sams-bolts", "small"])


def test_a_seat_stays_taken_when_its_person_stays_or_it_is_sold_again() -> None:
    assert Assumed(risk=Fraction(0), retention=Fraction(9, 10)).seat == Fraction(9, 10)
    half = Assumed(risk=Fraction(0), retention=Fraction(9, 10), resold=Fraction(1, 2))
    assert half.seat == Fraction(95, 100)


def test_more_risk_and_more_leaving_never_order_more(terms: Terms) -> None:
    order = order_of(terms)
    bolts = [less_of(order, Assumed(risk=risk, retention=ASSUMED.retention)).bolts for risk in
             (Fraction(1, 100), Fraction(1, 20), Fraction(1, 5))]  # fmt: skip
    assert bolts == sorted(bolts, reverse=True)
    resold = Assumed(risk=ASSUMED.risk, retention=ASSUMED.retention, resold=Fraction(1))
    assert less_of(order, resold).bolts == order.bolts
    assert less_of(order, resold).packets == order.counts.seats


def test_with_nobody_leaving_the_order_is_seats_spares_first_packet_and_sample(terms: Terms) -> None:
    order = order_of(terms)
    less = less_of(order, Assumed(risk=Fraction(1, 5), retention=Fraction(1)))
    assert (less.saved, less.packets) == (0, order.counts.seats)
    for row in order.rows:
        for need in row.needs:
            assert need.counts.packets == 40 + terms.spares + terms.first_packets + terms.samples


def test_the_installments_stand_beside_the_pool(terms: Terms) -> None:
    """Installment k has passed k - 1 chances to leave; 40 x 0.8 = 32 are expected in the second."""
    months, any_short = months_of(order_of(terms), ASSUMED)
    assert [(each.number, each.expected) for each in months][:2] == [(1, 40), (2, pytest.approx(32))]
    assert months[0].packets == 40
    assert Fraction(1, 20) < any_short < Fraction(1, 4)


def test_signing_keeps_who_when_and_what_and_the_order_follows(terms: Terms) -> None:
    order = order_of(terms)
    sign_buying_less(order, ASSUMED, by=sam(), now=NOW)
    less = less_of(order, ASSUMED)
    assert less.saved > 0
    assert bolts_to_buy(order) == less.by_fabric
    assert price_of(order, less.by_fabric) == order.total - less.money
    entry = AuditEntry.objects.get(verb="sign buying less")
    assert (entry.actor, entry.at) == (sam(), NOW)
    assert entry.facts["bolts"] == str(less.bolts)
    send_order(terms, by=sam(), now=NOW)
    sent = dict(OrderLine.objects.values_list("fabric", "bolts"))
    assert sent == less.by_fabric
    assert AuditEntry.objects.get(verb="send fabric order").facts["bolts"] == less.bolts


def test_it_is_taken_back_before_ordering_and_not_after(terms: Terms) -> None:
    order = order_of(terms)
    sign_buying_less(order, ASSUMED, by=sam(), now=NOW)
    assert take_back_buying_less(terms, by=sam(), now=NOW)
    assert not take_back_buying_less(terms, by=sam(), now=NOW)
    assert signed(terms) is None
    assert bolts_to_buy(order) == {row.fabric.pk: row.bolts for row in order.rows}
    send_order(terms, by=sam(), now=NOW)
    for act in (
        lambda: sign_buying_less(order, ASSUMED, by=sam(), now=NOW),
        lambda: take_back_buying_less(terms, by=sam(), now=NOW),
    ):
        with pytest.raises(WrongState):
            act()
    assert AuditEntry.objects.filter(verb="take back buying less").count() == 1


def test_money_on_both_sides_sets_a_risk(terms: Terms) -> None:
    order = order_of(terms)
    assert given_back(order) == 25 + 4 * Decimal("15.50")  # installment 3 has no packet
    over = Fraction(order.total) / (44 * 4)
    assert balancing_risk(order) == over / (over + 87)


def test_the_page_shows_signs_and_takes_back(client: Client, terms: Terms) -> None:
    login(client, sam())
    typed = {"leave": "20", "resold": "0", "risk": "5"}
    page = " ".join(client.get(url(), typed).content.decode().split())
    assert "Sign for" in page
    assert "<svg" in page
    assert client.post(url(), typed).status_code == 302
    choice = BuyingLess.objects.get()
    assert (str(choice.risk), str(choice.retention)) == ("0.0500", "0.8000")
    less = less_of(order_of(terms), ASSUMED)
    order = " ".join(client.get(reverse("shop-order", args=["sams-bolts", "small"])).content.decode().split())
    assert "is signed by Sam" in order
    assert "less than every seat, as signed" in order
    assert "No other choice of bolts is shorter" not in order
    confirm = client.get(reverse("shop-order-confirm", args=["sams-bolts", "small"])).content.decode()
    assert f"{less.bolts} bolts for" in confirm
    assert client.post(url("shop-buying-less-take-back")).status_code == 302
    assert not BuyingLess.objects.exists()


def test_bad_input_names_the_field(client: Client, terms: Terms) -> None:
    login(client, sam())
    answer = client.post(url(), {"leave": "120", "resold": "-1", "risk": "0"})
    assert answer.status_code == 200
    assert answer.content.decode().count('aria-invalid="true"') == 3
    assert not BuyingLess.objects.exists()


def test_nobody_yet_and_no_right(client: Client) -> None:
    terms = priced_terms(frozen_program())
    login(client, sam())
    assert "Nobody takes a packet yet" in client.get(url()).content.decode()
    three_people(terms)
    ShopMember.objects.create(shop=terms.shop, user=person("Cato"), role=ShopRole.CUTTER)
    for outsider in (person("Cato"), olga()):
        login(client, outsider)
        assert client.get(url()).status_code == 404
        assert client.post(url(), {"leave": "3", "resold": "0", "risk": "5"}).status_code == 404
        assert client.post(url("shop-buying-less-take-back")).status_code == 404
    freeze_and_order(terms, by=sam(), now=NOW)
    login(client, sam())
    assert client.get(url()).status_code == 302
