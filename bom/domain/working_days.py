"""Back-planning: by when the work of an installment must be done, on working days of a country."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING

import holidays
from django.utils.translation import gettext as _

from bom.errors import ProgramError

if TYPE_CHECKING:
    from bom.models import Installment

# Weeks and days before the release; common practice, as the plan of the demo year shows them.
WORDS = timedelta(weeks=10)
EDIT = timedelta(weeks=6)
APPROVE = timedelta(weeks=4)
CUTTING = timedelta(days=9)
POST = timedelta(days=4)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanDays:
    """Days of the program's zone by which each thing must be done; no cutting without a packet."""

    words: date
    edit: date
    approve: date
    cutting: date | None
    post: date | None
    release: date


def plan_days(installment: Installment, country: str) -> PlanDays:
    """Count back from the release day to working days of a country ("NO", or "CA-NS" with its part).

    A day that is no working day becomes the working day before it.  ProgramError names `wall_day`
    when the installment has no day yet, `country` when the holidays of the place are not known.
    """
    release = installment.wall_day
    if release is None:
        raise ProgramError("wall_day", _("This installment has no day yet. Give the year its days first."))
    free = _holidays(country)
    has_packet = bool(installment.parts.all())
    return PlanDays(
        words=_working_day(release - WORDS, free),
        edit=_working_day(release - EDIT, free),
        approve=_working_day(release - APPROVE, free),
        cutting=_working_day(release - CUTTING, free) if has_packet else None,
        post=_working_day(release - POST, free) if has_packet else None,
        release=release,
    )


@lru_cache(maxsize=32)
def _holidays(country: str) -> holidays.HolidayBase:
    place, _dash, part = country.partition("-")
    try:
        return holidays.country_holidays(place, subdiv=part or None)
    except NotImplementedError as error:
        raise ProgramError(
            "country",
            _("No holidays are known for {country}. Write a code such as NO or CA-NS."),
            country=country,
        ) from error


def _working_day(day: date, free: holidays.HolidayBase) -> date:
    while not free.is_working_day(day):
        day -= timedelta(days=1)
    return day
