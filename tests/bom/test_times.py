"""Times are ranges with their assumptions (common practice), rounded up to five minutes."""

from __future__ import annotations

import pytest

from bom.domain.care_words import care_html
from bom.domain.chain import work_of
from bom.domain.times import time_of
from patterns.engine.measure import Units
from tests.factories import make_program

pytestmark = pytest.mark.django_db


def test_times_of_the_small_program() -> None:
    """Nine pieces of three fabrics: 3 x 5 + 9 / 4 = 17 1/4 and 3 x 10 + 9 / 2 = 34 1/2 minutes to cut.

    The Ohio Star has 20 seams, 4 units to trim and 8 points to match: 24 and 48 minutes to sew.
    """
    time = time_of(work_of(make_program(house_style="exact")).installment(1))
    assert (time.cutting, time.sewing, time.difficulty) == ((20, 35), (25, 50), 2)


def test_diagonal_seams_want_care_and_sashing_is_plain() -> None:
    work = work_of(make_program())
    assert [time_of(month).difficulty for month in work.installments] == [2, 2, 1, 1, 1]


def test_the_reasons_are_those_of_the_hardest_part() -> None:
    first = work_of(make_program(house_style="exact")).installment(1)
    assert [(each.text, each.facts) for each in time_of(first).reasons] == [
        ("{count} diagonal seams", {"count": 8}),
        ("smallest patch {length}", {"length": 1}),
    ]
    assert care_html(first, Units.INCHES) == "some care: 8 diagonal seams, smallest patch 1 in"


def test_a_month_to_catch_up_takes_no_time() -> None:
    time = time_of(work_of(make_program()).installment(3))
    assert (time.cutting, time.sewing) == ((0, 0), (0, 0))


def test_the_binding_takes_the_longest() -> None:
    quick, unhurried = time_of(work_of(make_program()).installment(5)).sewing
    assert (quick, unhurried) == (215, 430)  # 180 to 360 binding, 30 to 60 backing, 4 seams of border
