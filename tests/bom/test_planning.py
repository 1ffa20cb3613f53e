"""The year of a program: days by rule and exception, states up to scheduled, back-planning."""

from __future__ import annotations

from datetime import UTC, date, datetime, time

import pytest

from bom.domain import planning
from bom.domain.proofs import Check, InstallmentProof, ProgramProof, Result
from bom.enums import InstallmentState
from bom.errors import ProgramError, ProofStops, WrongState
from bom.models import AuditEntry, Installment, Program, SheetEdition
from patterns.engine.steps import Phrase
from tests.cast import dora
from tests.factories import make_program

NOW = datetime(2027, 1, 1, 12, tzinfo=UTC)


def the(program: Program, number: int) -> Installment:
    return Installment.objects.select_related("program").get(program=program, number=number)


def dated() -> Program:
    program = make_program()
    planning.schedule_by_rule(program, by=None, now=NOW)
    return program


# The year of a program


@pytest.mark.django_db
def test_the_year_by_rule_follows_wall_time_over_the_change_of_clocks() -> None:
    """Halifax is four hours behind UTC until 14 March 2027, then three; third Saturdays."""
    program = dated()
    found = [(str(each.wall_day), each.release_at) for each in program.installments.all()]
    assert found[:3] == [
        ("2027-01-16", datetime(2027, 1, 16, 14, tzinfo=UTC)),
        ("2027-02-20", datetime(2027, 2, 20, 14, tzinfo=UTC)),
        ("2027-03-20", datetime(2027, 3, 20, 13, tzinfo=UTC)),
    ]
    assert the(program, 1).due_day == date(2027, 2, 20)
    assert the(program, 5).due_day is None


@pytest.mark.django_db
def test_giving_the_days_again_changes_nothing() -> None:
    program = dated()
    before = list(program.installments.values())
    planning.schedule_by_rule(program, by=dora(), now=NOW)
    assert list(program.installments.values()) == before


@pytest.mark.django_db
def test_a_move_takes_the_day_to_show_the_block_before_along() -> None:
    """As in C59: the session of 15 February moves to the 22nd and its due day with it."""
    program = dated()
    planning.move_installment(the(program, 2), day=date(2027, 2, 27), by=dora(), now=NOW)
    assert the(program, 2).by_exception
    assert the(program, 2).release_at == datetime(2027, 2, 27, 14, tzinfo=UTC)
    assert the(program, 1).due_day == date(2027, 2, 27)
    assert the(program, 2).due_day == date(2027, 3, 20)
    entry = AuditEntry.objects.get(verb="moved")
    assert (entry.actor, entry.subject) == (dora(), "installment:small/2")


@pytest.mark.django_db
def test_moved_and_released_installments_keep_their_days_under_a_new_rule() -> None:
    program = dated()
    planning.move_installment(the(program, 2), day=date(2027, 2, 27), by=dora(), now=NOW)
    Installment.objects.filter(pk=the(program, 1).pk).update(state=InstallmentState.RELEASED)
    program.rule = "FREQ=MONTHLY;BYMONTHDAY=-1"
    program.save()
    planning.schedule_by_rule(program, by=dora(), now=NOW)
    assert [each.wall_day.day for each in program.installments.all()] == [16, 27, 31, 30, 31]


@pytest.mark.django_db
def test_back_to_the_rule() -> None:
    program = dated()
    planning.move_installment(the(program, 2), day=date(2027, 2, 27), time=time(18), by=dora(), now=NOW)
    assert the(program, 2).wall_time == time(18)
    planning.back_to_rule(the(program, 2), by=dora(), now=NOW)
    moved = the(program, 2)
    assert (moved.wall_day, moved.wall_time, moved.by_exception) == (date(2027, 2, 20), time(10), False)
    assert the(program, 1).due_day == date(2027, 2, 20)


