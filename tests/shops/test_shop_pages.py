"""The pages of a shop: what they say, and that a second click changes nothing."""

from __future__ import annotations

import csv
from io import BytesIO, StringIO
from typing import TYPE_CHECKING

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from openpyxl import load_workbook
from pypdfium2 import PdfDocument

from shops.domain.head_count import freeze_and_order
from shops.models import CutCount, FabricOrder, PickUp, SignUp, Terms
from tests.cast import login, person, sam, seat
from tests.factories import make_program
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people, with_seats

if TYPE_CHECKING:
    from django.test import Client

pytestmark = pytest.mark.django_db


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program())
    three_people(terms)
    return terms


@pytest.fixture
def at_work(client: Client, terms: Terms) -> Client:
    return login(client, sam())


def url(name: str, *parts: object) -> str:
    return reverse(name, args=["sams-bolts", "small", *parts])


def said(client: Client, name: str, *parts: object, query: str = "") -> str:
    response = client.get(url(name, *parts) + query)
    assert response.status_code == 200, response
    return " ".join(response.content.decode().split())


def test_the_start_page_names_the_days_and_the_public_address(at_work: Client) -> None:
    page = said(at_work, "shop-start")
    assert "3 seats of 10 are taken, 2 with a packet." in page
    assert "1 person waits." in page
    assert "http://testserver/p/small/sign-up/sams-bolts/" in page
    assert "The page for your shop is ready: copy its address." in page
    assert "Thursday 31 December 2026" in page


def test_the_list_shows_names_on_packets_and_no_address(at_work: Client) -> None:
    page = said(at_work, "shop-sign-ups")
    for name in ("Paula", "Marit", "Tove", "Wim"):
        assert name in page
    assert "@example.org" not in page
    assert "waiting list" in page


@pytest.mark.parametrize(
    ("query", "names"),
    [
        ("?q=mar", ["Marit"]),
        ("?q=3", ["Tove"]),
        ("?place=waiting", ["Wim"]),
        ("?place=left", []),
        ("?colorway=meadow", []),
        ("?sort=-number", ["Wim", "Tove", "Marit", "Paula"]),
        ("?q=" + "9" * 40, []),
        ("?place=nonsense&page=99", ["Paula", "Marit", "Tove", "Wim"]),
    ],
)
def test_the_list_is_searched_filtered_and_sorted(at_work: Client, query: str, names: list[str]) -> None:
    response = at_work.get(url("shop-sign-ups") + query)
    assert response.status_code == 200
    assert [row.record.packet_name for row in response.context["table"].paginated_rows] == names


def test_the_list_comes_in_pages_of_25_with_as_many_queries(at_work: Client, terms: Terms) -> None:
    with CaptureQueriesContext(
        connection,
    ) as few:
        said(at_work, "shop-sign-ups")
    for number in range(30):
        seat(terms, person(f"Person{number}"))
    with CaptureQueriesContext(connection) as many:
        response = at_work.get(url("shop-sign-ups"))
    assert len(response.context["table"].page.object_list) == 25
    assert len(many) == len(few)


def test_the_list_as_a_file_holds_no_address_and_no_formula(at_work: Client, terms: Terms) -> None:
    seat(terms, person("Eve"), packet_name="=1+1")
    response = at_work.get(url("shop-sign-ups-file"))
    assert response["Content-Disposition"] == 'attachment; filename="small-sams-bolts-sign-ups.csv"'
    rows = list(csv.reader(StringIO(response.content.decode("utf-8-sig"))))
    assert [row[1] for row in rows[1:]] == ["Paula", "Marit", "Tove", "Wim", "'=1+1"]
    assert "@example.org" not in response.content.decode()


def test_leaving_twice_is_leaving_once(at_work: Client) -> None:
    for _again in range(2):
        response = at_work.post(url("shop-sign-up-leave", 1), follow=True)
        assert response.status_code == 200
    assert "Left on" in response.content.decode()
    assert SignUp.objects.get(number=1).left_on is not None


