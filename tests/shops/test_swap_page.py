"""The page of substitutes: look first, adopt, take back; who manages the shop and nobody else."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from django.urls import reverse

from bom.models import AuditEntry
from patterns.models import Fabric
from shops.domain.head_count import freeze_and_order
from shops.enums import ShopRole
from shops.models import FabricOffer, OrderLine, ShopMember, Swap, Terms
from tests.cast import login, olga, person, sam
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from django.test import Client

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program())
    three_people(terms)
    collection = Fabric.objects.get(name="Tidewater star").collection
    Fabric.objects.create(collection=collection, number="TW-20", name="Teal", colour="#117777", value=3)
    return terms


def url(name: str = "shop-swaps", *parts: int) -> str:
    return reverse(name, args=["sams-bolts", "small", *parts])


def where(terms: Terms, *, number: int = 2) -> dict[str, int]:
    quilt = terms.program.quilt
    first = quilt.colorways.get(slug="harbour")
    return {"colorway": first.pk, "letter": quilt.letters.get(letter="B").pk, "number": number}


def said(client: Client, **query: int) -> str:
    return " ".join(client.get(url(), query).content.decode().split())


def test_nothing_stands_in_yet(client: Client, terms: Terms) -> None:
    login(client, sam())
    page = said(client)
    assert "Nothing: every letter is the designer" in page
    assert terms.shop.name.replace("'", "&#x27;") in page


def test_a_look_says_who_is_touched_and_changes_nothing(client: Client, terms: Terms) -> None:
    login(client, sam())
    page = said(client, **where(terms))
    assert "6 packets in installment 2." in page
    assert "3 people have it: Paula, Marit, Tove." in page
    assert "1 step darker, no price yet" in page
    page = said(client, **where(terms), fabric=Fabric.objects.get(name="Teal").pk)
    assert "lost: the two read as one, or change sides" in page
    assert "Let Teal stand in" in page
    assert not Swap.objects.exists()
    assert "Choose an earlier installment" in said(client, **where(terms, number=5))


def test_adopting_and_taking_back(client: Client, terms: Terms) -> None:
    login(client, sam())
    chosen = {**where(terms), "fabric": Fabric.objects.get(name="Teal").pk}
    for _twice in range(2):
        assert client.post(url(), chosen).status_code == 302
    assert Swap.objects.count() == 1
    assert "Take Teal back" in said(client)
    for _twice in range(2):
        assert client.post(url("shop-swap-take-back", 1)).status_code == 302
    assert not Swap.objects.exists()


def test_bad_input_is_refused(client: Client, terms: Terms) -> None:
    login(client, sam())
    assert client.post(url(), {**where(terms), "fabric": "x"}).status_code == 404
    assert client.post(url(), {"fabric": "1"}).status_code == 404
    page = said(client, letter=99, colorway=1, number=2)
    assert "Select a valid choice" in page


def test_who_cuts_looks_and_an_outsider_does_not(client: Client, terms: Terms) -> None:
    ShopMember.objects.create(shop=terms.shop, user=person("Cato"), role=ShopRole.CUTTER)
    chosen = {**where(terms), "fabric": Fabric.objects.get(name="Teal").pk}
    login(client, person("Cato"))
    assert "stand in</button>" not in said(client, **chosen)
    assert client.post(url(), chosen).status_code == 404
    login(client, olga())
    assert client.get(url()).status_code == client.post(url(), chosen).status_code == 404
    assert not Swap.objects.exists()


def test_what_stands_in_after_the_order_is_added_to_it_and_can_be_checked_in(
    client: Client, terms: Terms
) -> None:
    freeze_and_order(terms, by=sam(), now=NOW)
    login(client, sam())
    teal = Fabric.objects.get(name="Teal")
    client.post(url(), {**where(terms), "fabric": teal.pk})
    order = reverse("shop-order", args=["sams-bolts", "small"])
    assert "Teal: 1 bolt." in " ".join(client.get(order).content.decode().split())
    assert client.post(url("shop-swaps-order")).status_code == 302
    assert not OrderLine.objects.filter(fabric=teal).exists()  # no price yet
    assert "Teal" in client.get(reverse("shop-prices", args=["sams-bolts", "small"])).content.decode()
    FabricOffer.objects.create(shop=terms.shop, fabric=teal, price_per_bolt=Decimal(90))
    before = dict(OrderLine.objects.values_list("fabric", "bolts"))
    for _twice in range(2):
        client.post(url("shop-swaps-order"))
    assert dict(OrderLine.objects.values_list("fabric", "bolts")) == {**before, teal.pk: 1}
    assert AuditEntry.objects.get(verb="order substitutes").facts == {"TW-20": 1}
    assert "What stands in is not ordered yet" not in client.get(order).content.decode()
    assert client.get(url("shop-check-in-fabric", teal.pk)).status_code == 200
    login(client, olga())
    assert client.post(url("shop-swaps-order")).status_code == 404
