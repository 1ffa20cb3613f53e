"""The proof of a program: every check of every installment, virtual sewing first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.frozen_state import what_breaks
from bom.domain.making import prove_recipe
from bom.domain.packet_checks import (
    carried_is_kept,
    enough_is_left,
    holds_in_centimetres,
    holds_on_narrow_fabric,
    letters_are_packed,
    packets_hold_every_piece,
)
from bom.domain.packets import allowances_of, packet
from bom.domain.proof_types import Check, Finding, InstallmentProof, ProgramProof, Result
from bom.domain.records import read_colorways
from bom.domain.sewing_checks import goes_together, rows_add_up, sizes_stand
from bom.domain.word_checks import known_of, words_hold
from bom.domain.year_checks import (
    colorways_are_complete,
    dates_are_in_order,
    pieces_reconcile,
    stays_as_frozen,
    year_adds_up,
)
from bom.errors import ProgramError
from bom.models import Program
from patterns.engine.measure import Units

if TYPE_CHECKING:
    from bom.domain.packets import Packet
    from bom.domain.work import InstallmentWork, ProgramWork
    from bom.models import Installment
    from patterns.models import Colorway

__all__ = (
    "Check",
    "Finding",
    "InstallmentProof",
    "ProgramProof",
    "Result",
    "prove_program",
    "prove_recipe",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Packed:
    """Packets of every colorway by installment, and why some could not be packed."""

    months: dict[int, list[Packet]] = field(default_factory=dict)
    faults: dict[int, list[Finding]] = field(default_factory=dict)
    years: list[tuple[Packet, ...]] = field(default_factory=list)  # of the colorways that are complete


def prove_program(program: Program) -> ProgramProof:
    """Run every check of every installment over the records as stored now.

    ProgramError where the quilt itself cannot be worked out: an empty place, a part without letter.
    """
    stored = Program.objects.select_related("quilt").get(pk=program.pk)
    work, colorways = work_of(stored), read_colorways(stored)
    packed = _pack(stored, work, colorways)
    records = {each.number: each for each in stored.installments.all()}
    proofs = []
    for at, month in enumerate(work.installments):
        before = records.get(work.installments[at - 1].number) if at else None
        checks = [
            *_sewing(month, units_of(stored)),
            *_packing(stored, month, packed),
            colorways_are_complete(month, colorways),
            dates_are_in_order(records[month.number], before),
            _words(records[month.number], work, colorways=colorways, packed=packed),
        ]
        proofs.append(InstallmentProof(number=month.number, checks=tuple(checks)))
    return ProgramProof(installments=tuple(_with_the_year(proofs, stored, work=work, packed=packed)))


def units_of(program: Program) -> Units:
    """Give the units that a program is made in; findings are said in them."""
    return Units.CENTIMETRES if program.centimetres else Units.INCHES


def _sewing(month: InstallmentWork, units: Units) -> Iterator[Check]:
    yield goes_together(month)
    yield sizes_stand(month, units=units)
    yield rows_add_up(month)
    yield pieces_reconcile(month)


def _packing(program: Program, month: InstallmentWork, packed: _Packed) -> Iterator[Check]:
    packets, units = packed.months.get(month.number, []), units_of(program)
    yield letters_are_packed(month, packets)
    yield packets_hold_every_piece(month, packets, faults=packed.faults.get(month.number, ()))
    if month.carried:
        yield carried_is_kept(month, packed.months)
    yield enough_is_left(packets, allowances_of(program), units=units)
    yield holds_on_narrow_fabric(packets, units=units)
    yield holds_in_centimetres(packets, allowances_of(program))


def _words(
    installment: Installment, work: ProgramWork, *, colorways: tuple[Colorway, ...], packed: _Packed
) -> Check:
    packets = [] if installment.number in packed.faults else packed.months.get(installment.number, [])
    return words_hold(installment, known_of(installment, work, colorways=colorways, packets=packets))


def _with_the_year(
    proofs: list[InstallmentProof], program: Program, *, work: ProgramWork, packed: _Packed
) -> Iterator[InstallmentProof]:
    """Add what was frozen to every installment, and the sums of the year to the last."""
    breaks = what_breaks(program) if program.is_frozen and not packed.faults else ()
    for at, proof in enumerate(proofs):
        checks = list(proof.checks)
        if program.is_frozen:
            numbers = {proof.number} if at else {proof.number, 0}  # 0: of no single installment
            checks.append(stays_as_frozen(breaks, numbers))
        if at == len(proofs) - 1:
            checks.append(year_adds_up(work, program.quilt, packed.years))
        yield InstallmentProof(number=proof.number, checks=tuple(checks))


def _pack(program: Program, work: ProgramWork, colorways: tuple[Colorway, ...]) -> _Packed:
    packed = _Packed()
    for colorway in colorways:
        year = []
        for month in work.installments:
            try:
                year.append(packet(program, work, colorway, month.number))
            except ProgramError as error:
                fault = Finding(step=str(colorway), piece=error.field, found=error.remedy)
                packed.faults.setdefault(month.number, []).append(fault)
        for each in year:
            packed.months.setdefault(each.number, []).append(each)
        if len(year) == len(work.installments):
            packed.years.append(tuple(year))
    return packed
