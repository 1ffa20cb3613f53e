"""The chain from the records to every number of a program: one pure function of what is stored."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.carrying import carry
from bom.domain.cut_lists import installment_work
from bom.domain.keeping import Kept, hash_of
from bom.domain.packets import allowances_of
from bom.domain.part_making import Bench, finishing_kinds, make_part
from bom.domain.quilt_tops import quilt_top
from bom.domain.records import read_colorways, read_records
from bom.domain.work import InstallmentWork, PartWork, ProgramWork, StripsAcross
from bom.errors import ProgramError
from bom.models import InstallmentPart
from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import write_inches
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.units.base import Unnested
from patterns.enums import Direction

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bom.domain.records import Records
    from bom.models import Program
    from patterns.engine.yardage import Allowances
    from patterns.models import Colorway

__all__ = ("InstallmentWork", "PartWork", "ProgramWork", "StripsAcross", "work_of")

STRICTNESS = (Direction.NONE, Direction.TWO_WAY, Direction.STRIPE, Direction.ONE_WAY, Direction.PANEL)
USABLE_WIDTH = Fraction(40)  # inches, until a colorway says how wide its cloth is (common practice)

_kept: Kept[ProgramWork] = Kept(most=32)


def work_of(program: Program) -> ProgramWork:
    """Work out drawings, recipes, proofs and pieces of every installment.

    Reads the records with a constant number of queries and keeps the result by the hash of what was
    read, so that a change anywhere is seen at once and no process has to be told.  ProgramError names
    the field that cannot be worked out and the remedy; a drawing that cannot be sewn is a fault of
    its part, found in the proof.
    """
    records = read_records(program)
    colorways = read_colorways(records.program)
    cloths, directions = _cloths(colorways, allowances_of(records.program)), _directions(colorways)
    numbers = hash_of([records.numbers(), cloths["widths"], directions])
    key = hash_of([numbers, records.words(), cloths["values"]])
    try:
        return _kept.get(key, lambda: _work(records, cloths, directions=directions, numbers=numbers))
    except PieceWiderThanFabric as error:
        remedy = _("A strip of {width} in cannot be joined from cloth with {usable} in to use.")
        sides = {"width": write_inches(error.width), "usable": write_inches(error.usable_width)}
        raise ProgramError("usable_width", remedy, **sides) from error


def loose_work(program: Program) -> InstallmentWork:
    """Work out the parts of the whole quilt that no installment holds, as an installment 0 of their own.

    Errors as `work_of`.
    """
    records, bench = _read_bench(program)
    held = {part.kind for each in records.installments for part in each.parts.all()}
    loose = [InstallmentPart(kind=kind) for kind in finishing_kinds(bench) if kind not in held]
    parts = [make_part(part, bench, {}) for part in loose]
    return installment_work(0, "", parts=parts, bench=bench)


def whole_work(program: Program, months: Iterable[InstallmentWork]) -> InstallmentWork:
    """Put the pieces of several installments on one list with names of its own, as an installment 0."""
    _records, bench = _read_bench(program)
    return installment_work(0, "", parts=[part for month in months for part in month.parts], bench=bench)


def _read_bench(program: Program) -> tuple[Records, Bench]:
    records = read_records(program)
    colorways = read_colorways(records.program)
    cloths = _cloths(colorways, allowances_of(records.program))
    return records, _bench(records, cloths, _directions(colorways))


def _work(
    records: Records, cloths: dict[str, dict[str, Fraction]], *, directions: dict[str, str], numbers: str
) -> ProgramWork:
    placed, bench = {each.pk: each for each in records.placed}, _bench(records, cloths, directions)
    installments = (
        installment_work(
            each.number,
            each.title,
            parts=[make_part(part, bench, placed) for part in each.parts.all()],
            bench=bench,
        )
        for each in records.installments
    )
    return ProgramWork(
        top=bench.top,
        installments=carry(tuple(installments), {each.number: each.carried for each in records.installments}),
        style=bench.style,
        content_hash=numbers,
    )


def _bench(records: Records, cloths: dict[str, dict[str, Fraction]], directions: dict[str, str]) -> Bench:
    return Bench(
        program=records.program,
        quilt=records.quilt,
        top=quilt_top(records.quilt, records.placed),
        style=_style(records, cloths, directions),
        widths=cloths["widths"],
    )


def _style(records: Records, cloths: dict[str, dict[str, Fraction]], directions: dict[str, str]) -> Style:
    program = records.program
    return Style(
        seam=program.seam,
        step=program.cutting_step,
        house=HouseStyle(program.house_style),
        half_square_over=program.half_square_over,
        quarter_square_over=program.quarter_square_over,
        unnested=Unnested(program.unnested),
        usable_width=min(cloths["widths"].values(), default=USABLE_WIDTH),
        dark={letter: int(value) for letter, value in cloths["values"].items()},
        directions=directions,
    )


def _cloths(colorways: Iterable[Colorway], allowances: Allowances) -> dict[str, dict[str, Fraction]]:
    """Give the narrowest usable width of each letter, washed, and its value added up over the colorways."""
    widths: dict[str, Fraction] = {}
    values: dict[str, Fraction] = {}
    for row in (row for colorway in colorways for row in colorway.fabrics.all()):
        letter, fabric = row.letter.letter, row.fabric
        width = allowances.washed(fabric.usable_width)
        widths[letter] = min(widths.get(letter, width), width)
        values[letter] = values.get(letter, Fraction(0)) + fabric.value
    return {"widths": widths, "values": values}


def _directions(colorways: Iterable[Colorway]) -> dict[str, str]:
    """Give each letter whose print has a direction in some colorway, and the strictest one of them."""
    found: dict[str, str] = {}
    for row in (row for colorway in colorways for row in colorway.fabrics.all()):
        letter, direction = row.letter.letter, row.fabric.direction
        found[letter] = max(found.get(letter, Direction.NONE), direction, key=STRICTNESS.index)
    return {letter: str(direction) for letter, direction in found.items() if direction != Direction.NONE}
