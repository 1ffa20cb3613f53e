"""What a place costs in all."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from shops.domain.costs import Cost, cost_of, months_with_packet
from shops.domain.year_rows import installments_of
from shops.enums import Takes
from tests.shops.factories import make_open_program, make_terms


def cost(**fields: Any) -> Cost:
    usual: dict[str, Any] = {
        "currency": "CAD",
        "sign_up": Decimal("25.00"),
        "months": 9,
        "monthly": Decimal("15.50"),
        "finishing": Decimal("56.50"),
        "tax_percent": Decimal(14),
        "tax_included": False,
    }
    return Cost(**{**usual, **fields})


def test_tax_on_top() -> None:
    paid = cost()
    assert paid.total == Decimal("221.00")  # 25.00 + 9 x 15.50 + 56.50
    assert paid.tax == Decimal("30.94")  # 14 % of 221.00
    assert paid.to_pay == Decimal("251.94")


def test_tax_within() -> None:
    paid = cost(currency="NOK", tax_percent=Decimal(25), tax_included=True)
    assert paid.tax == Decimal("44.20")  # 221.00 x 25 / 125
    assert paid.to_pay == paid.total == Decimal("221.00")


def test_half_a_cent_goes_up() -> None:
    paid = cost(sign_up=Decimal("0.50"), months=0, finishing=Decimal(0), tax_percent=Decimal(9))
    assert paid.tax == Decimal("0.05")  # 0.045


@pytest.mark.django_db
def test_months_with_a_packet_are_those_with_a_block() -> None:
    program = make_open_program()  # a block, two blocks, a month to catch up, the joining, the finishing
    assert months_with_packet(installments_of(program)) == 2


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("takes", "total"), [(Takes.BOTH, "112.50"), (Takes.PACKET, "112.50"), (Takes.SHEET, "25.00")]
)
def test_who_takes_the_sheet_only_pays_for_no_packet(takes: Takes, total: str) -> None:
    terms = make_terms(make_open_program())
    assert cost_of(terms, installments_of(terms.program), takes=takes).total == Decimal(total)
