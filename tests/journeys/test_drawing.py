"""Dora draws a block of her own in a browser: seams, letters, what is found, kept, and put into the quilt."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from bom.models import Program
from tests.bom.web.designers import as_, placed, small_program
from tests.cast import dora
from tests.journeys.test_designer import check_access, sign_in

if TYPE_CHECKING:
    from playwright.sync_api import Page
    from pytest_django.live_server_helper import LiveServer

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.fixture
def browser_context_args(browser_context_args: dict[str, object]) -> dict[str, object]:
    """Let axe be added to pages that allow no foreign script."""
    return {**browser_context_args, "bypass_csp": True}


def seam(page: Page, start: str, end: str) -> None:
    page.get_by_label("From").fill(start)
    page.get_by_label("To", exact=True).fill(end)
    page.get_by_role("button", name="Draw this seam").click()


def test_dora_draws_a_block_and_puts_it_into_the_quilt(
    page: Page, live_server: LiveServer, program: Program
) -> None:
    sign_in(page, live_server.url, as_(dora()))
    page.goto(f"{live_server.url}/program/small/blocks/")
    page.get_by_role("link", name="Draw a block").click()
    check_access(page)
    seam(page, "0, 4", "4, 0")
    seam(page, "0, 2", "1, 2")
    assert page.get_by_text("A seam ends at 1, 2 and meets nothing").is_visible()
    check_access(page)
    page.get_by_label("Seam", exact=True).select_option("0, 2 to 1, 2")
    page.get_by_role("button", name="Take back a seam").click()
    page.get_by_label("Letter of patch 2").select_option("B")
    page.get_by_label("Name", exact=True).fill("Slack Water")
    page.get_by_role("button", name="Keep this drawing").click()
    assert page.get_by_text("Slack Water is kept among your drawings.").is_visible()
    assert page.get_by_text("it goes together").is_visible()
    check_access(page)
    page.get_by_label("Place", exact=True).select_option("0,1")
    page.get_by_role("button", name="Use it there").click()
    assert page.get_by_text("Slack Water lies in row 1, column 2.").is_visible()
    assert placed(program, "Slack Water").letters == {"A": "A", "B": "B"}
