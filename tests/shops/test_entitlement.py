"""Who may have which sheet, and from when."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from bom.enums import InstallmentState
from bom.models import Installment
from shops.domain.entitlement import has_opened, may_have, opens_at
from shops.domain.sign_ups import leave
from shops.enums import Place, Takes
from shops.models import SignUp
from tests.shops.factories import (
    FIRST_RELEASE,
    NOW,
    make_open_program,
    make_shop,
    make_sign_up,
    make_terms,
)

pytestmark = pytest.mark.django_db
SECOND = timedelta(seconds=1)


@pytest.fixture
def paula() -> SignUp:
    return make_sign_up(make_terms(make_open_program()))


def first(sign_up: SignUp) -> Installment:
    return sign_up.terms.program.installments.get(number=1)


def test_refused_one_second_before_and_given_at_the_instant(paula: SignUp) -> None:
    assert not may_have(paula, first(paula), now=FIRST_RELEASE - SECOND)
    assert may_have(paula, first(paula), now=FIRST_RELEASE)


def test_a_missed_sweep_makes_no_difference(paula: SignUp) -> None:
    installment = first(paula)
    assert installment.state == InstallmentState.SCHEDULED
    assert may_have(paula, installment, now=FIRST_RELEASE + timedelta(days=3))


@pytest.mark.parametrize(
    "state", [InstallmentState.DRAFT, InstallmentState.EDITED, InstallmentState.APPROVED]
)
def test_what_is_not_scheduled_never_opens(paula: SignUp, state: InstallmentState) -> None:
    installment = first(paula)
    installment.state = state
    assert opens_at(installment, paula.terms) is None
    assert not may_have(paula, installment, now=FIRST_RELEASE + timedelta(days=999))


def test_a_released_state_does_not_open_before_the_instant(paula: SignUp) -> None:
    installment = first(paula)
    installment.state = InstallmentState.RELEASED
    assert not may_have(paula, installment, now=FIRST_RELEASE - SECOND)


def test_a_shop_may_hold_back(paula: SignUp) -> None:
    paula.terms.hold_hours = 48
    held = FIRST_RELEASE + timedelta(hours=48)
    assert opens_at(first(paula), paula.terms) == held
    assert not may_have(paula, first(paula), now=held - SECOND)
    assert may_have(paula, first(paula), now=held)


def test_the_waiting_list_gets_no_sheet(paula: SignUp) -> None:
    paula.place = Place.WAITING
    assert not may_have(paula, first(paula), now=FIRST_RELEASE)


def test_who_takes_the_packet_only_gets_no_sheet_but_may_sew(paula: SignUp) -> None:
    paula.takes = Takes.PACKET
    assert not may_have(paula, first(paula), now=FIRST_RELEASE)
    assert has_opened(paula, first(paula), now=FIRST_RELEASE)


def test_another_program_stays_shut(paula: SignUp) -> None:
    other = Installment(program_id=paula.terms.program_id + 1, number=1, state=InstallmentState.RELEASED)
    other.release_at = FIRST_RELEASE
    assert not may_have(paula, other, now=FIRST_RELEASE)


def test_a_joiner_starts_with_the_first_installment_paid_for(paula: SignUp) -> None:
    paula.first_installment = 2
    second = paula.terms.program.installments.get(number=2)
    later = FIRST_RELEASE + timedelta(weeks=4)
    assert not may_have(paula, first(paula), now=later)
    assert may_have(paula, second, now=later)


def test_a_leaver_keeps_what_had_come_out(paula: SignUp) -> None:
    leave(sign_up=paula, day=date(2027, 1, 16), now=NOW)
    second = paula.terms.program.installments.get(number=2)
    year_end = FIRST_RELEASE + timedelta(days=300)
    assert may_have(paula, first(paula), now=year_end)
    assert not may_have(paula, second, now=year_end)


def test_the_day_of_leaving_is_a_day_of_the_shop() -> None:
    shop = make_shop("kea-street", country="NZ", zone="Pacific/Auckland", currency="NZD")
    paula = make_sign_up(make_terms(make_open_program(), shop))
    leave(sign_up=paula, day=date(2027, 1, 16), now=NOW)  # there the sheet opens on the 17th, at 03:00
    assert not may_have(paula, first(paula), now=FIRST_RELEASE)
