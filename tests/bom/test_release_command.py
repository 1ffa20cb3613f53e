"""What the timer calls from the command line."""

from __future__ import annotations

from datetime import date
from io import StringIO

import pytest
from django.core.management import call_command

from bom.domain.planning import schedule_by_rule
from bom.enums import InstallmentState
from bom.models import Program
from tests.cast import JOINED
from tests.factories import make_program

pytestmark = pytest.mark.django_db


@pytest.fixture
def program() -> Program:
    """Give a program of 2025 whose first two installments should be out by now."""
    made = make_program(first_day=date(2025, 1, 1))
    schedule_by_rule(made, by=None, now=JOINED)
    made.installments.filter(number__lte=2).update(state=InstallmentState.SCHEDULED)
    return made


def run(*options: str) -> str:
    out = StringIO()
    call_command("release_due", *options, stdout=out)
    return out.getvalue().strip()


def test_a_dry_run_names_what_is_due_and_changes_nothing(program: Program) -> None:
    assert run("--dry-run") == "small 1 First Light\nsmall 2 Two Boats"
    assert program.installments.filter(state="released").count() == 0


def test_a_second_run_finds_nothing(program: Program) -> None:
    assert run() == "2 installments released"
    assert run() == "Nothing is due."
    assert program.installments.filter(state="released").count() == 2
