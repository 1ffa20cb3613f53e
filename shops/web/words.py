"""Small wordings that several pages share."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from django.contrib.humanize.templatetags.humanize import apnumber
from django.utils.translation import gettext as _

from bom.domain.chain import work_of
from bom.domain.times import time_of
from bom.enums import PartKind
from bom.errors import ProgramError
from patterns.domain.wording import hours_text, size_text

if TYPE_CHECKING:
    from bom.domain.work import ProgramWork
    from bom.models import Installment, Program

HALF_HOUR = 30  # minutes


def makes(installment: Installment) -> str:
    """Say what is made: the blocks, the parts of the whole quilt, or that it is a month to catch up."""
    parts = installment.parts.all()
    if not parts:
        return _("No new block. A month to catch up")
    words = [
        part.placed_block.block.name if part.placed_block else str(PartKind(part.kind).label)
        for part in parts
    ]
    joined = ", ".join(words)
    return joined[:1].upper() + joined[1:]


def sizes(installment: Installment, block_size: Fraction) -> str:
    """Say how many blocks, and their finished sizes; nothing where there is no block."""
    placed = [part.placed_block for part in installment.parts.all() if part.placed_block]
    if not placed:
        return ""
    found = sorted({each.own_size if each.own_size is not None else block_size for each in placed})
    each_size = ", ".join(size_text((side, side)) for side in found)
    count = len(placed)
    return _("{count} at {size}").format(count=apnumber(count), size=each_size)


def work_or_none(program: Program) -> ProgramWork | None:
    """Work the program out; None where it cannot be done: the page goes without pictures."""
    try:
        return work_of(program)
    except ProgramError:
        return None


def hours_of(work: ProgramWork | None) -> dict[int, str]:
    """Say how long each installment takes, cutting and sewing together."""
    if work is None:
        return {}
    times = [(each.number, time_of(each)) for each in work.installments]
    return {
        number: hours((time.cutting[0] + time.sewing[0], time.cutting[1] + time.sewing[1]))
        for number, time in times
    }


def hours(minutes: tuple[int, int]) -> str:
    """Write a range of minutes in half hours, rounded up: "1 1/2 to 2 h"."""
    quick, slow = (Fraction(-(-each // HALF_HOUR), 2) for each in minutes)
    if not slow:
        return _("no sewing")
    if quick == slow:
        return hours_text(slow)
    return _("{quick} to {slow}").format(quick=hours_text(quick).removesuffix(" h"), slow=hours_text(slow))
