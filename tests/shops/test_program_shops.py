"""The designer's page of shops: numbers of seats and editions, nobody's name."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from django.test import Client

from bom.domain.freezing import freeze_fabric
from patterns.models import Fabric
from shops.domain.program_shops import shop_rows
from shops.domain.touched import touched_cuts
from shops.enums import Place, Takes
from shops.models import CutCount
from tests.bom.web.designers import NOW, as_, editor_of, small_program
from tests.cast import dora, olga, paula, person, sams_terms, seat

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
