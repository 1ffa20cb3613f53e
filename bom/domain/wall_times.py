"""Days by rule, and instants from wall times: what a calendar says, and when that is in UTC."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from itertools import islice
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from dateutil.rrule import rrulestr
from django.utils.translation import gettext as _

from bom.errors import ProgramError

if TYPE_CHECKING:
    from collections.abc import Iterator

YEARS_AHEAD = 12  # how far a rule is followed; the longest program has one installment a month for years
SHORTEST_MONTH = 28
WEEKS_IN_EVERY_MONTH = 4
KNOWN_PARTS = frozenset({"FREQ", "INTERVAL", "BYDAY", "BYMONTHDAY", "BYMONTH", "BYSETPOS", "WKST"})
KNOWN_FREQUENCIES = frozenset({"MONTHLY", "WEEKLY"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Instant:
    """A wall time of a zone in UTC; `missing` and `doubled` say what the change of clocks did to it.

    A wall time that the clocks jump over is read with the offset before the jump (RFC 5545, 3.3.5):
    02:30 in a gap of one hour is 03:30.  One that happens twice is told apart by its fold.
    """

    utc: datetime
    missing: bool
    doubled: bool


def zone_named(name: str) -> ZoneInfo:
    """Give the zone; ProgramError when there is none of this name."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise ProgramError(
            "zone", _("There is no time zone {zone}. Write one such as America/Halifax."), zone=repr(name)
        ) from error


def instant_of(*, day: date, at: time, zone: str, fold: int = 0) -> Instant:
    """Say when the clocks of a zone show `at` on `day`; `fold` 1 is the second time of a doubled hour."""
    place = zone_named(zone)
    first, second = (datetime.combine(day, at, place).replace(fold=n).astimezone(UTC) for n in (0, 1))
    shown = first.astimezone(place).replace(tzinfo=None)
    missing = shown != datetime.combine(day, at)
    doubled = first != second and not missing
    return Instant(utc=second if fold and doubled else first, missing=missing, doubled=doubled)


def rule_days(rule: str, *, first_day: date, count: int) -> tuple[date, ...]:
    """Give the first `count` days of a rule, from `first_day` on.

    The rule is a subset of RFC 5545: FREQ=MONTHLY or WEEKLY with INTERVAL, BYDAY, BYMONTHDAY, BYMONTH
    and BYSETPOS.  Two rules with a space between give the days of both: the first Saturday and the
    Monday after it are "FREQ=MONTHLY;BYDAY=1SA FREQ=MONTHLY;BYDAY=MO;BYMONTHDAY=3,4,5,6,7,8,9".
    Every day is computed from the rule, never from the day before.  ProgramError names `rule`.
    """
    if not rule.split():
        raise _bad_rule(rule)
    days: set[date] = set()
    for each in rule.split():
        _check(each)
        days.update(islice(_days(each, first_day), count))
    if len(days) < count:
        raise ProgramError(
            "rule",
            _("The rule gives {found} days in {years} years, but {count} are needed. Choose another."),
            found=len(days),
            years=YEARS_AHEAD,
            count=count,
        )
    return tuple(sorted(days)[:count])


def _days(rule: str, first_day: date) -> Iterator[date]:
    """Follow one rule, at most some years ahead; a rule without any day ends too."""
    start = datetime.combine(first_day, time())
    last = first_day + timedelta(days=366 * YEARS_AHEAD)
    try:
        found = rrulestr(rule, dtstart=start)
    except (ValueError, TypeError, KeyError, IndexError, AttributeError) as error:
        raise _bad_rule(rule) from error
    for moment in found.replace(until=datetime.combine(last, time())):
        yield moment.date()


def _check(rule: str) -> None:
    """Refuse what is no rule, and rules that silently skip months."""
    parts = dict(part.partition("=")[::2] for part in rule.split(";"))
    if (
        parts.get("FREQ") not in KNOWN_FREQUENCIES
        or not parts.keys() <= KNOWN_PARTS
        or not all(parts.values())
    ):
        raise _bad_rule(rule)
    if not parts.get("INTERVAL", "1").isdecimal() or parts.get("INTERVAL", "1").strip("0") == "":
        raise _bad_rule(rule)
    if parts["FREQ"] == "MONTHLY" and "BYSETPOS" not in parts:
        _check_every_month_has_it(parts)


def _check_every_month_has_it(parts: dict[str, str]) -> None:
    """Refuse a 31st and a fifth Saturday: RFC 5545 leaves out the months that have none."""
    for day in parts.get("BYMONTHDAY", "").split(","):
        number = day.lstrip("+")
        if number.isdecimal() and int(number) > SHORTEST_MONTH and "BYDAY" not in parts:
            raise ProgramError(
                "rule",
                _("Not every month has a day {day}. For the last day of the month write BYMONTHDAY=-1."),
                day=number,
            )
    for week in parts.get("BYDAY", "").split(","):
        number, weekday = week[:-2].lstrip("+-"), week[-2:]
        if number.isdecimal() and int(number) > WEEKS_IN_EVERY_MONTH:
            raise ProgramError(
                "rule",
                _("Not every month has a fifth {weekday}. For the last one write BYDAY=-1{weekday}."),
                weekday=weekday,
            )


def _bad_rule(rule: str) -> ProgramError:
    return ProgramError(
        "rule",
        _("{rule} is no release rule. Write one such as FREQ=MONTHLY;BYDAY=3SA for third Saturdays."),
        rule=repr(rule),
    )
