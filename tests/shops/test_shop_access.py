"""Who may see a shop's pages and act on them: who works there, and nobody else."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from django.urls import reverse

from patterns.models import User
from shops.enums import ShopRole
from shops.models import CutCount, FabricOrder, PickUp, Shop, ShopMember, SignUp, Terms
from tests.cast import login, olga, person, sam
from tests.shops.shop_cases import frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from django.test import Client

pytestmark = pytest.mark.django_db

Address = tuple[str, list[int]]
PAGES: list[Address] = [
    ("shop-start", []),
    ("shop-sign-ups", []),
    ("shop-sign-ups-file", []),
    ("shop-sign-up", [1]),
    ("shop-order", []),
    ("shop-order-confirm", []),
    ("shop-prices", []),
    ("shop-costs", []),
    ("shop-order-file", []),
    ("shop-cutting-next", []),
    ("shop-cutting", [1]),
    ("shop-cutting-sheet", [1]),
    ("shop-preview", [1]),
    ("shop-poster", []),
    ("shop-card", []),
    ("shop-labels", [1]),
    ("shop-pick-up-now", []),
    ("shop-pick-up", [1]),
]
VERBS: list[Address] = [
    ("shop-sign-up-leave", [1]),
    ("shop-sign-up-seat", [4]),
    ("shop-order-confirm", []),
    ("shop-cutting-count", [1, 1]),
    ("shop-pick-up-give", [1, 1]),
]


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program())
    three_people(terms)
    return terms


def url(name: str, *parts: object) -> str:
    return reverse(name, args=["sams-bolts", "small", *parts])


def manager_of_another_shop() -> User:
    other = Shop.objects.create(
        slug="other", name="Other", place="x", country="CA", zone="UTC", currency="CAD"
    )
    ShopMember.objects.create(shop=other, user=person("Otto"), role="manager")
    return person("Otto")


@pytest.mark.parametrize("page", PAGES)
def test_only_who_works_in_the_shop_sees_its_pages(client: Client, terms: Terms, page: Address) -> None:
    address = url(page[0], *page[1])
    asked = client.get(address)
    assert asked.status_code == 302
    assert asked["Location"].startswith(reverse("sign-in"))
    for outsider in (olga(), manager_of_another_shop(), terms.program.designer):
        assert login(client, outsider).get(address).status_code == 404
    assert login(client, sam()).get(address).status_code in (200, 302)


@pytest.mark.parametrize("verb", VERBS)
def test_olga_and_a_stranger_change_nothing(client: Client, terms: Terms, verb: Address) -> None:
    address = url(verb[0], *verb[1])
    assert client.post(address, {"seen": "0", "to": "1"}).status_code == 302
    assert login(client, olga()).post(address, {"seen": "0", "to": "1"}).status_code == 404
    assert not SignUp.objects.filter(left_on__isnull=False).exists()
    assert SignUp.objects.filter(place="waiting").count() == 1
    assert not (FabricOrder.objects.exists() or CutCount.objects.exists() or PickUp.objects.exists())


@pytest.mark.parametrize("name", ["shop-sign-up-leave", "shop-sign-up-seat", "shop-pick-up-give"])
def test_a_look_changes_nothing(client: Client, terms: Terms, name: str) -> None:
    parts = [1, 1] if name == "shop-pick-up-give" else [1]
    assert login(client, sam()).get(url(name, *parts)).status_code == 405


def cutter() -> User:
    ShopMember.objects.create(
        shop=Shop.objects.get(slug="sams-bolts"), user=person("Cato"), role=ShopRole.CUTTER
    )
    return person("Cato")


@pytest.mark.parametrize("name", ["shop-order-confirm", "shop-prices"])
def test_who_cuts_packets_neither_freezes_nor_orders_nor_prices(
    client: Client, terms: Terms, name: str
) -> None:
    login(client, cutter())
    assert client.get(url(name)).status_code == 404
    assert client.post(url(name), {"seen": "2/6/600.00"}).status_code == 404
    terms.refresh_from_db()
    assert not (FabricOrder.objects.exists() or terms.head_count_is_frozen)


def test_who_cuts_packets_reads_the_order_and_is_shown_no_button(client: Client, terms: Terms) -> None:
    page = login(client, cutter()).get(url("shop-order")).content.decode()
    assert "Bolts to order" in page
    assert url("shop-order-confirm") not in page
    assert url("shop-prices") not in page
    assert url("shop-order-confirm") in login(client, sam()).get(url("shop-order")).content.decode()
