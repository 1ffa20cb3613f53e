"""Poster and cards of a shop: one page, the shop's own cost and days, and a code that leads to sign up."""

from __future__ import annotations

import io
import re
from typing import TYPE_CHECKING

import pikepdf
import pytest
import time_machine
from django.urls import reverse
from pdfua import validate

from shops.web.shop_promotion import promotion_html, sign_up_address
from tests.cast import login, olga, sam
from tests.shops.factories import NOW as OPEN
from tests.shops.shop_cases import NOW, frozen_program, priced_terms
from tests.shops.test_public_pages import words

if TYPE_CHECKING:
    from pathlib import Path

    from django.test import Client

    from shops.models import Terms

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
KINDS = ("poster", "card")


@pytest.fixture
def terms() -> Terms:
    return priced_terms(frozen_program())


def url(kind: str) -> str:
    return reverse(f"shop-{kind}", args=["sams-bolts", "small"])


@pytest.mark.parametrize("kind", KINDS)
def test_cost_days_and_shop_stand_there(terms: Terms, kind: str) -> None:
    """25.00, two months at 15.50 and 56.50, with 14 %: 128.25."""
    said = words(promotion_html(terms, kind, now=OPEN).encode())
    assert "128.25" in said and "CAD 25.00" in said
    assert "Sam's Bolts, Port Averley, Nova Scotia" in said
    assert "16 Jan" in said or "16 January 2027" in said
    assert "31 December 2026" in said or "31 Dec 2026" in said


def test_the_code_leads_to_sign_up_and_then_to_the_page_of_the_program(terms: Terms) -> None:
    assert sign_up_address(terms, now=OPEN).endswith("/p/small/sign-up/sams-bolts/")
    terms.program.state = "ended"
    assert sign_up_address(terms, now=NOW).endswith("/p/small/")


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_one_page_whatever_it_says(client: Client, terms: Terms, tmp_path: Path, *, kind: str) -> None:
    terms.program.title = "A Very Long Name for a Year of Blocks Along the Coast"
    terms.program.lead = "Word after word, " * 40
    terms.program.save()
    terms.shop.name = "The Shop With the Longest Name of the Whole Street and Beyond"
    terms.shop.save()
    with time_machine.travel(OPEN, tick=False):
        login(client, sam())
        answer = client.get(url(kind))
        assert client.get(url(kind)).content == answer.content
    with pikepdf.open(io.BytesIO(answer.content)) as document:
        assert len(document.pages) == 1
        box = [float(side) for side in document.pages[0].MediaBox]
    assert box[2:] == [612, 792]  # Letter, in Canada
    path = tmp_path / "made.pdf"
    path.write_bytes(answer.content)
    assert list(validate(str(path)).findings) == []


def test_four_cards_are_alike(terms: Terms) -> None:
    html = promotion_html(terms, "card", now=OPEN)
    cards = re.findall(r"<article.*?</article>", html, re.DOTALL)
    assert len(cards) == 4
    assert len({card.replace(" right", "") for card in cards}) == 1


def test_a_draft_has_none_and_an_outsider_finds_nothing(client: Client, terms: Terms) -> None:
    assert login(client, olga()).get(url("poster")).status_code == 404
    terms.program.state = "draft"
    terms.program.save()
    assert login(client, sam()).get(url("poster")).status_code == 404


def test_the_shops_first_page_offers_both(client: Client, terms: Terms) -> None:
    page = login(client, sam()).get(reverse("shop-start", args=["sams-bolts", "small"])).content.decode()
    assert all(f'href="{url(kind)}"' in page for kind in KINDS)
