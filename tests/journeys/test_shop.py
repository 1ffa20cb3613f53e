"""A shop manager's story in a browser: sign-ups, freeze and order, the first cuts, the first packet given."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.conf import settings
from django.test import Client

from shops.models import CutCount, FabricOrder, PickUp, SignUp, Terms
from tests.cast import login, sam
from tests.shops.shop_cases import frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from playwright.sync_api import Page
    from pytest_django.live_server_helper import LiveServer

pytestmark = [pytest.mark.browser, pytest.mark.django_db(transaction=True)]
# The browser's driver runs a loop in this thread; Django must not take it for a server's.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")


@pytest.fixture(params=[390, 1280])
def sams_page(request: pytest.FixtureRequest, page: Page, live_server: LiveServer) -> Page:
    """Seat Sam before the pages of the shop, three people on its list, on a phone or at a desk."""
    three_people(priced_terms(frozen_program()))
    page.set_viewport_size({"width": request.param, "height": 844})
    sign_in(page, live_server.url)
    page.goto(f"{live_server.url}/shop/sams-bolts/small/")
    return page


def check_access(page: Page) -> None:
    """Find no fault of WCAG 2.2 A and AA, nor of axe's best practices, and no sideways scroll."""
    rules = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa", "best-practice"]
    found = Axe().run(page, options={"runOnly": rules})
    assert [each["id"] for each in found.response["violations"]] == []
    wide = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(wide) == 0


def sign_in(page: Page, address: str) -> None:
    cookie = login(Client(), sam()).cookies[settings.SESSION_COOKIE_NAME]
    page.context.add_cookies([{"name": cookie.key, "value": cookie.value, "url": address}])


def find_marit(page: Page) -> None:
    page.get_by_role("link", name="Sign-ups").click()
    check_access(page)
    page.get_by_label("Name or number").fill("mar")
    page.get_by_role("button", name="Show these").click()
    page.get_by_role("link", name="Marit").click()
    page.get_by_text("Has a seat.").wait_for()
    check_access(page)


def freeze_and_order(page: Page) -> None:
    page.get_by_role("link", name="Fabric order").click()
    page.get_by_text("2 people take a packet.").wait_for()
    check_access(page)
    page.get_by_role("link", name="Freeze and order").click()
    check_access(page)
    page.get_by_role("button", name="Freeze and order for CAD").dblclick()
    page.get_by_role("heading", name="Bolts ordered").wait_for()
    check_access(page)


def cut_two_and_take_one_back(page: Page) -> None:
    page.get_by_role("link", name="Cutting day").click()
    check_access(page)
    page.get_by_role("button", name="One more cut").click()
    page.get_by_role("img", name="1 of 6 cut").wait_for()
    page.get_by_role("button", name="One more cut").click()
    page.get_by_role("img", name="2 of 6 cut").wait_for()
    page.get_by_role("button", name="Take one back").click()
    page.get_by_role("img", name="1 of 6 cut").wait_for()
    check_access(page)


def give_a_packet(page: Page) -> None:
    page.get_by_role("link", name="Pick-up", exact=True).click()
    check_access(page)
    page.get_by_role("button", name="Give the packet to 1 Paula").click()
    page.get_by_text("1 of 2 packets are given.").wait_for()


def test_from_the_sign_ups_to_the_first_packet(sams_page: Page) -> None:
    page = sams_page
    page.get_by_role("heading", name="The days").wait_for()
    check_access(page)
    find_marit(page)
    freeze_and_order(page)
    assert FabricOrder.objects.get().sent_by == sam()
    cut_two_and_take_one_back(page)
    assert CutCount.objects.get().made == 1
    give_a_packet(page)
    assert PickUp.objects.get().sign_up == SignUp.objects.get(number=1)
    assert Terms.objects.get().frozen_seats == {"harbour": 2}
