"""Pick-up: a packet is given once, and taken back when it was the wrong row."""

from __future__ import annotations

import pytest

from bom.errors import WrongState
from bom.models import AuditEntry
from shops.domain.pick_ups import give_packet, pick_up_rows, take_back_packet
from shops.models import PickUp, SignUp, Terms
from tests.cast import person, sam, seat
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

pytestmark = pytest.mark.django_db


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program())
    three_people(terms)
    seat(terms, person("Joan"), first_installment=2)
    return terms


def names(terms: Terms, number: int) -> list[str]:
    rows = pick_up_rows(terms, terms.program.installments.get(number=number))
    return [row.sign_up.packet_name for row in rows]


def test_the_list_holds_seats_with_a_packet_from_the_month_of_joining(terms: Terms) -> None:
    assert names(terms, 1) == ["Paula", "Marit"]  # Tove takes the sheet only, Wim waits
    assert names(terms, 2) == ["Paula", "Marit", "Joan"]


def test_a_packet_is_given_once_by_whom_and_when(terms: Terms) -> None:
    paula, first = SignUp.objects.get(packet_name="Paula"), terms.program.installments.get(number=1)
    assert give_packet(paula, first, by=sam(), now=NOW)
    assert not give_packet(paula, first, by=sam(), now=NOW)
    given = PickUp.objects.get()
    assert (given.sign_up, given.given_by, given.at) == (paula, sam(), NOW)
    assert [row.given for row in pick_up_rows(terms, first)] == [given, None]
    assert AuditEntry.objects.get(verb="give packet").facts == {"installment": 1, "number": 1}


def test_taking_back_removes_the_record_once(terms: Terms) -> None:
    paula, first = SignUp.objects.get(packet_name="Paula"), terms.program.installments.get(number=1)
    give_packet(paula, first, by=sam(), now=NOW)
    assert take_back_packet(paula, first, by=sam(), now=NOW)
    assert not take_back_packet(paula, first, by=sam(), now=NOW)
    assert not PickUp.objects.exists()
    assert AuditEntry.objects.filter(verb="take packet back").count() == 1


@pytest.mark.parametrize("name", ["Tove", "Wim", "Joan"])
def test_no_packet_goes_to_whom_it_is_not_for(terms: Terms, name: str) -> None:
    first = terms.program.installments.get(number=1)
    with pytest.raises(WrongState) as refused:
        give_packet(SignUp.objects.get(packet_name=name), first, by=sam(), now=NOW)
    assert refused.value.field == "sign-up"
    assert not PickUp.objects.exists()


def test_who_left_stays_on_the_list_of_what_was_given(terms: Terms) -> None:
    paula, first = SignUp.objects.get(packet_name="Paula"), terms.program.installments.get(number=1)
    give_packet(paula, first, by=sam(), now=NOW)
    SignUp.objects.filter(pk=paula.pk).update(left_on=NOW.date())
    assert names(terms, 1) == ["Paula", "Marit"]
    assert names(terms, 2) == ["Marit", "Joan"]
