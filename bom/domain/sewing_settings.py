"""How a program is sewn: its settings in words, what they add to a finished size, and their change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.change_targets import Target, Values
from bom.domain.lengths import units_of
from patterns.domain.wording import length_text
from patterns.engine.measure import inches, write_inches
from patterns.engine.surds import ceiling
from patterns.engine.units.base import HALF_SQUARE, QUARTER_SQUARE
from patterns.enums import HouseStyleChoice

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime
    from fractions import Fraction

    from bom.models import Program
    from patterns.engine.surds import Number
    from patterns.models import User

SEWING_LENGTHS = ("seam", "cutting_step", "half_square_over", "quarter_square_over")
SEWING_CHOICES = ("house_style", "unnested")
SEAMS: dict[str, Number] = {"half_square_over": HALF_SQUARE, "quarter_square_over": QUARTER_SQUARE}


def least_added(name: str, *, seam: Fraction, step: Fraction) -> Fraction:
    """Give what a square needs above the finished size, up to the step: 7/8 and 1 1/4 in at a 1/4 in seam."""
    return ceiling(SEAMS[name] * seam, step)


def added(program: Program, name: str) -> Fraction:
    """Give what an oversized square is cut larger than finished: 1 and 1 1/2 in, common practice."""
    return ceiling(SEAMS[name] * program.seam + getattr(program, name), program.cutting_step)


def sewing_words(program: Program) -> list[str]:
    """Say how the program is sewn."""
    return list(_words(program))


def _words(program: Program) -> Iterator[str]:
    units = units_of(program)
    yield _("Seam allowance {seam}, cut to {step}.").format(
        seam=length_text(program.seam, units), step=length_text(program.cutting_step, units)
    )
    if program.house_style == HouseStyleChoice.EXACT:
        yield _("Units are cut exact.")
    else:
        yield oversize_words(program)
    yield _("Where seams cannot nest: {choice}.").format(choice=program.get_unnested_display())


def oversize_words(program: Program) -> str:
    """Say how much larger than finished triangles are cut."""
    units = units_of(program)
    words = _(
        "Units are cut oversized and trimmed: half-square triangles finished + {half}, quarter-square "
        "triangles and flying geese finished + {quarter}."
    )
    half, quarter = (length_text(added(program, name), units) for name in SEAMS)
    return words.format(half=half, quarter=quarter)


def _read(program: Program, key: str) -> Values:  # noqa: ARG001 -- the way every target is read
    program.refresh_from_db(fields=(*SEWING_LENGTHS, *SEWING_CHOICES))
    lengths = {name: write_inches(getattr(program, name)) for name in SEWING_LENGTHS}
    return {**lengths, **{name: str(getattr(program, name)) for name in SEWING_CHOICES}}


def _write(program: Program, key: str, values: Values, *, by: User, now: datetime) -> None:  # noqa: ARG001 -- the way every target is written
    for name in SEWING_LENGTHS:
        setattr(program, name, inches(values[name]))
    for name in SEWING_CHOICES:
        setattr(program, name, values[name])
    program.save(update_fields=(*SEWING_LENGTHS, *SEWING_CHOICES))


def _told(program: Program, key: str) -> list[str]:  # noqa: ARG001 -- the way every target is told
    return sewing_words(program)


SEWING_TARGETS = {"sewing": Target(read=_read, write=_write, told=_told)}
