"""Cost and price: exact shares of a bolt, rounded once, every share in sight."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

import pytest
from django.test import Client
from django.urls import reverse

from bom.domain.chain import work_of
from bom.domain.packets import packets
from shops.domain.pricing import (
    Shares,
    fabric_cost,
    minor_unit,
    plan_of,
    posting_of,
    prices_of,
    shares_of,
    to_minor_unit,
)
from shops.models import FabricOffer, PricePlan, Terms
from tests.cast import login, olga, paula, sam
from tests.shops.shop_cases import frozen_program, priced_terms

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

Q = Fraction
COSTS = reverse("shop-costs", args=["sams-bolts", "small"])
SENT = {
    "sheet_licence": "2.00",
    "bag": "0.20",
    "label": "0.05",
    "packing_grams": "15",
    "margin_percent": "40",
    "steps": "100 2.75\n1000 6.10",
}


@pytest.fixture
def terms() -> Terms:
    return priced_terms(frozen_program())


def parts(shares: Shares) -> list[Decimal]:
    return [shares.fabric, shares.licence, shares.bag, shares.label, shares.margin, shares.tax]


def test_fabric_is_charged_at_its_share_of_a_bolt(terms: Terms) -> None:
    """A bolt of 540 in less 1 in to straighten at 100.00: a cut of 9 1/2 in is 950 / 539."""
    (harbour, _meadow) = prices_of(terms)
    year = packets(terms.program, work_of(terms.program), harbour.colorway)
    offer = FabricOffer.objects.all()[0]
    line = year[0].lines[0]
    assert fabric_cost(line, offer) == 100 * line.line.cut_length / 539
    assert harbour.fabric == sum(fabric_cost(line, offer) for packet in year for line in packet.lines)
    assert [each.number for each in harbour.packets if each.is_finishing] == [4, 5]
    assert harbour.months == 2


def test_every_share_is_seen_and_they_add_up(terms: Terms) -> None:
    """Fabric 6.00 + 2.00 + 0.20 + 0.05 = 8.25; at 40 % of the price that is 8.25 / 0.6 = 13.75."""
    plan = PricePlan(
        terms=terms,
        sheet_licence=Decimal("2.00"),
        bag=Decimal("0.20"),
        label=Decimal("0.05"),
        margin_percent=40,
    )
    shares = shares_of(Q(6), plan, with_sheet=True)
    assert (shares.price, shares.margin) == (Decimal("13.75"), Decimal("5.50"))
    for fabric in (Q(1, 3), Q(950, 539), Q(17, 7)):
        found = shares_of(fabric, plan, with_sheet=True)
        assert sum(parts(found)) == found.price
        assert Q(found.price) * Q(6, 10) >= fabric + Q(225, 100)
    assert shares_of(Q(6), plan, with_sheet=False).licence == 0


def test_tax_is_a_share_where_prices_include_it(terms: Terms) -> None:
    terms.shop.tax_included, terms.shop.tax_percent = True, Decimal(25)
    shares = shares_of(Q(6), PricePlan(terms=terms, margin_percent=40), with_sheet=True)
    assert (shares.price, shares.tax, shares.margin) == (Decimal("12.50"), Decimal("2.50"), Decimal("4.00"))
    assert sum(parts(shares)) == shares.price


@pytest.mark.parametrize(
    ("currency", "unit", "shown"), [("CAD", "0.01", "1.33"), ("JPY", "1", "1"), ("KWD", "0.001", "1.333")]
)
def test_money_is_rounded_to_the_currencys_own_unit(currency: str, unit: str, shown: str) -> None:
    assert minor_unit(currency) == Decimal(unit)
    assert to_minor_unit(Q(4, 3), currency) == Decimal(shown)
    assert to_minor_unit(Q(1, 2) * Q(unit), currency) == Decimal(unit)  # halves up


def test_a_packet_falls_in_the_first_step_that_bears_it(terms: Terms) -> None:
    PricePlan.objects.create(terms=terms, posting=[[100, "2.75"], [1000, "6.10"]], packing_grams=15)
    price = prices_of(terms)[0]
    for each in price.packets:
        if each.fabric:
            assert each.step == (100 if each.grams <= 100 else 1000)
    assert price.posting == sum(
        Decimal("2.75") if each.step == 100 else Decimal("6.10") for each in price.packets if each.fabric
    )
    assert posting_of(terms) == max(each.posting for each in prices_of(terms) if each.posting)
    PricePlan.objects.update(posting=[[1, "2.75"]])
    assert prices_of(terms)[0].posting is None
    assert posting_of(terms) is None


def test_nothing_is_suggested_while_a_price_is_missing(terms: Terms) -> None:
    FabricOffer.objects.filter(fabric__number="TW-1").delete()
    price = prices_of(terms)[0]
    assert (price.unpriced, price.monthly, price.finishing) == (("Tidewater background",), None, None)


def test_the_page_shows_shares_and_keeps_what_they_are_made_of(client: Client, terms: Terms) -> None:
    login(client, sam())
    assert client.post(COSTS, SENT)["Location"] == COSTS
    plan = plan_of(Terms.objects.get(pk=terms.pk))
    assert (plan.sheet_licence, plan.posting) == (Decimal("2.00"), [[100, "2.75"], [1000, "6.10"]])
    page = client.get(COSTS).content.decode()
    assert "a month, the mean of 2 packets" in page
    assert "up to 100 g" in page
    assert "Your terms ask" in page
    assert client.get(COSTS).context["form"].initial["steps"] == "100 2.75\n1000 6.10"


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("steps", "100", "Line 1: write grams and a price"),
        ("steps", "100 2\n90 3", "Line 2: each step must be heavier"),
        ("margin_percent", "95", "from 0 to 94.9"),
        ("bag", "-1", "from 0 to"),
    ],
)
def test_what_does_not_add_up_is_refused(
    client: Client, terms: Terms, *, field: str, value: str, words: str
) -> None:
    login(client, sam())
    answer = client.post(COSTS, {**SENT, field: value})
    assert words in str(answer.context["form"].errors[field])
    assert not PricePlan.objects.exists()


def test_whoever_signs_up_reads_what_posting_costs_before(client: Client, terms: Terms) -> None:
    address = reverse("program-public", args=["small"])
    assert "By post, every packet" not in client.get(address).content.decode()
    PricePlan.objects.create(terms=terms, posting=[[5000, "6.10"]])
    page = client.get(address).content.decode()
    assert f"{posting_of(terms)} more." in re.sub("<.*?>", "", page)


def test_only_the_shops_own_people_see_it(client: Client, terms: Terms) -> None:
    assert client.get(COSTS)["Location"].startswith("/sign-in/")
    for person in (olga(), paula()):
        login(client, person)
        assert client.get(COSTS).status_code == 404
        assert client.post(COSTS, SENT).status_code == 404
