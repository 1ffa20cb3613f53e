"""The calendar of a program: days by rule and by exception, and the states up to scheduled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.audit import record, subject_of
from bom.domain.editions import make_edition
from bom.domain.proofs import prove_program
from bom.domain.wall_times import Instant, instant_of, rule_days
from bom.domain.working_days import PlanDays, plan_days
from bom.enums import InstallmentState
from bom.errors import ProgramError, ProofStops, WrongState
from bom.models import Installment

if TYPE_CHECKING:
    from datetime import date, datetime, time

    from bom.models import Program
    from patterns.models import User

__all__ = (
    "Instant",
    "PlanDays",
    "approve",
    "back_to_draft",
    "back_to_rule",
    "derive_instants",
    "instant_of",
    "mark_edited",
    "move_installment",
    "plan_days",
    "rule_days",
    "schedule_by_rule",
    "schedule_installment",
    "wall_instant",
)

DATE_FIELDS = ("wall_day", "wall_time", "fold", "by_exception", "release_at", "due_day")
BEFORE_RELEASE = (InstallmentState.EDITED, InstallmentState.APPROVED, InstallmentState.SCHEDULED)


def wall_instant(installment: Installment) -> Instant | None:
    """Say when this installment opens, and what a change of clocks does to it; None without a day."""
    if installment.wall_day is None:
        return None
    program = installment.program
    at = installment.wall_time or program.release_time
    return instant_of(day=installment.wall_day, at=at, zone=program.zone, fold=installment.fold)


@transaction.atomic
def schedule_by_rule(program: Program, *, by: User | None, now: datetime) -> None:
    """Give every installment its day by the program's rule; the state stays as it is.

    The n-th installment takes the n-th day of the rule.  Installments moved by hand and released ones
    keep their day.  ProgramError names `rule` or `zone` when they cannot be read, `first_day` when an
    installment that is scheduled would come to lie in the past.
    """
    installments = _locked(program)
    days = rule_days(program.rule, first_day=program.first_day, count=len(installments))
    for installment, day in zip(installments, days, strict=True):
        if not (installment.by_exception or _is_out(installment, now=now)):
            _put(installment, day=day, at=program.release_time)
            _guard_past(installment, field="first_day", now=now)
    _save_dates(installments, by=by, now=now)
    facts = {"rule": program.rule, "first_day": str(program.first_day)}
    record("gave the year its days", actor=by, subject=subject_of(program), facts=facts, now=now)


@transaction.atomic
def move_installment(
    installment: Installment,
    *,
    day: date,
    time: time | None = None,
    fold: int = 0,
    by: User | None,
    now: datetime,
) -> None:
    """Move one installment to a day of its own; the day to show the one before moves with it.

    `fold` 1 means the second time of an hour that happens twice.  WrongState when it is released;
    ProgramError names `day` when it is scheduled and the new instant has passed.
    """
    installments, mine = _locked_with(installment, now=now)
    before = mine.wall_day
    _put(mine, day=day, at=time or mine.wall_time or mine.program.release_time, fold=fold)
    mine.by_exception = True
    _guard_past(mine, field="day", now=now)
    _save_dates(installments, by=by, now=now)
    facts = {"from": str(before or ""), "to": str(day), "at": str(mine.wall_time)}
    record("moved", actor=by, subject=subject_of(mine), facts=facts, now=now)
    installment.refresh_from_db()


@transaction.atomic
def back_to_rule(installment: Installment, *, by: User | None, now: datetime) -> None:
    """Take back a move: the day follows the program's rule again.  Guards as in `move_installment`."""
    installments, mine = _locked_with(installment, now=now)
    program = mine.program
    days = rule_days(program.rule, first_day=program.first_day, count=len(installments))
    _put(mine, day=days[installments.index(mine)], at=program.release_time)
    mine.by_exception = False
    _guard_past(mine, field="day", now=now)
    _save_dates(installments, by=by, now=now)
    record("back to the rule", actor=by, subject=subject_of(mine), facts={"to": str(mine.wall_day)}, now=now)
    installment.refresh_from_db()


@transaction.atomic
def derive_instants(program: Program) -> int:
    """Work the instants out again, for when the rules of a zone change; give how many changed.

    Wall days and times stay; released installments keep the instant at which they were released.
    """
    changed = []
    for installment in _locked(program):
        instant = wall_instant(installment)
        is_out = installment.state == InstallmentState.RELEASED
        if instant is not None and instant.utc != installment.release_at and not is_out:
            installment.release_at = instant.utc
            changed.append(installment)
    Installment.objects.bulk_update(changed, ("release_at",))
    return len(changed)


def mark_edited(installment: Installment, *, by: User, now: datetime) -> None:
    """Say that the words of a draft have been through their edit."""
    _step(installment, InstallmentState.DRAFT, InstallmentState.EDITED, by=by, now=now)


def approve(installment: Installment, *, by: User, now: datetime) -> None:
    """Approve an edited installment.  ProofStops unless its proof passes."""
    _guard_state(installment, InstallmentState.EDITED)
    proofs = prove_program(installment.program).installments
    stops = sum(proof.stops for proof in proofs if proof.number == installment.number)
    if stops:
        raise ProofStops(
            "state",
            _("The proof has {stops} stops in installment {number}. Put them right, then approve."),
            stops=stops,
            number=installment.number,
        )
    _step(installment, InstallmentState.EDITED, InstallmentState.APPROVED, by=by, now=now)