@pytest.mark.django_db
def test_released_stays_where_it_is_and_scheduled_never_moves_into_the_past() -> None:
    program = dated()
    Installment.objects.filter(program=program, number=1).update(state=InstallmentState.RELEASED)
    Installment.objects.filter(program=program, number=2).update(state=InstallmentState.SCHEDULED)
    with pytest.raises(WrongState):
        planning.move_installment(the(program, 1), day=date(2027, 5, 1), by=dora(), now=NOW)
    with pytest.raises(ProgramError) as caught:
        planning.move_installment(the(program, 2), day=date(2026, 12, 31), by=dora(), now=NOW)
    assert caught.value.field == "day"
    program.first_day = date(2026, 1, 1)
    with pytest.raises(ProgramError) as caught:
        planning.schedule_by_rule(program, by=dora(), now=NOW)
    assert caught.value.field == "first_day"
    assert the(program, 2).wall_day == date(2027, 2, 20)
    assert the(program, 3).wall_day == date(2027, 3, 20)


@pytest.mark.django_db
def test_what_people_may_have_already_is_not_moved_or_taken_back_even_before_the_sweep() -> None:
    program = dated()
    Installment.objects.filter(program=program, number=1).update(state=InstallmentState.SCHEDULED)
    opened = the(program, 1).release_at
    assert opened is not None
    for verb in (planning.back_to_rule, planning.back_to_draft):
        with pytest.raises(WrongState):
            verb(the(program, 1), by=dora(), now=opened)
    with pytest.raises(WrongState):
        planning.move_installment(the(program, 1), day=date(2027, 5, 1), by=dora(), now=opened)
    program.rule = "FREQ=MONTHLY;BYMONTHDAY=-1"
    planning.schedule_by_rule(program, by=dora(), now=opened)
    assert the(program, 1).release_at == opened


@pytest.mark.django_db
def test_instants_are_derived_again_when_a_zone_changes_but_not_for_what_is_out() -> None:
    program = dated()
    Installment.objects.filter(program=program, number=1).update(state=InstallmentState.RELEASED)
    assert planning.derive_instants(program) == 0
    program.zone = "Europe/Oslo"
    program.save()
    assert planning.derive_instants(program) == 4
    assert planning.derive_instants(program) == 0
    assert the(program, 1).release_at == datetime(2027, 1, 16, 14, tzinfo=UTC)
    assert the(program, 2).release_at == datetime(2027, 2, 20, 9, tzinfo=UTC)


# States


