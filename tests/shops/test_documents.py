"""Documents of a participant: given when their numbers are out, in the person's own form, stamped."""

from __future__ import annotations

import subprocess
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
import time_machine
from django.test import Client

from bom.domain.sheets.document_kinds import said_in
from bom.enums import Document
from shops.domain.documents import may_have_document, wish_of
from shops.enums import Place, Takes
from tests.cast import olga
from tests.shops.factories import FIRST_RELEASE, NOW, make_open_program, make_sign_up, make_terms
from tests.shops.test_public_pages import words

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from django.http import HttpResponse

    from patterns.models import User
    from shops.models import SignUp

pytestmark = pytest.mark.django_db
SECOND = timedelta(seconds=1)
LAST_RELEASE = FIRST_RELEASE + timedelta(weeks=16)  # of installment 5; the joining is out before
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def paula() -> SignUp:
    return make_sign_up(make_terms(make_open_program()))


def take(sign_up: SignUp, kind: str, at: datetime, *, user: User | None = None) -> HttpResponse:
    client = Client()
    with time_machine.travel(at, tick=False):
        client.force_login(user or sign_up.participant.user, backend=BACKEND)
        return client.get(f"/my/{sign_up.pk}/document/{kind}.pdf")


def test_finishing_comes_with_the_last_month_that_finishes(paula: SignUp) -> None:
    assert not may_have_document(paula, Document.FINISHING, now=LAST_RELEASE - SECOND)
    assert may_have_document(paula, Document.FINISHING, now=LAST_RELEASE)
    assert take(paula, "finishing", LAST_RELEASE - SECOND).status_code == 404


def test_a_quilt_that_no_month_finishes_gives_it_with_the_last_one(paula: SignUp) -> None:
    for number in (4, 5):
        paula.terms.program.installments.get(number=number).parts.all().delete()
    assert not may_have_document(paula, Document.FINISHING, now=LAST_RELEASE - SECOND)
    assert may_have_document(paula, Document.FINISHING, now=LAST_RELEASE)


@pytest.mark.parametrize("fields", [{"place": Place.WAITING}, {"takes": Takes.PACKET}])
def test_it_is_for_seats_that_take_sheets(paula: SignUp, fields: dict[str, str]) -> None:
    type(paula).objects.filter(pk=paula.pk).update(**fields)
    assert take(paula, "finishing", LAST_RELEASE).status_code == 404


def test_an_outsider_and_an_unknown_document_find_nothing(paula: SignUp) -> None:
    other = take(paula, "finishing", LAST_RELEASE, user=olga())
    unknown = take(paula, "nothing", LAST_RELEASE)
    assert (other.status_code, unknown.status_code) == (404, 404)
    assert other.content == unknown.content


def test_the_supply_list_is_for_every_seat_from_the_first_day(paula: SignUp) -> None:
    assert may_have_document(paula, Document.SUPPLIES, now=NOW)
    paula.takes = Takes.PACKET
    assert may_have_document(paula, Document.SUPPLIES, now=NOW)
    paula.place = Place.WAITING
    assert not may_have_document(paula, Document.SUPPLIES, now=NOW)


def test_the_supply_list_says_what_this_place_costs(paula: SignUp) -> None:
    """25.00 at sign-up, two months with blocks at 15.50, 56.50 to finish: 112.50, and 14 % tax: 128.25."""
    said = words(said_in(Document.SUPPLIES, wish_of(paula, Document.SUPPLIES, now=NOW)).encode())
    assert "2 × 15.50" in said
    assert "To pay at the shop, in all 128.25" in said
    assert "Your fabric comes month by month from Oblong Drawer" in said


def test_who_brings_own_fabric_pays_for_no_packets(paula: SignUp) -> None:
    type(paula).objects.filter(pk=paula.pk).update(takes=Takes.SHEET)
    paula.refresh_from_db()
    said = words(said_in(Document.SUPPLIES, wish_of(paula, Document.SUPPLIES, now=NOW)).encode())
    assert "To pay at the shop, in all 28.50" in said  # 25.00 and 14 %
    assert "Months with a packet" not in said
    assert "You use your own fabric: buy what is below" in said


def test_whole_cutting_is_for_own_fabric_and_for_what_is_out(paula: SignUp) -> None:
    assert not may_have_document(paula, Document.CUTTING, now=LAST_RELEASE)
    paula.takes = Takes.SHEET
    assert not may_have_document(paula, Document.CUTTING, now=FIRST_RELEASE - SECOND)
    assert may_have_document(paula, Document.CUTTING, now=FIRST_RELEASE)
    for weeks, numbers in ((0, {1}), (4, {1, 2}), (16, {1, 2, 3, 4, 5})):
        now = FIRST_RELEASE + timedelta(weeks=weeks)
        assert wish_of(paula, Document.CUTTING, now=now).months() == numbers


def test_my_year_names_it_when_it_is_there(paula: SignUp) -> None:
    client = Client()
    for at, count in ((LAST_RELEASE - SECOND, 0), (LAST_RELEASE, 1)):
        with time_machine.travel(at, tick=False):
            client.force_login(paula.participant.user, backend=BACKEND)
            page = client.get(f"/my/{paula.pk}/").content.decode()
        assert page.count(f'href="/my/{paula.pk}/document/finishing.pdf"') == count


@pytest.mark.slow
def test_every_page_says_whose_copy_it_is(paula: SignUp, tmp_path: Path) -> None:
    answer = take(paula, "finishing", LAST_RELEASE)
    assert answer["Content-Disposition"] == 'attachment; filename="small-finishing.pdf"'
    assert answer.content == take(paula, "finishing", LAST_RELEASE).content
    path = tmp_path / "finishing.pdf"
    path.write_bytes(answer.content)
    text = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True, check=True).stdout
    assert text.count("Paula, 1, Oblong Drawer") == text.count("\f")
