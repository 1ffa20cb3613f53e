"""How much care and time an installment asks for, in words, for the designer's page and the sheet."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.times import time_of
from patterns.domain.wording import fractions_html, hours_text, measure_html, say
from patterns.engine.measure import Units

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.work import InstallmentWork

HOUR = 60


def hours_html(work: InstallmentWork) -> SafeString:
    """Say the hours of a quick and of an unhurried hand, to quarters, rounded up."""
    time = time_of(work)
    quick, unhurried = (Fraction(a + b, HOUR) for a, b in zip(time.cutting, time.sewing, strict=True))
    quarters = [Fraction(-(-each * 4 // 1), 4) for each in (quick, unhurried)]
    words = _("{quick} to {unhurried}").format(
        quick=hours_text(quarters[0]), unhurried=hours_text(quarters[1])
    )
    return measure_html(words)


def care_html(work: InstallmentWork, units: Units) -> SafeString:
    """Say how hard it is and why: "some care: 8 diagonal seams, smallest patch 1 in"."""
    time = time_of(work)
    grades = {1: _("plain sewing"), 2: _("some care"), 3: _("a careful hand")}
    grade = grades[time.difficulty]
    if not time.reasons:
        return fractions_html(grade)
    reasons = ", ".join(say(reason, units) for reason in time.reasons)
    return fractions_html(_("{grade}: {reasons}").format(grade=grade, reasons=reasons))
