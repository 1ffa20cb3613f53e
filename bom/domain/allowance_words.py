"""The allowances of a program in words, for pages and sheets: every inch that is added has a name."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from django.utils.formats import number_format
from django.utils.translation import gettext as _

from patterns.domain.wording import fabric_text, length_text
from patterns.engine.measure import CENTIMETRE, EIGHTH_YARD, YARD
from patterns.engine.yardage import LEAST_LEFT_OVER

if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from bom.models import Program
    from patterns.engine.measure import Units

SOLD_BY = (EIGHTH_YARD, YARD / 4, 5 * CENTIMETRE, 10 * CENTIMETRE)


def allowance_words(program: Program, units: Units) -> list[str]:
    """Name what the suggested length holds above the plan, in the order in which it is added."""
    return list(_words(program, units))


def sold_by_text(step: Fraction) -> str:
    """Say a step of sale: "1/8 yd" or "5 cm"."""
    if step % CENTIMETRE == 0 and step not in SOLD_BY[:2]:
        return _("{count} cm").format(count=step / CENTIMETRE)
    return fabric_text(step)


def _words(program: Program, units: Units) -> Iterator[str]:
    if program.spare_strip:
        yield _("one spare strip of the widest kind for each fabric")
    yield _("{length} to square up each cut").format(length=length_text(program.squaring_up, units))
    if program.prewash:
        percent = number_format(Decimal(program.shrinkage_percent).normalize())
        words = _("{percent} % that washing takes of length and width: wash before you cut")
        yield words.format(percent=percent)
    else:
        yield _("nothing for washing")
    words = _("then rounded up to {step}, with at least {least} to spare")
    yield words.format(step=sold_by_text(program.sold_by), least=length_text(LEAST_LEFT_OVER, units))


def shop_words(program: Program, units: Units) -> str:
    """Name what the shop adds when it cuts."""
    tolerance = length_text(program.cutting_tolerance, units)
    return _("The shop cuts {tolerance} more for each half yard.").format(tolerance=tolerance)
