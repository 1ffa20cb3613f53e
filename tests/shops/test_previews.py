"""The shop preview: the sheet under embargo, for the shop's people only, marked and written down."""

from __future__ import annotations

import subprocess
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
import time_machine
from django.urls import reverse

from bom.enums import InstallmentState
from bom.models import AuditEntry, Installment
from shops.domain.previews import may_preview, preview_text
from shops.models import ColorwayOffer, Terms
from tests.cast import login, olga, paula, sam, seat
from tests.shops.factories import FIRST_RELEASE
from tests.shops.shop_cases import frozen_program, priced_terms

if TYPE_CHECKING:
    from pathlib import Path

    from django.test import Client

pytestmark = pytest.mark.django_db
EARLY = FIRST_RELEASE - timedelta(days=12)
URL = reverse("shop-preview", args=["sams-bolts", "small", 1])


@pytest.fixture
def terms() -> Terms:
    return priced_terms(frozen_program())


def first(terms: Terms) -> Installment:
    return terms.program.installments.get(number=1)


@pytest.mark.parametrize("state", InstallmentState)
def test_shops_see_it_from_the_approval_on(terms: Terms, state: InstallmentState) -> None:
    mine = first(terms)
    mine.state = state
    assert may_preview(mine) == (state not in {InstallmentState.DRAFT, InstallmentState.EDITED})


def test_it_says_for_whom_and_until_when(terms: Terms) -> None:
    mine = first(terms)
    words = "PREVIEW for Sam's Bolts, Sam: not to be handed on before Saturday 16 January 2027"
    assert preview_text(terms, mine, by=sam(), now=EARLY) == words
    assert preview_text(terms, mine, by=sam(), now=FIRST_RELEASE) == "SHOP COPY for Sam's Bolts, Sam"
    mine.state = InstallmentState.APPROVED
    assert preview_text(terms, mine, by=sam(), now=EARLY).endswith("its day, which is not set yet")


def test_a_shops_own_hold_counts(terms: Terms) -> None:
    terms.hold_hours = 48
    assert preview_text(terms, first(terms), by=sam(), now=FIRST_RELEASE).endswith("18 January 2027")


def test_letters_outside_our_font_give_way_to_address_and_number(terms: Terms) -> None:
    terms.shop.name = "Ραφή"
    words = preview_text(terms, first(terms), by=sam(), now=FIRST_RELEASE)
    assert words == f"SHOP COPY for sams-bolts, {sam().pk}"


def test_a_draft_and_a_colorway_that_is_not_sold_are_unknown(client: Client, terms: Terms) -> None:
    login(client, sam())
    second = URL.replace("/1/", "/2/")  # a draft
    assert client.get(second).status_code == 404
    ColorwayOffer.objects.filter(colorway__slug="meadow").delete()
    assert client.get(f"{URL}?colorway=meadow").status_code == 404
    assert not AuditEntry.objects.filter(verb="take preview").exists()


def test_a_participant_and_an_outsider_get_none(client: Client, terms: Terms) -> None:
    seat(terms, paula())
    assert client.get(URL).status_code == 302
    for user in (paula(), olga()):
        assert login(client, user).get(URL).status_code == 404


def test_the_cutting_page_offers_it_in_the_colorways_that_are_sold(client: Client, terms: Terms) -> None:
    login(client, sam())
    pages = [
        client.get(reverse("shop-cutting", args=["sams-bolts", "small", number])).content.decode()
        for number in (1, 2)
    ]
    assert f'href="{URL}?colorway=meadow"' in pages[0]
    assert "preview.pdf" not in pages[1]


@pytest.mark.slow
def test_every_page_is_marked_and_each_taking_is_written_down(
    client: Client, terms: Terms, tmp_path: Path
) -> None:
    login(client, sam())
    with time_machine.travel(EARLY, tick=False):
        client.force_login(sam(), backend="django.contrib.auth.backends.ModelBackend")
        answers = [client.get(f"{URL}?colorway=meadow") for _ in range(2)]
    assert answers[0].content == answers[1].content
    assert answers[0]["Content-Disposition"] == 'attachment; filename="small-01-meadow-preview.pdf"'
    path = tmp_path / "preview.pdf"
    path.write_bytes(answers[0].content)
    text = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True, check=True).stdout
    assert text.count("PREVIEW for Sam's Bolts, Sam: not to be handed on before") == text.count("\f")
    taken = AuditEntry.objects.filter(verb="take preview", actor=sam())
    facts = {"shop": "sams-bolts", "colorway": "meadow", "edition": 0}
    assert [entry.facts for entry in taken] == [facts, facts]
    assert {entry.subject for entry in taken} == {"installment:small/1"}
