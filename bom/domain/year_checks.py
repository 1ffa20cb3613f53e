"""Checks that look beyond one packet: sums, dates, colorways, and what was frozen."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from bom.domain.proof_types import Check, Finding, stopping
from bom.domain.reconciling import month_faults, packet_faults, year_faults

if TYPE_CHECKING:
    from bom.domain.frozen import Break
    from bom.domain.packets import Packet
    from bom.domain.work import InstallmentWork, ProgramWork
    from bom.models import Installment
    from patterns.models import Colorway, Quilt


def pieces_reconcile(work: InstallmentWork) -> Check:
    """See that pieces cut less named spares are pieces sewn, per fabric and per hand."""
    words = "Pieces cut less spares are pieces sewn."
    return stopping(month_faults(work)).check("pieces reconcile", words)


def year_adds_up(work: ProgramWork, quilt: Quilt, packed: Iterable[tuple[Packet, ...]]) -> Check:
    """See that the installments together are the whole quilt, and their packets its fabric."""
    faults = (*year_faults(work, quilt), *packet_faults(work, packed))
    words = "All installments together are the whole quilt of {size}."
    return stopping(faults).check("the year adds up", words, {"size": (work.top.width, work.top.height)})


def colorways_are_complete(work: InstallmentWork, colorways: tuple[Colorway, ...]) -> Check:
    """See that there is a colorway, and that every letter that is cut has a fabric in each."""
    faults = [] if colorways else [Finding(piece="colorways", expected="one at least", found="none")]
    faults += [
        Finding(step=str(colorway), piece=letter, expected="a fabric", found="none")
        for colorway in colorways
        for letter in sorted(set(work.letters) - {row.letter.letter for row in colorway.fabrics.all()})
    ]
    return stopping(faults).check("colorways", "Every letter has its fabric in every colorway.")


def dates_are_in_order(installment: Installment, before: Installment | None) -> Check:
    """See that an installment comes after the one before it and is due after its own release."""
    faults = []
    if before and before.wall_day and installment.wall_day and installment.wall_day <= before.wall_day:
        expected = f"after {before.wall_day.isoformat()}"
        faults.append(Finding(piece="day", expected=expected, found=installment.wall_day.isoformat()))
    if installment.due_day and installment.wall_day and installment.due_day < installment.wall_day:
        expected = f"not before {installment.wall_day.isoformat()}"
        faults.append(Finding(piece="show it by", expected=expected, found=installment.due_day.isoformat()))
    words = "The dates are in order." if installment.wall_day else "No day is set yet."
    return stopping(faults).check("dates", words)


def stays_as_frozen(breaks: Iterable[Break], numbers: set[int]) -> Check:
    """See that nothing of these installments differs from the fabric freeze, and no need has risen."""
    faults = [
        Finding(
            step=each.colorway,
            piece=f"{each.place}, {each.what}" if each.place else each.what,
            expected=each.before,
            found=each.after,
        )
        for each in breaks
        if each.number in numbers
    ]
    return stopping(faults).check("as frozen", "Drawing, sizes, methods and needs are as frozen.")
