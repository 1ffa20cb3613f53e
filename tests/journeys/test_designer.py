"""A designer's story in a browser: change what is drawn, see the year follow, freeze, and be stopped."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client

from bom.models import Program
from tests.bom.web.designers import as_, placed, small_program
from tests.cast import dora

if TYPE_CHECKING:
    from playwright.sync_api import Page, ViewportSize
    from pytest_django.live_server_helper import LiveServer

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
# The browser's driver runs a loop in this thread; Django must not take it for a server's.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")
DESK: ViewportSize = {"width": 1280, "height": 900}
PHONE: ViewportSize = {"width": 390, "height": 844}


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.fixture
def browser_context_args(browser_context_args: dict[str, object]) -> dict[str, object]:
    """Let axe be added to pages that allow no foreign script."""
    return {**browser_context_args, "bypass_csp": True, "viewport": DESK}


def sign_in(page: Page, address: str, client: Client) -> None:
    cookie = client.cookies[settings.SESSION_COOKIE_NAME].value
    page.context.add_cookies([{"name": settings.SESSION_COOKIE_NAME, "value": cookie, "url": address}])


def check_access(page: Page) -> None:
    """Find no fault of WCAG 2.2 A and AA, nor of axe's best practices, and no sideways scroll on a phone."""
    rules = {"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]}
    for size in (PHONE, DESK):
        page.set_viewport_size(size)
        assert [each["id"] for each in Axe().run(page, options=rules).response["violations"]] == []
        assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]


def resize(page: Page, address: str, block: int, *, size: str) -> None:
    page.goto(f"{address}/program/small/blocks/{block}/")
    page.get_by_label("Finished size").fill(size)
    page.get_by_label("Frame", exact=True).select_option("D")
    page.get_by_role("button", name="Change the block").click()


def move(page: Page, address: str, day: str, *, why: str) -> None:
    page.goto(f"{address}/program/small/1/day/")
    page.get_by_label("Day", exact=True).fill(day)
    page.get_by_label("Why").fill(why)
    page.get_by_role("button", name="Move it to this day").click()


def freeze(page: Page, address: str) -> None:
    page.goto(f"{address}/program/small/freeze/")
    page.get_by_role("button", name="Freeze the fabric").click()
    check_access(page)
    page.get_by_role("button", name="Freeze it").click()


def test_dora_changes_a_size_a_letter_and_a_day_then_freezes(
    page: Page, live_server: LiveServer, program: Program
) -> None:
    block, address = placed(program, "Nine Patch").pk, live_server.url
    sign_in(page, address, as_(dora()))
    page.goto(f"{address}/program/small/")
    check_access(page)

    resize(page, address, block, size="4 1/2")
    slip = page.get_by_role("status")
    assert "Installment 2 has another cut list." in slip.inner_text()
    check_access(page)

    page.get_by_label("Letter B of the block").select_option("C")
    page.get_by_role("button", name="Change the block").click()
    page.goto(f"{address}/program/small/2/")
    assert "Square C" in page.locator("main").inner_text()  # no square of the Nine Patch is B any more
    check_access(page)

    move(page, address, "2027-01-23", why="The shops are closed")
    assert "Moved by hand: The shops are closed." in page.locator("main").inner_text()
    page.goto(f"{address}/program/small/")
    assert page.get_by_role("table").filter(has_text="23 Jan").count() == 1

    freeze(page, address)
    assert "No need has grown since." in page.locator("main").inner_text()

    resize(page, address, block, size="3")
    assert "This change would break" in page.get_by_role("alert").first.inner_text()
    assert page.get_by_label("Finished size").input_value() == "3"
    check_access(page)


def test_dora_takes_a_change_back(page: Page, live_server: LiveServer, program: Program) -> None:
    block, address = placed(program, "Nine Patch"), live_server.url
    sign_in(page, address, as_(dora()))
    resize(page, address, block.pk, size="5")
    page.get_by_role("button", name="Take it back").click()
    assert page.get_by_label("Finished size").input_value() == "6"
    block.refresh_from_db()
    assert block.own_size is None
