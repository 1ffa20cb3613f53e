"""The risk of running short; the numbers equal scipy.stats.binom."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as some

from patterns.engine.risk import Cohort, any_installment_short, risk_from_money, wanted, wanted_in_the_year

RETENTION = Fraction(97, 100)
RISK = Fraction(5, 100)


@pytest.mark.parametrize(
    ("people", "retention", "chances", "risk", "order", "short", "one_less"),
    [
        (40, ".97", 6, ".05", 37, ".027003", ".080269"),
        (100, ".98", 12, ".01", 88, ".004763", ".010415"),
        (150, ".95", 6, ".05", 119, ".040803", ".061045"),
        (25, ".9", 3, ".1", 21, ".062863", ".152245"),  # the last digit is ...2446: rounded up
    ],
)
def test_the_order_runs_short_no_more_often_than_asked(  # noqa: PLR0913, PLR0917 -- one row of the table
    people: int, retention: str, chances: int, risk: str, order: int, short: str, one_less: str
) -> None:
    found = wanted([Cohort(people=people, retention=Fraction(retention), chances=chances)])
    assert found.order_for_risk(Fraction(risk)) == order
    near = Fraction(1, 10**6)
    assert abs(found.short(order) - Fraction(short)) < near
    assert abs(found.short(order - 1) - Fraction(one_less)) < near


def test_cohorts_add_up_by_convolution() -> None:
    cohorts = [Cohort(people=n, retention=RETENTION, chances=m) for n, m in ((20, 6), (15, 4), (10, 1))]
    found = wanted(cohorts)
    assert round(found.mean, 4) == Fraction("39.6388")
    assert round(found.variance, 4) == Fraction("4.5968")
    assert found.order_for_risk(RISK) == 43
    assert round(found.short(43), 6) == Fraction("0.022272")


def test_one_stock_for_the_year_needs_less_than_the_months_apart() -> None:
    orders = [
        wanted([Cohort(people=40, retention=RETENTION, chances=k)]).order_for_risk(RISK) for k in range(12)
    ]
    pool = wanted_in_the_year(people=40, retention=RETENTION, cuts=[1] * 12)
    assert sum(orders) == 445
    assert pool.order_for_risk(RISK) == 441
    # In a tenth of the years some installment exceeds its own order (a million drawn years: 10.66 %).
    assert round(any_installment_short(people=40, retention=RETENTION, orders=orders), 4) == Fraction(
        "0.1064"
    )


def test_everybody_is_there_in_installment_one() -> None:
    found = wanted([Cohort(people=12, retention=RETENTION, chances=0)])
    assert (found.mean, found.variance, found.order_for_risk(RISK)) == (12, 0, 12)
    assert found.short(11) == 1
    assert found.short(12) == found.short(99) == 0


def test_nobody_wants_nothing() -> None:
    assert wanted([]).order_for_risk(RISK) == 0
    assert wanted_in_the_year(people=0, retention=RETENTION, cuts=[1, 1]).mean == 0


def test_a_month_may_take_more_than_one_cut() -> None:
    """One person: 2 cuts at once, 3 more when staying; the mean is 2 + 3 x retention."""
    found = wanted_in_the_year(people=1, retention=Fraction(1, 2), cuts=[2, 3])
    assert found.mean == 2 + Fraction(3, 2)
    assert found.short(2) == Fraction(1, 2)


def test_money_sets_the_risk() -> None:
    assert risk_from_money(cost_over=Fraction(4), cost_short=Fraction(36)) == Fraction(1, 10)


chances = some.integers(0, 100).map(lambda part: Fraction(part, 100))


@given(people=some.integers(0, 30), retention=chances, risks=some.tuples(chances, chances))
def test_more_risk_never_orders_more(
    people: int, retention: Fraction, risks: tuple[Fraction, Fraction]
) -> None:
    pool = wanted_in_the_year(people=people, retention=retention, cuts=[1, 0, 2])
    less, more = sorted(risks)
    assert pool.order_for_risk(more) <= pool.order_for_risk(less)


@given(people=some.integers(0, 30), risk=chances.filter(lambda risk: risk < 1))
def test_when_nobody_leaves_everybody_is_ordered_for(people: int, risk: Fraction) -> None:
    pool = wanted_in_the_year(people=people, retention=Fraction(1), cuts=[1, 1, 1])
    assert pool.order_for_risk(risk) == 3 * people
