"""The sheet of a cutting day: the page's cuts, on paper, for who works in the shop."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from django.urls import reverse
from pdfua import validate

from shops.domain.cutting_day import cutting_day
from shops.models import FabricOffer, Terms
from shops.web.shop_cutting_sheet import cloth_rows, cutting_sheet_html
from tests.cast import login, olga, sam
from tests.shops.shop_cases import frozen_program, priced_terms, with_seats
from tests.shops.test_public_pages import words

if TYPE_CHECKING:
    from pathlib import Path

    from django.test import Client

    from shops.domain.cutting_day import CuttingDay

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def terms() -> Terms:
    return with_seats(priced_terms(frozen_program()), harbour=3)


def day_of(terms: Terms, number: int) -> CuttingDay:
    return cutting_day(terms, terms.program.installments.get(number=number))


def said(terms: Terms, number: int) -> str:
    day = day_of(terms, number)
    return words(cutting_sheet_html(day, day.installment).encode())


def url(number: int = 1) -> str:
    return reverse("shop-cutting-sheet", args=["sams-bolts", "small", number])


def test_every_cut_of_every_bolt_has_a_box(terms: Terms) -> None:
    """Three seats, two spares, a first packet and one for the window: seven cuts of each fabric."""
    day = day_of(terms, 2)
    rows = cloth_rows(day)
    assert [row.total for row in rows] == [job.total for job in day.jobs] == [7] * len(rows)
    boxes = [sum(len(five) for bolt in row.bolts for five in bolt.boxes) for row in rows]
    assert boxes == [7] * len(rows)
    assert [len(five) for five in rows[0].bolts[0].boxes] == [5, 2]
    html = cutting_sheet_html(day, terms.program.installments.get(number=2))
    assert html.count('<span class="tick">') == 7 * len(rows)


def test_cuts_are_told_in_their_order_and_what_is_left(terms: Terms) -> None:
    """A bolt of 15 yd less 1 in to straighten, seven cuts of 9 1/2 in: 540 - 1 - 66 1/2 = 472 1/2 in."""
    page = said(terms, 1)
    assert "Harbour 3 2 1 1 7" in page
    assert "Bolt B-1, 15 yd as ordered, measured, straighten it first." in page
    assert "7 of 9 1 ⁄ 2 in ; 13 yd 4 1 ⁄ 2 in left then." in page
    assert "B, Tidewater star 1 ⁄ 4 yd" in page
    assert "No edition of the sheet yet" in page


def test_earlier_months_are_gone_from_the_bolt(terms: Terms) -> None:
    assert "7 cuts of earlier months gone" in said(terms, 2)


def test_it_is_for_who_works_there_and_where_something_is_cut(client: Client, terms: Terms) -> None:
    assert client.get(url()).status_code == 302
    assert login(client, olga()).get(url()).status_code == 404
    assert login(client, sam()).get(url(3)).status_code == 404  # a month to catch up
    page = client.get(reverse("shop-cutting", args=["sams-bolts", "small", 1])).content.decode()
    assert f'href="{url()}"' in page


def test_the_file_is_tagged_and_the_second_is_the_same(client: Client, terms: Terms, tmp_path: Path) -> None:
    answer = login(client, sam()).get(url())
    assert answer["Content-Disposition"] == 'inline; filename="small-01-cutting-day.pdf"'
    assert client.get(url()).content == answer.content
    path = tmp_path / "day.pdf"
    path.write_bytes(answer.content)
    assert list(validate(str(path)).findings) == []


def test_what_cannot_be_worked_out_leads_back(client: Client, terms: Terms) -> None:
    FabricOffer.objects.filter(shop=terms.shop).update(bolt_length=5)
    answer = login(client, sam()).get(url())
    assert answer["Location"] == reverse("shop-cutting", args=["sams-bolts", "small", 1])
