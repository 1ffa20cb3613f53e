"""One change of the designer, and what follows in yardage, sheet, order and notices."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

import pytest
import time_machine

from bom.domain.editions import sheet_data
from bom.domain.freezing import freeze_fabric
from bom.domain.yardage_report import yardage_of
from bom.enums import InstallmentState
from bom.models import Outbox
from shops.domain.notices import queue_release_notices
from shops.domain.orders import order_of
from tests.bom.web.designers import NOW, YEAR, as_, block_data, placed, small_program
from tests.cast import dora, paula, sam, sams_terms, seat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from django.test import Client

    from bom.models import Program
    from shops.models import Terms

pytestmark = pytest.mark.django_db
ORDER = "/shop/sams-bolts/small/order/"


@pytest.fixture(autouse=True)
def _today() -> Iterator[None]:
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.fixture
def program() -> Program:
    return small_program()


@pytest.fixture
def terms(program: Program) -> Terms:
    terms = sams_terms(program)
    seat(terms, paula())
    return terms


@pytest.fixture
def designer(terms: Terms) -> Client:  # the shop's terms stand before the designer's change
    return as_(dora())


def need(program: Program, letter: str) -> dict[int, str]:
    """Give the minimum of one letter by installment, in the first colorway."""
    lines = yardage_of(program).as_data()["colorways"][0]["installments"]
    return {
        month["number"]: line["minimum"]
        for month in lines
        for line in month["lines"]
        if letter in line["letters"]
    }


def ordered(terms: Terms) -> dict[str, Any]:
    """Give the cuts that the shop orders, by letter."""
    return {row.letters[0]: row.cuts for row in order_of(terms).rows}


def change(designer: Client, program: Program, **fields: Any) -> str:
    block = placed(program, "Nine Patch")
    address = f"{YEAR}blocks/{block.pk}/"
    return designer.post(address, block_data(designer, block, **fields), follow=True).content.decode()


def test_a_size_is_followed_by_yardage_sheet_and_order(
    designer: Client, program: Program, terms: Terms
) -> None:
    """A frame of 3/4 in finished is cut in strips 1 1/4 in wide from letter D."""
    month = program.installments.get(number=2)
    yards, cuts, sheet = need(program, "D"), ordered(terms), sheet_data(month)
    change(designer, program, own_size="4 1/2", frame_letter="D")
    assert need(program, "D") == {**yards, 2: "1 1/4"}
    assert ordered(terms)["D"] != cuts["D"]
    assert sheet_data(month)["parts"][1] != sheet["parts"][1]


def test_a_letter_is_followed_by_yardage_sheet_and_order(
    designer: Client, program: Program, terms: Terms
) -> None:
    month = program.installments.get(number=2)
    yards, cuts, sheet = need(program, "D"), ordered(terms), sheet_data(month)
    change(designer, program, letter_B="D")  # four squares cut 2 1/2 in, finished 2 in
    assert need(program, "D") == {**yards, 2: "2 1/2"}
    assert ordered(terms)["D"] != cuts["D"]
    assert sheet_data(month)["packets"] != sheet["packets"]


def test_a_day_is_followed_by_the_notices(designer: Client, program: Program, terms: Terms) -> None:
    program.installments.filter(number=1).update(state=InstallmentState.SCHEDULED)
    rule = program.installments.get(number=1).release_at
    moved = {"day": "2027-01-23", "time": "10:00", "reason": "The shops are closed"}
    designer.post(f"{YEAR}1/day/", moved)
    opens = program.installments.get(number=1).release_at
    assert opens == datetime(2027, 1, 23, 14, tzinfo=UTC)  # 10:00 in Halifax
    assert rule is not None
    assert queue_release_notices(now=rule) == 0
    assert queue_release_notices(now=opens - timedelta(seconds=1)) == 0
    assert queue_release_notices(now=opens) == 1
    assert "15:00" in Outbox.objects.get(key__startswith="released:").text  # for Paula in Oslo


def test_the_shops_page_shows_what_follows(designer: Client, program: Program, terms: Terms) -> None:
    before = as_(sam()).get(ORDER).content.decode()
    change(designer, program, own_size="4 1/2", frame_letter="D")
    assert as_(sam()).get(ORDER).content.decode() != before


def test_after_the_freeze_the_same_size_is_a_stop_and_nothing_follows(
    designer: Client, program: Program, terms: Terms
) -> None:
    freeze_fabric(program, by=dora(), now=NOW)
    yards, cuts = need(program, "D"), ordered(terms)
    page = change(designer, program, own_size="4 1/2", frame_letter="D")
    assert "This change would break" in page
    assert "Nine Patch" in page
    assert (need(program, "D"), ordered(terms)) == (yards, cuts)
