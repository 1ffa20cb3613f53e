"""What follows from a change: sizes and cut lists of the year in sentences, needs fabric by fabric."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from bom.domain.chain import work_of
from bom.domain.frozen import needs_data
from bom.domain.lengths import units_of
from bom.domain.need_changes import NeedChange, need_changes
from bom.domain.packets import packets
from bom.domain.records import read_colorways
from bom.errors import ProgramError
from patterns.domain.wording import size_text

if TYPE_CHECKING:
    from bom.domain.frozen import Data
    from bom.models import Program
    from patterns.engine.measure import Units
    from patterns.engine.steps import Size


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbers:
    """The numbers of a year that a change may touch."""

    size: Size
    cuts: dict[int, Any]
    needs: Data
    units: Units


def numbers_of(program: Program) -> Numbers | None:
    """Read the numbers as they stand; None where the program cannot be worked out."""
    try:
        return read_numbers(program)
    except ProgramError:
        return None


def read_numbers(program: Program) -> Numbers:
    """Read the numbers as they stand; ProgramError names the field that cannot be worked out."""
    work = work_of(program)
    return Numbers(
        units=units_of(program),
        size=(work.top.width, work.top.height),
        cuts={each.number: each.pieces for each in work.installments},
        needs=needs_data({each.slug: packets(program, work, each) for each in read_colorways(program)}),
    )


def effects(before: Numbers | None, after: Numbers | None) -> tuple[str, ...]:
    """Say in sentences what differs in sizes and cut lists; nothing where one of the two is not known."""
    if before is None or after is None:
        return ()
    return (*_size(before, after), *_cuts(before, after))


def needs_changed(before: Numbers | None, after: Numbers | None) -> tuple[NeedChange, ...]:
    """Give the fabrics whose need differs; nothing where one of the two is not known."""
    if before is None or after is None:
        return ()
    return need_changes(before.needs, after.needs)


def _size(before: Numbers, after: Numbers) -> Iterator[str]:
    if before.size != after.size:
        words = _("The quilt is {after} finished instead of {before}.")
        yield words.format(
            after=size_text(after.size, after.units), before=size_text(before.size, after.units)
        )


def _cuts(before: Numbers, after: Numbers) -> Iterator[str]:
    changed = [number for number in after.cuts if after.cuts[number] != before.cuts.get(number)]
    if len(changed) == 1:
        yield _("Installment {number} has another cut list.").format(number=changed[0])
    elif changed:
        numbers = ", ".join(map(str, changed))
        yield _("Installments {numbers} have another cut list.").format(numbers=numbers)