def test_a_free_seat_goes_to_who_waits(at_work: Client) -> None:
    page = said(at_work, "shop-sign-up", 4)
    assert "On the waiting list." in page
    assert "Give a free seat" in page
    at_work.post(url("shop-sign-up-seat", 4))
    at_work.post(url("shop-sign-up-seat", 4))
    assert SignUp.objects.get(number=4).place == "seat"


def test_no_seat_is_promised_where_none_is_free(at_work: Client, terms: Terms) -> None:
    with_seats(terms, harbour=2)
    assert "Give a free seat" not in said(at_work, "shop-sign-up", 4)
    response = at_work.post(url("shop-sign-up-seat", 4), follow=True)
    assert "No seat is free for Wim." in response.content.decode()


@pytest.mark.parametrize("asked", ["?page=99", "?page=two", "?per_page=-1", "?page=0&per_page=0"])
def test_a_page_that_there_is_not_shows_the_nearest(at_work: Client, asked: str) -> None:
    assert "Paula" in said(at_work, "shop-sign-ups", query=asked)


def test_the_order_page_says_columns_money_and_what_it_hangs_on(at_work: Client) -> None:
    page = said(at_work, "shop-order")
    assert "2 people take a packet." in page
    assert 'order by <b class="rub">Monday 4 January 2027</b>' in page
    assert "1 person waits and is not ordered for." in page
    assert "600.00" in page
    assert "nothing is saved" in page
    assert "Freeze and order" in page


def test_freezing_and_ordering_is_asked_twice_and_done_once(at_work: Client, terms: Terms) -> None:
    confirm = at_work.get(url("shop-order-confirm"))
    seen = confirm.context["seen"]
    for _again in range(2):
        response = at_work.post(url("shop-order-confirm"), {"seen": seen}, follow=True)
    page = " ".join(response.content.decode().split())
    assert "is kept as sent." in page
    assert "Freeze and order" not in page
    assert FabricOrder.objects.count() == 1
    terms.refresh_from_db()
    assert terms.frozen_seats == {"harbour": 2}


def test_numbers_that_changed_meanwhile_are_not_ordered(at_work: Client, terms: Terms) -> None:
    seen = at_work.get(url("shop-order-confirm")).context["seen"]
    seat(terms, person("Nora"))
    response = at_work.post(url("shop-order-confirm"), {"seen": seen}, follow=True)
    assert "The numbers have changed meanwhile." in response.content.decode()
    assert not FabricOrder.objects.exists()


def test_before_the_fabric_freeze_nothing_is_ordered(client: Client) -> None:
    terms = priced_terms(make_program(state="open"))
    three_people(terms)
    login(client, sam())
    page = said(client, "shop-order")
    assert "The designer has not passed the fabric freeze yet." in page
    assert "Freeze and order" not in page
    assert client.post(url("shop-order-confirm"), {"seen": ""}).status_code == 302
    assert not FabricOrder.objects.exists()


def test_an_order_of_another_freeze_warns(at_work: Client, terms: Terms) -> None:
    freeze_and_order(terms, by=sam(), now=NOW)
    assert "was passed again" not in said(at_work, "shop-order")
    terms.program.frozen_hash = "e" * 64
    terms.program.save()
    assert "was passed again" in said(at_work, "shop-order")


def test_the_order_as_a_file_says_cuts_exactly(at_work: Client) -> None:
    response = at_work.get(url("shop-order-file"))
    rows = list(csv.reader(StringIO(response.content.decode("utf-8-sig"))))
    star = next(row for row in rows if row[0] == "Tidewater star")
    assert star[3:9] == ["1 2", "4", "4", "2", "2", "12"]
    assert star[10:12] == ["1", "540"]


