"""Sheets set ahead: in the forms that people take, once each."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from bom.domain.editions import make_edition
from bom.enums import InstallmentState, Paper
from shops.domain.ready_sheets import forms_in_use, missing_sheets, set_next
from tests.cast import paula, sams_terms, seat
from tests.factories import make_program

if TYPE_CHECKING:
    from bom.models import Installment

NOW = datetime(2027, 1, 16, 14, tzinfo=UTC)


@pytest.fixture
def catch_up(db: None) -> Installment:
    """Give a released month without parts: a sheet of two pages, quickly set."""
    program = make_program()
    installment = program.installments.get(number=3)
    installment.state = InstallmentState.SCHEDULED
    installment.release_at = NOW + timedelta(days=1)
    installment.save()
    make_edition(installment, by=None, now=NOW)
    return installment


def test_nothing_is_missing_while_nobody_has_signed_up(catch_up: Installment) -> None:
    assert forms_in_use(catch_up) == []
    assert not set_next(now=NOW)


def test_each_form_is_set_once(catch_up: Installment) -> None:
    mine = seat(sams_terms(catch_up.program), paula())
    assert [form.paper for form in forms_in_use(catch_up)] == [Paper(mine.participant.paper)]
    assert set_next(now=NOW)
    assert not set_next(now=NOW)
    assert list(missing_sheets(now=NOW)) == []


def test_a_sheet_that_opens_later_waits(catch_up: Installment) -> None:
    seat(sams_terms(catch_up.program), paula())
    assert not set_next(now=NOW - timedelta(days=30))
