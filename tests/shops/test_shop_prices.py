"""What bolts cost a shop: read, checked and kept; the order follows."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from django.urls import reverse

from bom.models import AuditEntry
from shops.domain.head_count import freeze_and_order
from shops.domain.offers import fabrics_of
from shops.domain.orders import order_of
from shops.models import FabricOffer, FabricOrder, Terms
from tests.cast import login, olga, sam, sams_terms
from tests.shops.shop_cases import NOW, frozen_program, three_people

if TYPE_CHECKING:
    from django.test import Client

pytestmark = pytest.mark.django_db


@pytest.fixture
def terms() -> Terms:
    """Give terms of a shop that has said no price yet."""
    terms = sams_terms(frozen_program())
    three_people(terms)
    return terms


@pytest.fixture
def address(client: Client, terms: Terms) -> str:
    login(client, sam())
    return reverse("shop-prices", args=["sams-bolts", "small"])


def typed(terms: Terms, **changed: str) -> dict[str, str]:
    usual = {"price": "111.00", "length": "540", "end_loss": "1", **changed}
    return {f"f{each.pk}-{name}": value for each in fabrics_of(terms) for name, value in usual.items()}


def test_the_fabrics_of_the_colorways_sold_are_asked_for_once(terms: Terms) -> None:
    names = ["background", "star", "accent", "frame", "binding", "backing"]
    assert [each.name for each in fabrics_of(terms)] == [f"Tidewater {name}" for name in names]


def test_prices_make_the_order_ready_to_send(client: Client, terms: Terms, address: str) -> None:
    order_page = reverse("shop-order", args=["sams-bolts", "small"])
    page = client.get(order_page).content.decode()
    assert "Some fabrics have no price yet." in page
    assert "Freeze and order" not in page
    response = client.post(address, typed(terms), follow=True)
    assert response.redirect_chain[-1][0] == order_page
    assert "Freeze and order" in response.content.decode()
    assert order_of(terms).total == 111 * order_of(terms).bolts


def test_a_longer_bolt_is_reckoned_with(client: Client, terms: Terms, address: str) -> None:
    client.post(address, typed(terms, length="900 1/2"))
    assert {row.offer.bolt_length for row in order_of(terms).rows} == {Decimal("900.5")}


def test_keeping_the_same_again_is_recorded_once(client: Client, terms: Terms, address: str) -> None:
    for _again in range(2):
        client.post(address, typed(terms))
    assert AuditEntry.objects.filter(verb="keep bolts").count() == 1
    client.post(address, typed(terms, price="99.50"))
    assert set(FabricOffer.objects.values_list("price_per_bolt", flat=True)) == {Decimal("99.50")}


@pytest.mark.parametrize(
    "case",
    [
        ({"price": "-1"}, "greater than or equal to"),
        ({"length": "long"}, "Write a length in inches, for example 2 1/2."),
        ({"length": "1"}, "Longer than what straightening takes."),
        ({"price": ""}, "This field is required."),
    ],
)
def test_what_cannot_be_is_refused_at_its_field(
    client: Client, address: str, case: tuple[dict[str, str], str]
) -> None:
    response = client.post(address, typed(Terms.objects.get(), **case[0]))
    assert response.status_code == 200
    assert case[1] in response.content.decode()
    assert not FabricOffer.objects.exists()


def test_an_order_that_is_sent_keeps_its_prices(client: Client, terms: Terms, address: str) -> None:
    client.post(address, typed(terms))
    freeze_and_order(terms, by=sam(), now=NOW)
    client.post(address, typed(terms, price="999.00"))
    lines = FabricOrder.objects.get().lines.all()
    assert {line.price_per_bolt for line in lines} == {Decimal("111.00")}


def test_olga_neither_sees_nor_changes_prices(client: Client, terms: Terms, address: str) -> None:
    login(client, olga())
    assert client.get(address).status_code == 404
    assert client.post(address, typed(terms)).status_code == 404
    assert not FabricOffer.objects.exists()