@pytest.fixture
def passed_proof(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Let the proof pass, save for the installments whose numbers are put into the list."""
    stops: list[int] = []

    def proof_of(_program: Program) -> ProgramProof:
        phrase = Phrase("goes together", {})
        checks = {True: Result.STOP, False: Result.PASSED}
        return ProgramProof(
            installments=tuple(
                InstallmentProof(number=n, checks=(Check(name="x", result=checks[n in stops], fact=phrase),))
                for n in range(1, 6)
            )
        )

    monkeypatch.setattr(planning, "prove_program", proof_of)
    return stops


@pytest.fixture
def editions(monkeypatch: pytest.MonkeyPatch) -> list[tuple[int, str]]:
    """Keep editions by number and line of change, without working out what the sheet says."""
    made: list[tuple[int, str]] = []

    def keep(installment: Installment, *, by: object, now: datetime, change_line: str = "") -> None:
        number = installment.editions.count() + 1
        SheetEdition.objects.create(installment=installment, number=number, data={}, made_at=now)
        made.append((installment.number, change_line))

    monkeypatch.setattr(planning, "make_edition", keep)
    return made


@pytest.mark.django_db
@pytest.mark.usefixtures("passed_proof")
def test_from_draft_to_scheduled_step_by_step(editions: list[tuple[int, str]]) -> None:
    one = the(dated(), 1)
    for verb, state in (
        (planning.mark_edited, "edited"),
        (planning.approve, "approved"),
        (planning.schedule_installment, "scheduled"),
    ):
        verb(one, by=dora(), now=NOW)
        assert the(one.program, 1).state == state
        with pytest.raises(WrongState):
            verb(one, by=dora(), now=NOW)
    subjects = AuditEntry.objects.filter(subject="installment:small/1").order_by("pk")
    assert [entry.verb for entry in subjects] == ["edited", "approved", "scheduled"]
    assert [number for number, _line in editions] == [1]
    planning.back_to_draft(one, by=dora(), now=NOW)
    with pytest.raises(WrongState):
        planning.back_to_draft(one, by=dora(), now=NOW)


@pytest.mark.django_db
def test_a_stop_in_the_proof_is_not_approved(passed_proof: list[int]) -> None:
    program = dated()
    passed_proof.append(1)
    planning.mark_edited(the(program, 1), by=dora(), now=NOW)
    planning.mark_edited(the(program, 2), by=dora(), now=NOW)
    with pytest.raises(ProofStops, match="installment 1"):
        planning.approve(the(program, 1), by=dora(), now=NOW)
    planning.approve(the(program, 2), by=dora(), now=NOW)
    assert the(program, 1).state == InstallmentState.EDITED


@pytest.mark.django_db
def test_only_one_of_two_people_changes_the_state() -> None:
    mine, theirs = the(dated(), 1), the(Program.objects.get(), 1)
    planning.mark_edited(mine, by=dora(), now=NOW)
    with pytest.raises(WrongState):
        planning.mark_edited(theirs, by=dora(), now=NOW)


@pytest.mark.django_db
@pytest.mark.parametrize("day", [None, date(2026, 12, 1)])
def test_nothing_is_scheduled_without_a_day_ahead(day: date | None) -> None:
    one = the(make_program(), 1)
    if day:
        planning.move_installment(one, day=day, by=dora(), now=NOW)
    Installment.objects.update(state=InstallmentState.APPROVED)
    with pytest.raises(ProgramError) as caught:
        planning.schedule_installment(the(one.program, 1), by=dora(), now=NOW)
    assert caught.value.field == "day"


@pytest.mark.django_db
def test_a_sheet_that_stands_is_renewed_when_one_of_its_days_moves(editions: list[tuple[int, str]]) -> None:
    program = dated()
    for number in (1, 2, 3):
        SheetEdition.objects.create(installment=the(program, number), number=1, data={}, made_at=NOW)
    planning.move_installment(the(program, 2), day=date(2027, 2, 27), by=dora(), now=NOW)
    assert editions == [(1, "Show it by 2027-02-27."), (2, "It opens on 2027-02-27.")]
    planning.move_installment(the(program, 2), day=date(2027, 2, 27), by=dora(), now=NOW)
    assert len(editions) == 2


# Back-planning


@pytest.mark.django_db
def test_work_is_planned_back_to_working_days() -> None:
    """Words 10 weeks before, edit 6, approve 4, cutting 9 days, post 4: the days of the design's own plan."""
    program = dated()
    plan = planning.plan_days(the(program, 1), "CA-NS")
    found = [plan.words, plan.edit, plan.approve, plan.cutting, plan.post, plan.release]
    expected = "2026-11-06 2026-12-04 2026-12-18 2027-01-07 2027-01-12 2027-01-16"
    assert [str(day) for day in found] == expected.split()
    assert planning.plan_days(the(program, 3), "CA-NS").cutting is None  # a month to catch up


@pytest.mark.django_db
def test_nothing_is_cut_on_a_holiday() -> None:
    """11 November is a holiday in Nova Scotia, so the release of 20 November 2027 is cut on the 10th."""
    one = the(make_program(), 1)
    planning.move_installment(one, day=date(2027, 11, 20), by=dora(), now=NOW)
    assert planning.plan_days(one, "CA-NS").cutting == date(2027, 11, 10)
    with pytest.raises(ProgramError) as caught:
        planning.plan_days(one, "QQ")
    assert caught.value.field == "country"
