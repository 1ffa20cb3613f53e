"""Changes as verbs of the domain: one transaction, recorded, told, and taken back."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from bom.domain.changes import Change, change, take_back
from bom.domain.editions import make_edition
from bom.domain.effects import effects, numbers_of
from bom.domain.planning import schedule_by_rule
from bom.errors import ProgramError, WrongState
from bom.models import AuditEntry, Program
from tests.cast import dora
from tests.factories import make_program

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 11, 2, 15, tzinfo=UTC)


@pytest.fixture
def program() -> Program:
    program = make_program(designer=dora())
    schedule_by_rule(program, by=dora(), now=NOW)
    return program


def move(program: Program, day: str) -> Change:
    values = {"day": day, "time": "10:00", "fold": 0, "by_exception": True}
    return change(program, "day:2", values, by=dora(), now=NOW)


def test_a_moved_day_says_what_it_moves_with_it(program: Program) -> None:
    done = move(program, "2027-02-27")
    assert done.followed == (
        "Two Boats opens on Saturday 27 February 2027 at 10:00.",
        "First Light is now to be shown by Saturday 27 February 2027.",
    )


def test_taking_back_a_second_move_restores_the_first(program: Program) -> None:
    move(program, "2027-02-27")
    second = move(program, "2027-03-06")
    take_back(program, second.as_data(), by=dora(), now=NOW)
    installment = program.installments.get(number=2)
    assert (installment.wall_day, installment.by_exception) == (date(2027, 2, 27), True)


def test_what_was_changed_again_is_not_taken_back(program: Program) -> None:
    first = move(program, "2027-02-27")
    move(program, "2027-03-06")
    with pytest.raises(WrongState):
        take_back(program, first.as_data(), by=dora(), now=NOW)
    assert program.installments.get(number=2).wall_day == date(2027, 3, 6)


def test_the_calendar_is_taken_back(program: Program) -> None:
    values = {"rule": "FREQ=MONTHLY;BYMONTHDAY=1", "first_day": "2027-03-01", "release_time": "08:00"}
    done = change(program, "calendar", values, by=dora(), now=NOW)
    assert program.installments.get(number=1).wall_day == date(2027, 3, 1)
    take_back(program, done.as_data(), by=dora(), now=NOW)
    assert program.installments.get(number=1).wall_day == date(2027, 1, 16)


def test_a_change_that_cannot_be_worked_out_leaves_nothing_behind(program: Program) -> None:
    entries = AuditEntry.objects.count()
    block = program.quilt.placed_blocks.first()
    assert block is not None
    values = {"own_size": "9", "frame_letter": "", "turn": 0, "letters": block.letters, "methods": {}}
    with pytest.raises(ProgramError) as refused:
        change(program, f"block:{block.pk}", values, by=dora(), now=NOW)
    assert refused.value.field == "own_size"
    block.refresh_from_db()
    assert block.own_size is None
    assert AuditEntry.objects.count() == entries


def test_a_broken_quilt_can_be_put_right_in_several_changes(program: Program) -> None:
    program.quilt.border_letter = program.quilt.sashing_letter = ""
    program.quilt.save()
    assert numbers_of(program) is None
    done = change(program, "quilt", {"border_letter": "A"}, by=dora(), now=NOW)
    assert done.followed == ()
    change(program, "quilt", {"sashing_letter": "D"}, by=dora(), now=NOW)
    assert numbers_of(program) is not None


def test_a_sheet_that_says_something_new_is_named(program: Program) -> None:
    make_edition(program.installments.get(number=5), by=dora(), now=NOW)
    done = change(program, "quilt", {"border_width": "4"}, by=dora(), now=NOW)
    assert done.followed[-1] == "The sheet of Finishing says something new: make its next edition."


def test_equal_numbers_tell_nothing(program: Program) -> None:
    numbers = numbers_of(program)
    assert effects(numbers, numbers) == ()
