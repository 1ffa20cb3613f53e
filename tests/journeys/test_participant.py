"""A participant's story in a browser: from the public page to a sheet in the hand."""

from __future__ import annotations

import os
import re
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.utils import timezone

from bom.models import Outbox, Problem
from shops.models import SewnBlock, SheetCopy, SignUp
from tests.shops.factories import make_edition, make_open_program, make_rendering, make_terms, schedule

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page, ViewportSize
    from pytest_django.live_server_helper import LiveServer

    from bom.models import Program

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
# The browser's driver runs a loop in this thread; Django must not take it for a server's.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")
PHONE: ViewportSize = {"width": 390, "height": 844}


@pytest.fixture
def program() -> Program:
    """Open a program of which the first installment is out since an hour, and the second in a month."""
    program = make_open_program(lead="Three stars and a tide.")
    now = timezone.now()
    for installment in program.installments.all():
        schedule(installment, now - timedelta(hours=1) + timedelta(days=30 * (installment.number - 1)))
    make_terms(program, sign_up_until=(now + timedelta(days=2)).date())
    return program


def code_in_the_mail() -> str:
    found = re.search(r"\b\d{6}\b", Outbox.objects.filter(key__startswith="sign-in-code:").latest("pk").text)
    assert found is not None
    return found[0]


def check_access(page: Page) -> None:
    """Find no fault of WCAG 2.2 A and AA, nor of axe's best practices."""
    found = Axe().run(
        page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}
    )
    assert [each["id"] for each in found.response["violations"]] == []


def sign_up(page: Page, address: str) -> None:
    page.goto(f"{address}/p/small/")
    check_access(page)
    page.get_by_role("link", name="Sign up at Oblong Drawer").click()
    check_access(page)
    page.get_by_label("Your name").fill("Paula Tern")
    page.get_by_label("E-mail").fill("paula@example.org")
    page.get_by_label("Name on the packet").fill("Paula")
    page.get_by_label("Meadow").check()
    page.get_by_role("button", name="Take this seat").dblclick()
    page.get_by_role("heading", name="You have a seat").wait_for()
    check_access(page)


def sign_in(page: Page) -> None:
    page.get_by_role("link", name="Go to my year").click()
    page.get_by_label("E-mail").fill("paula@example.org")
    check_access(page)
    page.get_by_role("button", name="Send me a code").click()
    check_access(page)
    page.get_by_label("Code").fill(code_in_the_mail())
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("heading", name="My year").wait_for()
    check_access(page)


def take_the_sheet(page: Page, folder: Path) -> None:
    with page.expect_download() as taken:
        page.get_by_role("link", name="Sheet 1 First Light", exact=True).click()
    assert taken.value.suggested_filename == "small-01-first-light-edition-1.pdf"
    taken.value.save_as(folder / "sheet.pdf")
    assert (folder / "sheet.pdf").read_bytes().startswith(b"%PDF-")


def sew_and_take_back(page: Page) -> None:
    page.get_by_role("button", name="I sewed Ohio Star").click()
    page.get_by_text("1 of 3 blocks sewn").wait_for()
    assert SewnBlock.objects.count() == 1
    page.get_by_role("button", name="Take back Ohio Star").click()
    page.get_by_text("0 of 3 blocks sewn").wait_for()


def report_a_step(page: Page) -> None:
    page.get_by_role("link", name="Something is wrong with a step of 1 First Light").click()
    check_access(page)
    page.get_by_label("Step or page").fill("4")
    page.get_by_label("What is wrong").fill("The square should be 2 1/2 in.")
    page.get_by_role("button", name="Send this").click()
    page.get_by_text("Thank you. The designer has your report.").wait_for()
    assert Problem.objects.get().step == "4"


def choose_centimetres(page: Page) -> None:
    page.get_by_label("centimetres").check()
    page.get_by_role("button", name="Keep this").click()
    page.get_by_text("Kept. The next sheet you take comes this way.").wait_for()


@pytest.mark.usefixtures("program")
def test_from_the_public_page_to_a_sheet(page: Page, live_server: LiveServer, tmp_path: Path) -> None:
    page.set_viewport_size(PHONE)
    sign_up(page, live_server.url)
    paula = SignUp.objects.get()
    assert (paula.colorway.slug, paula.place) == ("meadow", "seat")
    make_rendering(make_edition(paula.terms.program.installments.get(number=1)), paula)
    sign_in(page)
    mine = f"{live_server.url}/my/{paula.pk}/"
    assert page.url == mine
    take_the_sheet(page, tmp_path)
    assert SheetCopy.objects.get().sign_up == paula
    sew_and_take_back(page)
    report_a_step(page)
    choose_centimetres(page)
    assert SignUp.objects.get().participant.units == "cm"
    assert page.request.get(f"{mine}sheet/2.pdf").status == 404  # scheduled, and not due for a month
    page.get_by_role("button", name="Sign out").click()
    assert "/sign-in/?next=" in page.request.get(f"{mine}sheet/1.pdf").url
