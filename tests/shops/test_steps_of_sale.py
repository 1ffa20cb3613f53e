"""The step by which a shop sells: packets of that shop are rounded up to it, and all that follows."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from django.urls import reverse

from bom.errors import WrongState
from bom.models import AuditEntry
from patterns.engine.measure import CENTIMETRE, YARD
from shops.domain.head_count import freeze_and_order
from shops.domain.needs import needs_of
from shops.domain.orders import order_of
from shops.domain.pricing import prices_of
from shops.domain.steps_of_sale import keep_step, sells_metric
from shops.models import Terms
from shops.web.shop_words import units_at
from tests.cast import login, sam
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from django.test import Client

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

STEPS = [YARD / 8, YARD / 4, 5 * CENTIMETRE, 10 * CENTIMETRE]


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program())
    three_people(terms)
    return terms


def lengths(terms: Terms) -> list[Fraction]:
    return [need.line.line.suggested for need in needs_of(terms, {"harbour": 2})]


@pytest.mark.parametrize("step", STEPS)
def test_packets_are_rounded_up_to_the_step_and_never_below_the_sheet(terms: Terms, step: Fraction) -> None:
    """Nine inches by the sheet are 9 in, 9 in, 25 cm and 30 cm."""
    sheet = lengths(terms)
    keep_step(terms, step, by=sam(), now=NOW)
    shop = lengths(terms)
    assert all(length % step == 0 for length in shop)
    assert all(low <= high < low + step for low, high in zip(sheet, shop, strict=True))
    first = shop[sheet.index(Fraction(9))]
    assert first == {STEPS[0]: 9, STEPS[1]: 9, STEPS[2]: 25 * CENTIMETRE, STEPS[3]: 30 * CENTIMETRE}[step]


def test_cut_weight_order_and_price_follow(terms: Terms) -> None:
    before, price = order_of(terms), prices_of(terms)[0]
    keep_step(terms, 10 * CENTIMETRE, by=sam(), now=NOW)
    after = order_of(terms)
    for old, new in zip(before.rows, after.rows, strict=True):
        assert new.longest >= old.longest
        assert sum(length * count for length, count in new.cuts) > sum(
            length * count for length, count in old.cuts
        )
    for old_need, new_need in zip(before.rows[0].needs, after.rows[0].needs, strict=True):
        assert new_need.line.weight_grams > old_need.line.weight_grams
        tolerance = Fraction(1, 2) * -(-new_need.line.line.suggested // 18)  # for every half yard begun
        assert new_need.length == new_need.line.line.suggested + tolerance
    assert prices_of(terms)[0].fabric > price.fabric


def test_a_shop_that_sells_by_centimetres_reads_centimetres(terms: Terms) -> None:
    assert not sells_metric(terms)
    keep_step(terms, YARD / 4, by=sam(), now=NOW)
    assert units_at(terms).value == "in"
    keep_step(terms, 5 * CENTIMETRE, by=sam(), now=NOW)
    assert units_at(terms).value == "cm"


def test_the_step_is_kept_once_and_not_after_the_order(terms: Terms) -> None:
    assert keep_step(terms, YARD / 4, by=sam(), now=NOW)
    assert not keep_step(terms, YARD / 4, by=sam(), now=NOW)
    assert AuditEntry.objects.get(verb="keep step of sale").facts == {"step": "9"}
    freeze_and_order(terms, by=sam(), now=NOW)
    with pytest.raises(WrongState):
        keep_step(terms, None, by=sam(), now=NOW)


def test_the_page_keeps_it_with_the_bolts_or_says_why_not(client: Client, terms: Terms) -> None:
    login(client, sam())
    url = reverse("shop-prices", args=["sams-bolts", "small"])
    rows = client.get(url).context["rows"]
    assert "as on the sheet, 1/8 yd" in client.get(url).content.decode()
    data = {f"{row.prefix}-{name}": str(row[name].value()) for row in rows for name in row.fields}
    assert client.post(url, {**data, "sold_by": "500/127"}).status_code == 200  # no such step
    chosen = client.get(url).context["step"].fields["sold_by"].choices
    ten = next(value for value, words in chosen if words == "10 cm")
    assert client.post(url, {**data, "sold_by": ten}).status_code == 302
    assert Terms.objects.get().sold_by == 10 * CENTIMETRE
    cutting = client.get(reverse("shop-cutting", args=["sams-bolts", "small", 1])).content.decode()
    assert "0.3 m" in cutting
    freeze_and_order(Terms.objects.get(), by=sam(), now=NOW)
    answer = client.post(url, {**data, "sold_by": ""})
    assert "The order has been sent already" in answer.content.decode()
    assert Terms.objects.get().sold_by == 10 * CENTIMETRE
