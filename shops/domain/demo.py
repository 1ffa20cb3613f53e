"""The demo: a program file and invented people, laid down around today, all of it or nothing."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from django.db import transaction

from bom.domain.editions import make_edition
from bom.domain.freezing import freeze_fabric
from bom.domain.planning import instant_of, rule_days
from bom.domain.program_files import import_program, with_first_day
from bom.enums import GateName, InstallmentState, ProgramRole, ProgramState
from bom.models import Gate, Installment, Program, ProgramMember
from patterns.models import User
from shops.domain.demo_orders import give_packets, order_fabric
from shops.domain.demo_people import add_people
from shops.domain.demo_shops import add_shop

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    Data = Mapping[str, Any]

__all__ = ("first_day_for", "load_demo")

OUT_BEFORE_TODAY = 3  # installments released when the demo is loaded
LOOK_BACK = timedelta(days=400)
A_YEAR = timedelta(days=365)
SHEET_BEFORE = timedelta(days=28)  # an edition stands four weeks before its release
FIRST_STATES = (InstallmentState.SCHEDULED, InstallmentState.APPROVED, InstallmentState.EDITED)


@transaction.atomic
def load_demo(*, program_file: Data, people: Data, now: datetime, drafts: Sequence[Data] = ()) -> bool:
    """Lay the demo down so that three installments are out at `now`; False when it is there already.

    What the file says is imported, frozen and running; dates of shops follow the first release.
    `drafts` are programs that the designer still works on; they begin a year from now.
    """
    if Program.objects.filter(slug=program_file["slug"]).exists():
        return False
    designer = _person(people["designer"])
    data = with_first_day(program_file, first_day_for(program_file, now=now))
    program = import_program(data, designer=designer, now=now)
    first = _first_release(program)
    _add_team(program, people["team"])
    program = _pass_gates(program, people["gates"], first=first)
    _set_states(program, now=now)
    _make_sheets(program, people["corrections"], now=now)
    for each in people["shops"]:
        terms = add_shop(each, program, days=_days(people, each, first=first, now=now))
        add_people(each, terms, zones=people["zones"], now=now)
        order_fabric(terms)
        give_packets(terms)
    for draft in drafts:
        begins = (now + A_YEAR).date().replace(day=1)
        import_program(with_first_day(draft, begins), designer=designer, now=now)
    return True


def first_day_for(program_file: Data, *, now: datetime) -> date:
    """Choose the month in which the year begins, so that three releases lie before `now`."""
    calendar, zone = program_file["calendar"], program_file["zone"]
    here = now.astimezone(ZoneInfo(zone)).date()
    days = rule_days(
        calendar["rule"], first_day=here - LOOK_BACK, count=len(program_file["installments"]) * 2
    )
    at = datetime.strptime(calendar["release_time"], "%H:%M").time()  # noqa: DTZ007 -- a wall time has no zone
    past = [day for day in days if instant_of(day=day, at=at, zone=zone).utc <= now]
    return past[-OUT_BEFORE_TODAY].replace(day=1)


def _first_release(program: Program) -> date:
    """Give the day of installment 1; an import gives every installment a day."""
    day = program.installments.get(number=1).wall_day
    return day or program.first_day


def _person(data: Data) -> User:
    """Find or make a person of the designer's house."""
    known = User.objects.filter(email=data["email"]).first()
    return known or User.objects.create_user(data["email"], data["name"], zone=data["zone"])


def _add_team(program: Program, team: list[Data]) -> None:
    ProgramMember.objects.bulk_create(
        ProgramMember(program=program, user=_person(each), role=ProgramRole(each["role"])) for each in team
    )


def _pass_gates(program: Program, gates: list[Data], *, first: date) -> Program:
    """Pass the gates of the whole program, at their distance from the first release."""
    made = [
        Gate(
            program=program,
            name=GateName(each["name"]),
            passed_on=first + timedelta(days=each["day"]),
            note=each["note"],
        )
        for each in gates
    ]
    Gate.objects.bulk_create(made)
    frozen_on = next(gate.passed_on for gate in made if gate.name == GateName.FABRIC_FREEZE)
    at = instant_of(day=frozen_on, at=program.release_time, zone=program.zone).utc
    return freeze_fabric(program, by=program.designer, now=at)


def _set_states(program: Program, *, now: datetime) -> None:
    """Release what lies before now; of what follows, one is scheduled, one approved, one edited."""
    coming = iter(FIRST_STATES)
    installments = list(program.installments.order_by("number"))
    for installment in installments:
        is_out = installment.release_at is not None and installment.release_at <= now
        installment.state = InstallmentState.RELEASED if is_out else next(coming, InstallmentState.DRAFT)
    Installment.objects.bulk_update(installments, ("state",))
    program.state = ProgramState.RUNNING
    program.save(update_fields=("state",))


def _make_sheets(program: Program, corrections: list[Data], *, now: datetime) -> None:
    """Make the sheets of what is out or scheduled, and the corrections that the story tells of."""
    wrong = {each["number"]: each for each in corrections}
    for installment in program.installments.order_by("number")[: OUT_BEFORE_TODAY + 1]:
        installment.program = program
        release, fault = installment.release_at or now, wrong.get(installment.number)
        right = installment.tips
        _edition(installment, tips=fault["tips"] if fault else right, at=min(now, release - SHEET_BEFORE))
        if fault:
            at = min(now, release + timedelta(days=fault["day"]))
            _edition(installment, tips=right, at=at, line=fault["line"])


def _edition(installment: Installment, *, tips: str, at: datetime, line: str = "") -> None:
    """Make the edition that says these tips."""
    installment.tips = tips
    installment.save(update_fields=("tips",))
    make_edition(installment, by=installment.program.designer, now=at, change_line=line)


def _days(people: Data, shop: Data, *, first: date, now: datetime) -> dict[str, date]:
    """Give the days of a shop's terms: of the year, or still to come where the head-count is open."""
    is_open = shop["terms"]["head_count"] == "open"
    start = now.astimezone(ZoneInfo(shop["zone"])).date() if is_open else first
    return {name: start + timedelta(days=n) for name, n in people["days_open" if is_open else "days"].items()}
