"""The designer's page of shops: numbers of seats and editions, nobody's name."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from django.test import Client

from bom.domain.freezing import freeze_fabric
from bom.domain.program_files import export_program, import_program
from bom.errors import BadProgramFile
from bom.models import AuditEntry
from patterns.models import Fabric
from shops.domain.program_shops import shop_rows
from shops.domain.touched import touched_cuts
from shops.enums import Place, Takes
from shops.models import CutCount
from tests.bom.web.designers import NOW, as_, editor_of, small_program
from tests.cast import dora, olga, paula, person, sam, sams_terms, seat

if TYPE_CHECKING:
    from pytest_django import DjangoAssertNumQueries

    from bom.models import Program

pytestmark = pytest.mark.django_db
SHOPS = "/program/small/shops/"


@pytest.fixture
def program() -> Program:
    return small_program()


def test_seats_packets_and_the_waiting_list_are_counted_apart(program: Program) -> None:
    terms = sams_terms(program)
    seat(terms, paula())
    seat(terms, person("Ruth"), takes=Takes.SHEET)
    seat(terms, person("Nils"), place=Place.WAITING)
    (row,) = shop_rows(program)
    assert (row.seats, row.packets, row.waiting, row.ordered_at) == (2, 1, 1, None)


def test_the_page_names_the_shop_and_no_person(program: Program) -> None:
    seat(sams_terms(program), paula())
    page = as_(dora()).get(SHOPS).content.decode()
    assert "Sam&#x27;s Bolts" in page
    assert "1 of 10" in page
    assert "Paula" not in page


def test_without_a_shop_the_page_says_what_to_do(program: Program) -> None:
    assert "No shop takes part yet." in as_(dora()).get(SHOPS).content.decode()


def test_who_may_look(program: Program) -> None:
    assert as_(editor_of(program)).get(SHOPS).status_code == 200
    assert as_(olga()).get(SHOPS).status_code == 404
    assert Client().get(SHOPS).status_code == 302


def test_more_people_need_no_more_queries(
    program: Program, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    terms = sams_terms(program)
    for name in ("Paula", "Ruth", "Nils"):
        seat(terms, person(name))
    with django_assert_num_queries(2):
        shop_rows(program)


def test_packets_cut_before_a_change_are_named_with_their_shop(program: Program) -> None:
    terms = sams_terms(program)
    assert touched_cuts(program) == []
    freeze_fabric(program, by=dora(), now=NOW)
    program.refresh_from_db()
    fog = Fabric.objects.get(number="TW-1")
    CutCount.objects.create(terms=terms, installment=program.installments.get(number=5), fabric=fog, made=6)
    assert touched_cuts(program) == []
    program.quilt.border_width = "1"
    program.quilt.save()
    found = touched_cuts(program)
    assert {(each.count.made, each.change.number, each.change.rises) for each in found} == {(6, 5, False)}
    page = as_(dora()).get(SHOPS).content.decode()
    assert "Cut already, and changed since" in page
    assert "TW-1 Tidewater background" in page


def test_the_designer_suggests_a_price_and_shops_set_their_own(program: Program) -> None:
    terms = sams_terms(program)
    client = as_(dora())
    for _again in range(2):
        answer = client.post(SHOPS, {"amount": "15.00", "currency": "CAD"})
        assert answer["Location"] == SHOPS
    program.refresh_from_db()
    assert (program.suggested_monthly, program.suggested_currency) == (Decimal("15.00"), "CAD")
    assert AuditEntry.objects.filter(verb="suggest price").count() == 1
    page = as_(sam()).get(f"/shop/{terms.shop.slug}/small/order/costs/").content.decode()
    assert "The designer suggests" in page
    data = export_program(program)
    again = import_program({**data, "slug": "again"}, designer=dora(), now=NOW)
    assert (again.suggested_monthly, again.suggested_currency) == (Decimal("15.00"), "CAD")
    with pytest.raises(BadProgramFile):
        import_program({**data, "slug": "third", "suggested_monthly": "much"}, designer=dora(), now=NOW)
    client.post(SHOPS, {"amount": "", "currency": "CAD"})
    program.refresh_from_db()
    assert (program.suggested_monthly, program.suggested_currency) == (None, "")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        ({"amount": "15", "currency": ""}, "Say in which currency"),
        ({"amount": "-1", "currency": "CAD"}, "greater than or equal to 0"),
        ({"amount": "15", "currency": "dollars"}, "at most 3"),
    ],
)
def test_a_suggestion_that_is_none_is_refused(program: Program, data: dict[str, str], words: str) -> None:
    sams_terms(program)
    assert words in as_(dora()).post(SHOPS, data).content.decode()


def test_only_the_designer_suggests(program: Program) -> None:
    sams_terms(program)
    for person_ in (editor_of(program), olga()):
        assert as_(person_).post(SHOPS, {"amount": "15", "currency": "CAD"}).status_code == 404
    assert "Suggest it" not in as_(editor_of(program)).get(SHOPS).content.decode()
