"""Cutting day: the cuts of one installment on the bolts of the order, counted one by one."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from bom.errors import WrongState
from shops.domain.cutting_day import CuttingDay, Job, bolts_today, count_cut, cutting_day
from shops.domain.orders import order_of
from shops.models import CutCount, Terms
from tests.shops.shop_cases import frozen_program, priced_terms, with_seats

pytestmark = pytest.mark.django_db


@pytest.fixture
def terms() -> Terms:
    return with_seats(priced_terms(frozen_program()), harbour=3)


def day_of(terms: Terms, number: int) -> CuttingDay:
    return cutting_day(terms, terms.program.installments.get(number=number))


def job(terms: Terms, name: str, number: int = 1) -> Job:
    return next(each for each in day_of(terms, number).jobs if each.fabric.name == f"Tidewater {name}")


def test_every_packet_is_cut_of_every_fabric_of_the_installment(terms: Terms) -> None:
    day = day_of(terms, 1)
    assert [each.letters for each in day.jobs] == [("A",), ("B",), ("C",)]
    assert [each.total for each in day.jobs] == [7, 7, 7]
    assert (day.counts.seats, day.counts.packets, day.total, day.made) == (3, 7, 21, 0)
    assert [(name, len(lines)) for name, lines in day.bags] == [("Harbour", 3)]


def test_a_cut_is_the_promise_and_the_tolerance(terms: Terms) -> None:
    line, number = job(terms, "star").lines[0]
    assert (line.line.suggested, line.line.cut_length, number) == (9, Fraction(19, 2), 7)


def test_a_month_to_catch_up_cuts_nothing(terms: Terms) -> None:
    day = day_of(terms, 3)
    assert (day.jobs, day.bags, day.total) == ((), (), 0)


def test_over_the_year_every_cut_of_the_order_is_made_on_one_of_its_bolts(terms: Terms) -> None:
    for row in order_of(terms).rows:
        given: Counter[Fraction] = Counter()
        for number in row.numbers:
            for bolt in bolts_today(row, number):
                given.update(bolt.today)
                assert sum(bolt.cuts) + row.offer.end_loss <= bolt.length
        assert given == Counter(dict(row.cuts))


def test_later_months_find_the_bolts_begun() -> None:
    """Seven packets of 180-in bolts: what installment 1 took of a bolt is gone in installment 2."""
    terms = with_seats(priced_terms(frozen_program(), bolt="180"), harbour=30)
    first, second = job(terms, "background"), job(terms, "background", 2)
    assert sum(len(bolt.before) for bolt in first.bolts) == 0
    taken = {bolt.name: bolt.today for bolt in first.bolts}
    for bolt in second.bolts:
        assert bolt.before == taken.get(bolt.name, ())


def test_the_tally_goes_up_and_back_one_by_one(terms: Terms) -> None:
    installment, fabric = terms.program.installments.get(number=1), job(terms, "star").fabric
    assert count_cut(terms, installment, fabric=fabric, seen=0, to=1)
    assert count_cut(terms, installment, fabric=fabric, seen=1, to=2)
    assert count_cut(terms, installment, fabric=fabric, seen=2, to=1)
    assert CutCount.objects.get().made == job(terms, "star").made == 1
    assert job(terms, "background").made == 0


def test_a_second_click_and_a_stale_page_change_nothing(terms: Terms) -> None:
    installment, fabric = terms.program.installments.get(number=1), job(terms, "star").fabric
    count_cut(terms, installment, fabric=fabric, seen=0, to=1)
    assert not count_cut(terms, installment, fabric=fabric, seen=0, to=1)
    count_cut(terms, installment, fabric=fabric, seen=1, to=2)
    assert not count_cut(terms, installment, fabric=fabric, seen=0, to=1)
    assert CutCount.objects.get().made == 2


@pytest.mark.parametrize(("seen", "to"), [(7, 8), (0, -1), (0, 2), (1, 1)])
def test_no_cut_is_counted_beyond_what_is_to_be_cut(terms: Terms, seen: int, to: int) -> None:
    installment, fabric = terms.program.installments.get(number=1), job(terms, "star").fabric
    with pytest.raises(WrongState) as refused:
        count_cut(terms, installment, fabric=fabric, seen=seen, to=to)
    assert refused.value.facts["total"] == 7
    assert not CutCount.objects.exists()


def test_the_next_bolt_comes_when_one_is_cut_up() -> None:
    """A bolt of 29 in, 1/2 in lost, holds three cuts of 9 1/2 in: six packets take two."""
    terms = with_seats(priced_terms(frozen_program(), bolt="29", end_loss="1/2"), harbour=2)
    installment = terms.program.installments.get(number=1)
    made = job(terms, "star")
    assert [len(bolt.today) for bolt in made.bolts] == [3, 3]
    CutCount.objects.create(terms=terms, installment=installment, fabric=made.fabric, made=3)
    fourth = job(terms, "star")
    assert (fourth.current, fourth.done_on_current) == (made.bolts[1], 0)
    CutCount.objects.update(made=made.total)
    done = job(terms, "star")
    assert done.is_done
    assert done.current == done.bolts[-1]
    assert done.done_on_current == len(done.current.cuts)
    assert made.current == made.bolts[0]
    assert made.done_on_current == 0
