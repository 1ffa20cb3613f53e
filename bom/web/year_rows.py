"""The installments of a year as rows: state, proof, days of the plan, pictures, hours."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import TYPE_CHECKING

from django.db.models import Max
from django.utils.translation import gettext as _

from bom.domain.chain import work_of
from bom.domain.places import country_of
from bom.domain.planning import plan_days
from bom.domain.proofs import prove_program
from bom.domain.times import time_of
from bom.enums import InstallmentState
from bom.errors import ProgramError
from bom.models import Installment

if TYPE_CHECKING:
    from datetime import datetime

    from bom.domain.proofs import InstallmentProof
    from bom.domain.work import InstallmentWork, ProgramWork
    from bom.models import Program

STATES = list(InstallmentState)
HOUR = 60  # minutes


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCell:
    """One day of the plan: done, late, next (the release to come), or simply ahead."""

    key: str
    day: date | None
    state: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class YearRow:
    """One installment of the year."""

    installment: Installment
    edition: int
    is_out: bool
    proof: InstallmentProof | None
    work: InstallmentWork | None
    cells: tuple[PlanCell, ...]

    @property
    def late(self) -> PlanCell | None:
        """Give the first thing that is late."""
        return next((cell for cell in self.cells if cell.state == "late"), None)

    @property
    def coming(self) -> PlanCell | None:
        """Give the next thing to be done."""
        return next((cell for cell in self.cells if cell.day and cell.state != "done"), None)

    @property
    def hours(self) -> tuple[Fraction, Fraction]:
        """Give hours for a quick and for an unhurried hand, to quarters, rounded up."""
        if self.work is None:
            return Fraction(0), Fraction(0)
        time = time_of(self.work)
        quick, unhurried = (
            Fraction(cut + sewn, HOUR) for cut, sewn in zip(time.cutting, time.sewing, strict=True)
        )
        return Fraction(-(-quick * 4 // 1), 4), Fraction(-(-unhurried * 4 // 1), 4)


def work_or_fault(program: Program) -> tuple[ProgramWork | None, ProgramError | None]:
    """Work the program out, or give the reason why it cannot be."""
    try:
        return work_of(program), None
    except ProgramError as error:
        return None, error


def proofs_of(program: Program) -> dict[int, InstallmentProof]:
    """Prove every installment, by number; nothing where the quilt cannot be worked out."""
    try:
        return {proof.number: proof for proof in prove_program(program).installments}
    except ProgramError:
        return {}


def year_rows(program: Program, work: ProgramWork | None, *, now: datetime, today: date) -> list[YearRow]:
    """Give every installment with its days: two queries, however many there are."""
    found = Installment.objects.filter(program=program).order_by("number")
    installments = found.annotate(edition=Max("editions__number")).prefetch_related("parts")
    works = {each.number: each for each in work.installments} if work else {}
    proofs = proofs_of(program)
    rows = []
    for installment in installments:
        installment.program = program
        is_out = is_open(installment, now=now)
        rows.append(
            YearRow(
                installment=installment,
                edition=installment.edition or 0,
                is_out=is_out,
                proof=proofs.get(installment.number),
                work=works.get(installment.number),
                cells=_cells(installment, is_out=is_out, today=today),
            )
        )
    return rows


def is_open(installment: Installment, *, now: datetime) -> bool:
    """Whether people may have the sheet, sweep or not."""
    is_set = installment.state in {InstallmentState.SCHEDULED, InstallmentState.RELEASED}
    return is_set and installment.release_at is not None and installment.release_at <= now


def is_past(installment: Installment, state: InstallmentState) -> bool:
    """Whether an installment has come as far as this state."""
    return STATES.index(InstallmentState(installment.state)) >= STATES.index(state)


def proof_words(row: YearRow) -> str:
    """Say the proof in two words."""
    if row.proof is None:
        return _("not run")
    if row.proof.stops:
        return _("{count} stop").format(count=row.proof.stops)
    if row.proof.looks:
        return _("{count} to look at").format(count=row.proof.looks)
    return _("goes together") if row.work and row.work.parts else _("nothing to sew")


def _cells(installment: Installment, *, is_out: bool, today: date) -> tuple[PlanCell, ...]:
    try:
        days = plan_days(installment, country_of(installment.program.zone))
    except ProgramError:
        return (*(PlanCell(key=key, day=None) for key in CELLS), _release(installment, is_out=is_out))
    done = {
        "words": bool(installment.story) or is_past(installment, InstallmentState.EDITED),
        "edit": is_past(installment, InstallmentState.EDITED),
        "approve": is_past(installment, InstallmentState.APPROVED),
    }
    cells = [_cell(key, getattr(days, key), is_done=done[key] or is_out, today=today) for key in done]
    shops = [
        PlanCell(key=key, day=day, state="done" if day and (is_out or day < today) else "")
        for key, day in (("cutting", days.cutting), ("post", days.post))
    ]
    return (*cells, *shops, _release(installment, is_out=is_out))


CELLS = ("words", "edit", "approve", "cutting", "post")


def _cell(key: str, day: date | None, *, is_done: bool, today: date) -> PlanCell:
    is_late = day is not None and day < today
    return PlanCell(key=key, day=day, state="done" if is_done else "late" if is_late else "")


def _release(installment: Installment, *, is_out: bool) -> PlanCell:
    return PlanCell(key="release", day=installment.wall_day, state="done" if is_out else "")
