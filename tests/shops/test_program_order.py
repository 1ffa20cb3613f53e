"""The order over all shops: every fabric once, every column, every letter, and the day to order by."""

from __future__ import annotations

import csv
from datetime import date
from decimal import Decimal
from io import BytesIO, StringIO
from typing import TYPE_CHECKING

import pytest
from django.urls import reverse
from openpyxl import load_workbook

from bom.domain.chain import work_of
from patterns.engine.measure import write_inches
from patterns.models import Fabric
from shops.domain.head_count import freeze_and_order
from shops.domain.orders import order_of
from shops.domain.program_order import FabricOrderRow, ProgramOrder, program_order
from shops.models import FabricOffer, OrderLine, Terms
from tests.cast import dora, login, olga, sam, sams_shop
from tests.shops.factories import make_shop, make_terms
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people, with_seats

if TYPE_CHECKING:
    from django.test import Client

pytestmark = pytest.mark.django_db


@pytest.fixture
def terms() -> Terms:
    """Two shops: Sam's with two packets of one colorway, another with five and three."""
    terms = priced_terms(frozen_program())
    three_people(terms)
    other = make_terms(terms.program, make_shop(), bolts_due_day=date(2026, 12, 11))
    with_seats(other, harbour=5, meadow=3)
    return terms


def row(found: ProgramOrder, name: str) -> FabricOrderRow:
    return next(each for each in found.rows if each.fabric.name == f"Tidewater {name}")


def test_each_fabric_is_the_sum_of_the_shops_column_by_column(terms: Terms) -> None:
    found = program_order(terms.program)
    orders = [order_of(each) for each in Terms.objects.all()]
    star = row(found, "star")
    assert star.counts.seats == 2 * 2 + 2 * (5 + 3)
    assert star.counts.spares == 2 * 2 + 2 * 2 * 2
    assert (star.counts.first_packets, star.counts.samples) == (6, 6)
    assert found.counts == sum((each.counts for each in orders[1:]), start=orders[0].counts)
    assert sum(each.bolts for each in found.rows) == sum(each.bolts for each in orders)
    assert all(each.needed <= each.bought for each in found.rows)


def test_every_letter_seen_in_a_picture_has_a_line(terms: Terms) -> None:
    work = work_of(terms.program)
    drawn = {
        patch.fabric
        for each in work.installments
        for part in each.parts
        if part.drawing
        for patch in part.drawing.patches
    }
    sewn = {letter for each in work.installments for letter in each.letters}
    assert drawn <= sewn == program_order(terms.program).letters


def test_a_sent_order_counts_as_sent(terms: Terms) -> None:
    freeze_and_order(terms, by=sam(), now=NOW)
    OrderLine.objects.filter(fabric__name="Tidewater star").update(bolts=9)
    star = row(program_order(terms.program), "star")
    assert sorted((part.terms.shop.slug, part.bolts, part.is_sent) for part in star.parts) == [
        ("oblong-drawer", 1, False),
        ("sams-bolts", 9, True),
    ]


def test_the_day_to_order_by_is_the_day_due_less_the_lead_time(terms: Terms) -> None:
    """Sam's bolts are due on 8 January 2027, 81 days after 19 October; 4 days are 4 January."""
    star = Fabric.objects.get(name="Tidewater star")
    mine = next(part for part in row(program_order(terms.program), "star").parts if part.terms == terms)
    assert (mine.order_by, mine.comes_late) == (date(2026, 10, 19), True)
    FabricOffer.objects.filter(shop=sams_shop(), fabric=star).update(lead_days=4)
    found = row(program_order(terms.program), "star")
    mine = next(part for part in found.parts if part.terms == terms)
    assert (mine.order_by, mine.comes_late) == (date(2027, 1, 4), False)
    assert found.order_by == date(2026, 9, 21)  # the other shop's, due 11 December
    freeze_and_order(terms, by=sam(), now=NOW)
    assert not any(
        part.comes_late for part in row(program_order(terms.program), "star").parts if part.is_sent
    )


def test_a_shop_whose_order_cannot_be_worked_out_is_named(terms: Terms) -> None:
    other = Terms.objects.exclude(pk=terms.pk).get()
    backing = Fabric.objects.get(name="Tidewater backing")
    FabricOffer.objects.create(
        shop=other.shop, fabric=backing, price_per_bolt=Decimal(9), bolt_length="9", end_loss="1"
    )
    found = program_order(terms.program)
    assert found.left_out == (other,)
    assert [order.terms for order in found.orders] == [terms]


def test_the_designer_reads_it_and_nobody_else(client: Client, terms: Terms) -> None:
    address = reverse("program-orders", args=["small"])
    assert client.get(address).status_code == 302
    for outsider in (olga(), sam()):
        assert login(client, outsider).get(address).status_code == 404
    page = " ".join(login(client, dora()).get(address).content.decode().split())
    assert "2 shops take" in page
    assert "must order Tidewater star by" in page


def test_the_files_say_what_the_page_says(client: Client, terms: Terms) -> None:
    at_work, found = login(client, dora()), program_order(terms.program)

    def file(kind: str) -> bytes:
        return at_work.get(reverse("program-orders-file", args=["small", kind])).content

    rows = list(csv.reader(StringIO(file("csv").decode("utf-8-sig"))))
    star = next(each for each in rows if each[0] == "Tidewater star")
    mine = row(found, "star")
    assert rows[0][3:8] == ["seats", "spares", "first packets", "samples", "packets"]
    assert star[3:8] == ["20", "12", "6", "6", "44"]
    assert star[8:11] == [write_inches(mine.needed), str(mine.bolts), write_inches(mine.bought)]
    assert star[12] == f"Oblong Drawer {mine.parts[0].bolts}; {mine.parts[1].terms.shop.name} 1"
    sheet = load_workbook(BytesIO(file("xlsx"))).active
    assert sheet is not None
    names = [cells[0] for cells in sheet.iter_rows(values_only=True)]
    assert [name for name in names if name in {each.fabric.name for each in found.rows}] == [
        each.fabric.name for each in found.rows
    ]
    assert file("pdf").startswith(b"%PDF")
    assert at_work.get(reverse("program-orders-file", args=["small", "doc"])).status_code == 404


def test_the_files_are_the_designers_alone(client: Client, terms: Terms) -> None:
    address = reverse("program-orders-file", args=[terms.program.slug, "csv"])
    assert client.get(address).status_code == 302
    assert login(client, sam()).get(address).status_code == 404


def test_nobody_yet_is_one_sentence(client: Client) -> None:
    priced_terms(frozen_program())
    page = login(client, dora()).get(reverse("program-orders", args=["small"])).content.decode()
    assert "Nobody takes a packet at any shop yet" in page