@transaction.atomic
def schedule_installment(installment: Installment, *, by: User, now: datetime) -> None:
    """Let an approved installment open at its instant, with the edition of its sheet that stands then.

    The edition is made here, so that a sheet can be had at its instant while no worker runs.
    ProgramError names `day` when there is no instant ahead.
    """
    _guard_state(installment, InstallmentState.APPROVED)
    if installment.release_at is None:
        raise ProgramError("day", _("This installment has no day yet. Give it one, then schedule it."))
    if installment.release_at <= now:
        raise ProgramError("day", _past_remedy(), day=installment.wall_day)
    _step(installment, InstallmentState.APPROVED, InstallmentState.SCHEDULED, by=by, now=now)
    make_edition(installment, by=by, now=now, change_line=_("Changed before the release."))


def back_to_draft(installment: Installment, *, by: User, now: datetime) -> None:
    """Take an edited, approved or scheduled installment back to draft; what is out stays out."""
    if installment.state not in BEFORE_RELEASE or _is_out(installment, now=now):
        raise _wrong_state(installment, _("edited, approved or scheduled"))
    _step(installment, InstallmentState(installment.state), InstallmentState.DRAFT, by=by, now=now)


@transaction.atomic
def _step(
    installment: Installment, old: InstallmentState, new: InstallmentState, *, by: User, now: datetime
) -> None:
    """Change the state by compare-and-swap, so that of two people only one does it."""
    rows = Installment.objects.filter(pk=installment.pk, state=old)
    if not rows.update(state=new):
        installment.refresh_from_db(fields=("state",))
        raise _wrong_state(installment, old.label)
    installment.state = new
    facts = {"from": old.value, "to": new.value}
    record(
        f"{new.value} again" if new == InstallmentState.DRAFT else new.value,
        actor=by,
        subject=subject_of(installment),
        facts=facts,
        now=now,
    )


def _guard_state(installment: Installment, wanted: InstallmentState) -> None:
    if installment.state != wanted:
        raise _wrong_state(installment, wanted.label)


def _wrong_state(installment: Installment, wanted: object) -> WrongState:
    return WrongState(
        "state",
        _("Installment {number} is {state}; this is for one that is {wanted}."),
        number=installment.number,
        state=InstallmentState(installment.state).label,
        wanted=wanted,
    )


def _locked(program: Program) -> list[Installment]:
    """Read all installments of a program in order, locked until the change is written."""
    rows = Installment.objects.select_for_update().filter(program=program).order_by("number")
    installments = list(rows)
    for installment in installments:
        installment.program = program
    return installments


def _locked_with(installment: Installment, *, now: datetime) -> tuple[list[Installment], Installment]:
    """Lock the program's installments and find the given one, which must not be out yet."""
    installments = _locked(installment.program)
    mine = next(each for each in installments if each.pk == installment.pk)
    if _is_out(mine, now=now):
        raise _wrong_state(mine, _("still to come"))
    return installments, mine


def _is_out(installment: Installment, *, now: datetime) -> bool:
    """Whether people may have the sheet: released, or scheduled with its instant passed, sweep or not."""
    is_due = installment.release_at is not None and installment.release_at <= now
    is_scheduled = installment.state == InstallmentState.SCHEDULED
    return installment.state == InstallmentState.RELEASED or (is_scheduled and is_due)


def _put(installment: Installment, *, day: date, at: time, fold: int = 0) -> None:
    """Set the wall time and derive the instant; the fold is kept only where an hour happens twice."""
    instant = instant_of(day=day, at=at, zone=installment.program.zone, fold=fold)
    installment.wall_day, installment.wall_time = day, at
    installment.fold = fold if instant.doubled else 0
    installment.release_at = instant.utc


def _guard_past(installment: Installment, *, field: str, now: datetime) -> None:
    """Refuse to open a scheduled installment by moving it into the past."""
    if _is_out(installment, now=now):
        raise ProgramError(field, _past_remedy(), day=installment.wall_day)


def _past_remedy() -> str:
    return _("{day} at this time has passed. Choose a time that is still to come.")


def _save_dates(installments: list[Installment], *, by: User | None, now: datetime) -> None:
    """Write the dates; each installment is shown by the day of the next one, the last has no such day."""
    followers = [*installments[1:], None]
    for installment, follower in zip(installments, followers, strict=True):
        installment.due_day = follower.wall_day if follower else None
    stored = Installment.objects.in_bulk([each.pk for each in installments])
    Installment.objects.bulk_update(installments, DATE_FIELDS)
    for installment in installments:
        _renew_sheet(installment, stored[installment.pk], by=by, now=now)


def _renew_sheet(installment: Installment, before: Installment, *, by: User | None, now: datetime) -> None:
    """Make a new edition where a sheet stands already and one of its days has changed."""
    days = (installment.wall_day, installment.due_day)
    if days == (before.wall_day, before.due_day) or not installment.editions.exists():
        return
    line = _("It opens on {day}.") if installment.wall_day != before.wall_day else _("Show it by {due}.")
    line = line.format(day=installment.wall_day, due=installment.due_day)
    make_edition(installment, by=by, now=now, change_line=line)
