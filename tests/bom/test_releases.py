"""The sweep: due means at the instant or after it, once, and missed ones catch up."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from bom.domain.planning import schedule_by_rule
from bom.domain.releases import derive_all_instants, due_installments, release_due
from bom.enums import InstallmentState
from bom.models import AuditEntry, Installment, Program
from tests.factories import make_program

FIRST = datetime(2027, 1, 16, 14, tzinfo=UTC)  # 10:00 in Halifax, third Saturday of January
pytestmark = pytest.mark.django_db


@pytest.fixture
def program() -> Program:
    """Give a program whose first two installments are scheduled."""
    made = make_program()
    schedule_by_rule(made, by=None, now=FIRST - timedelta(days=30))
    made.installments.filter(number__lte=2).update(state=InstallmentState.SCHEDULED)
    return made


def states(program: Program) -> list[str]:
    return list(program.installments.order_by("number").values_list("state", flat=True))


def test_nothing_is_released_one_second_before_its_instant(program: Program) -> None:
    assert release_due(now=FIRST - timedelta(seconds=1)) == 0
    assert states(program)[0] == "scheduled"


def test_it_is_released_at_its_instant_and_only_once(program: Program) -> None:
    assert release_due(now=FIRST) == 1
    assert release_due(now=FIRST) == 0
    assert states(program) == ["released", "scheduled", "draft", "draft", "draft"]
    entry = AuditEntry.objects.get(verb="released")
    assert (entry.subject, entry.actor, entry.at) == ("installment:small/1", None, FIRST)


def test_missed_ones_catch_up_in_order_and_drafts_never_go_out(program: Program) -> None:
    late = FIRST + timedelta(days=100)
    assert [each.number for each in due_installments(now=late)] == [1, 2]
    assert release_due(now=late) == 2
    assert states(program) == ["released", "released", "draft", "draft", "draft"]


def test_one_that_was_moved_after_the_list_was_made_is_left_alone(
    program: Program, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another worker's move between reading and marking must win."""
    stale = due_installments(now=FIRST)
    Installment.objects.filter(pk=stale[0].pk).update(release_at=FIRST + timedelta(days=7))
    monkeypatch.setattr("bom.domain.releases.due_installments", lambda *, now: stale)
    assert release_due(now=FIRST) == 0
    assert states(program)[0] == "scheduled"


def test_instants_of_what_is_scheduled_are_derived_again(program: Program) -> None:
    Program.objects.update(zone="Europe/Oslo")
    assert derive_all_instants() == 5
    assert derive_all_instants() == 0
    assert program.installments.get(number=1).release_at == datetime(2027, 1, 16, 9, tzinfo=UTC)