def test_the_order_says_the_same_in_every_kind_of_file(at_work: Client) -> None:
    rows = list(csv.reader(StringIO(at_work.get(url("shop-order-file")).content.decode("utf-8-sig"))))
    sheet = load_workbook(BytesIO(at_work.get(url("shop-order-file", "xlsx")).content)).active
    assert sheet is not None
    bolts = [[row[0], row[8], row[10], row[11]] for row in sheet.iter_rows(values_only=True)]
    assert [[str(cell) for cell in row] for row in bolts] == [
        [row[0], row[8], row[10], row[11]] for row in rows
    ]
    paper = at_work.get(url("shop-order-file", "pdf")).content
    with PdfDocument(paper) as document:
        text = "".join(page.get_textpage().get_text_bounded() for page in document)
    assert all(row[0].split()[-1] in text and row[10] in text for row in rows[1:])
    assert at_work.get(url("shop-order-file", "doc")).status_code == 404


def test_nobody_yet_is_one_sentence_and_one_button(client: Client) -> None:
    priced_terms(frozen_program())
    login(client, sam())
    assert "No sign-ups yet. The page for your shop is ready: copy its address." in said(
        client, "shop-sign-ups"
    )
    assert "Nobody takes a packet yet" in said(client, "shop-order")
    assert "nobody takes a packet yet" in said(client, "shop-cutting", 1)
    assert "Nobody takes a packet of this installment yet." in said(client, "shop-pick-up", 1)


def test_cutting_counts_one_cut_a_click_and_a_double_click_once(at_work: Client, terms: Terms) -> None:
    job = at_work.get(url("shop-cutting", 1)).context["jobs"][0]
    assert job.title.startswith("Cut 6 lengths of ")
    address = url("shop-cutting-count", 1, job.job.fabric.pk)
    for _again in range(2):
        response = at_work.post(address, {"seen": "0", "to": "1"})
    assert response["Location"].endswith(f"#cloth-{job.job.fabric.pk}")
    assert CutCount.objects.get().made == 1
    assert "1 of 6 cut" in said(at_work, "shop-cutting", 1)
    at_work.post(address, {"seen": "1", "to": "0"})
    assert CutCount.objects.get().made == 0


@pytest.mark.parametrize("data", [{}, {"seen": "a", "to": "b"}, {"seen": "6", "to": "7"}])
def test_a_bent_count_is_refused_in_words(at_work: Client, data: dict[str, str]) -> None:
    fabric = at_work.get(url("shop-cutting", 1)).context["jobs"][0].job.fabric
    response = at_work.post(url("shop-cutting-count", 1, fabric.pk), data, follow=True)
    assert response.status_code == 200
    assert list(response.context["messages"])
    assert not CutCount.objects.exists()


def test_cutting_day_goes_to_the_next_installment_and_unknown_ones_are_not_there(at_work: Client) -> None:
    assert at_work.get(url("shop-cutting-next"))["Location"] == url("shop-cutting", 1)
    assert at_work.get(url("shop-pick-up-now"))["Location"] == url("shop-pick-up", 1)
    for name in ("shop-cutting", "shop-pick-up", "shop-sign-up"):
        assert at_work.get(url(name, 99)).status_code == 404


def test_a_packet_is_given_and_taken_back_once(at_work: Client) -> None:
    address = url("shop-pick-up-give", 1, 1)
    for _again in range(2):
        at_work.post(address)
    assert PickUp.objects.get().given_by == sam()
    assert "1 of 2 packets are given." in said(at_work, "shop-pick-up", 1)
    for _again in range(2):
        at_work.post(address, {"back": "1"})
    assert not PickUp.objects.exists()
    response = at_work.post(url("shop-pick-up-give", 1, 3), follow=True)
    assert "No packet of installment 1 is for Tove." in response.content.decode()


@pytest.mark.parametrize("name", ["shop-pick-up", "shop-cutting", "shop-order", "shop-start"])
def test_more_people_take_no_more_queries(at_work: Client, terms: Terms, name: str) -> None:
    parts = [1] if name in ("shop-pick-up", "shop-cutting") else []
    said(at_work, name, *parts)
    with CaptureQueriesContext(connection) as few:
        said(at_work, name, *parts)
    for number in range(3):
        seat(terms, person(f"Person{number}"))
    with CaptureQueriesContext(connection) as many:
        said(at_work, name, *parts)
    assert len(many) == len(few)
