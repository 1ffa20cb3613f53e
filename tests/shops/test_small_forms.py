"""Fat quarters and eighths in packets: a shop cuts one length for two of them."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from django.urls import reverse

from patterns.engine.yardage import FabricForm
from shops.domain.head_count import freeze_and_order
from shops.domain.needs import needs_of
from shops.domain.orders import order_of
from tests.cast import login, sam
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from django.test import Client

    from shops.models import Terms

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
ALLOWED = ["fat quarter 18 x 22", "fat eighth 9 x 22"]


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program(precuts=ALLOWED))
    three_people(terms)
    return terms


def test_one_cut_is_counted_for_two_packets(terms: Terms) -> None:
    small = [each for each in needs_of(terms, {"harbour": 5}) if not each.line.is_length]
    assert small
    for need in small:
        packets = need.counts.packets
        assert need.cuts == -(-packets // 2)
        assert need.length == {FabricForm.FAT_QUARTER: 18, FabricForm.FAT_EIGHTH: 9}[need.line.line.form]


def test_the_order_takes_no_more_than_lengths_would(terms: Terms) -> None:
    def inches(found: Terms) -> dict[str, Fraction]:
        rows = order_of(found).rows
        return {row.fabric.name: sum((length * n for length, n in row.cuts), Fraction(0)) for row in rows}

    small = inches(terms)
    terms.program.precuts = []
    lengths = inches(terms)
    assert all(small[name] <= lengths[name] for name in lengths)
    assert small != lengths


def test_cutting_day_says_that_a_cut_is_halved_and_the_bag_gets_its_form(
    client: Client, terms: Terms
) -> None:
    number = next(each.number for each in needs_of(terms, {"harbour": 2}) if not each.line.is_length)
    freeze_and_order(terms, by=sam(), now=NOW)
    login(client, sam())
    page = client.get(reverse("shop-cutting", args=["sams-bolts", "small", number])).content.decode()
    assert "full width, then halved at the fold: a fat eighth each, each cut serves 2 packets" in page
