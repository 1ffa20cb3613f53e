"""Days by rule, and instants over changes of clocks."""

from __future__ import annotations

from datetime import UTC, date, datetime, time

import pytest

from bom.domain import planning
from bom.errors import ProgramError

MONDAY_AFTER = "FREQ=MONTHLY;BYDAY=MO;BYMONTHDAY=3,4,5,6,7,8,9"


def days(rule: str, first_day: date, count: int) -> list[str]:
    return [str(day) for day in planning.rule_days(rule, first_day=first_day, count=count)]


# Rules


def test_third_saturdays_of_a_year() -> None:
    """Reference case C59: a shop's calendar, public account, common practice (RFC 5545)."""
    expected = (
        "2019-04-20 2019-05-18 2019-06-15 2019-07-20 2019-08-17 2019-09-21 "
        "2019-10-19 2019-11-16 2019-12-21 2020-01-18 2020-02-15 2020-03-21"
    )
    assert days("FREQ=MONTHLY;BYDAY=3SA", date(2019, 4, 20), 12) == expected.split()


def test_last_days_do_not_drift_after_february() -> None:
    """Reference case C62: the intended reading of "on the 31st", public account, common practice."""
    expected = "2027-01-31 2027-02-28 2027-03-31 2027-04-30 2027-05-31"
    assert days("FREQ=MONTHLY;BYMONTHDAY=-1", date(2027, 1, 1), 5) == expected.split()


def test_first_saturday_and_the_monday_after_it() -> None:
    """May 2027 begins on a Saturday, August 2027 on a Sunday; days counted by hand."""
    both = f"FREQ=MONTHLY;BYDAY=1SA {MONDAY_AFTER}"
    assert days(both, date(2027, 5, 1), 4) == ["2027-05-01", "2027-05-03", "2027-06-05", "2027-06-07"]
    assert days(MONDAY_AFTER, date(2027, 8, 1), 1) == ["2027-08-09"]  # the Saturday is the 7th


@pytest.mark.parametrize(
    ("rule", "remedy"),
    [
        ("FREQ=MONTHLY;BYMONTHDAY=31", "BYMONTHDAY=-1"),  # C62: would give 7 releases a year
        ("FREQ=MONTHLY;BYDAY=5SA", "BYDAY=-1SA"),
        ("FREQ=MONTHLY;BYDAY=8XX", "BYDAY=-1XX"),
        ("FREQ=MONTHLY;BYDAY=XX", "FREQ=MONTHLY;BYDAY=3SA"),
        ("FREQ=MONTHLY;INTERVAL=0;BYDAY=SA", "FREQ=MONTHLY;BYDAY=3SA"),
        ("FREQ=SECONDLY", "FREQ=MONTHLY;BYDAY=3SA"),
        ("FREQ=MONTHLY;COUNT=2", "FREQ=MONTHLY;BYDAY=3SA"),
        ("third Saturdays", "FREQ=MONTHLY;BYDAY=3SA"),
        ("", "FREQ=MONTHLY;BYDAY=3SA"),
        ("FREQ=MONTHLY;BYMONTH=2;BYMONTHDAY=30", "BYMONTHDAY=-1"),
    ],
)
def test_a_rule_that_would_skip_months_or_is_none_is_refused(rule: str, remedy: str) -> None:
    with pytest.raises(ProgramError) as caught:
        planning.rule_days(rule, first_day=date(2027, 1, 1), count=3)
    assert caught.value.field == "rule"
    assert remedy in caught.value.remedy


def test_a_rule_with_too_few_days_is_refused() -> None:
    with pytest.raises(ProgramError, match="but 40 are needed"):
        planning.rule_days("FREQ=MONTHLY;INTERVAL=12;BYMONTHDAY=1", first_day=date(2027, 1, 1), count=40)


# Instants


@pytest.mark.parametrize(
    ("zone", "wall"),
    [
        ("America/Los_Angeles", "2026-10-31 21:00"),
        ("Europe/London", "2026-11-01 04:00"),
        ("Australia/Sydney", "2026-11-01 15:00"),
        ("Pacific/Auckland", "2026-11-01 17:00"),
    ],
)
def test_midnight_in_new_york_seen_from_elsewhere(zone: str, wall: str) -> None:
    """Reference case C63: public account, common practice; 04:00 UTC."""
    found = planning.instant_of(day=date(2026, 11, 1), at=time(0), zone="America/New_York")
    assert found.utc == datetime(2026, 11, 1, 4, tzinfo=UTC)
    local = planning.instant_of(
        day=date.fromisoformat(wall[:10]), at=time.fromisoformat(wall[11:]), zone=zone
    )
    assert local.utc == found.utc


def test_a_doubled_hour_is_told_apart_by_its_fold() -> None:
    """Reference case C63: 01:30 happens twice on 1 November 2026 in New York."""
    first, second = (
        planning.instant_of(day=date(2026, 11, 1), at=time(1, 30), zone="America/New_York", fold=fold)
        for fold in (0, 1)
    )
    assert first.doubled and second.doubled and not first.missing
    assert (first.utc.hour, second.utc.hour) == (5, 6)


def test_a_time_that_the_clocks_jump_over_is_read_with_the_offset_before() -> None:
    """RFC 5545, 3.3.5: 02:30 on 14 March 2027 in New York is 03:30 EDT, 07:30 UTC."""
    found = planning.instant_of(day=date(2027, 3, 14), at=time(2, 30), zone="America/New_York", fold=1)
    assert found.missing and not found.doubled
    assert found.utc == datetime(2027, 3, 14, 7, 30, tzinfo=UTC)


def test_an_unknown_zone_is_named() -> None:
    with pytest.raises(ProgramError) as caught:
        planning.instant_of(day=date(2027, 1, 1), at=time(1), zone="Halifax/Nowhere")
    assert caught.value.field == "zone"
