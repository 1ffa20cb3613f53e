"""Check-in of bolts: real lengths and dye lots, the cuts laid out again, and who is served."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from django.urls import reverse

from bom.errors import WrongState
from bom.models import AuditEntry
from shops.domain.arrivals import Arrival, arrivals_of, stops_of
from shops.domain.check_in import Measured, check_in, take_back_check_in
from shops.domain.cutting_day import count_cut, cutting_day
from shops.domain.head_count import freeze_and_order
from shops.domain.orders import order_of
from shops.domain.pick_ups import pick_up_rows
from shops.enums import OrderState
from shops.models import Bolt, FabricOrder, OrderLine, Terms
from tests.cast import login, olga, person, sam, seat
from tests.shops.shop_cases import NOW, frozen_program, priced_terms

if TYPE_CHECKING:
    from django.test import Client

pytestmark = pytest.mark.django_db
STAR = "Tidewater star"  # 9 1/2 in in installment 1 and in 2, so a person's year is two cuts
NAMES = ("Anna", "Berta", "Cilla", "Dorte")


@pytest.fixture
def terms() -> Terms:
    """Four people in one colorway, the order sent: per installment four packets and four others."""
    terms = priced_terms(frozen_program(), end_loss="0")
    for name in NAMES:
        seat(terms, person(name))
    freeze_and_order(terms, by=sam(), now=NOW)
    terms.refresh_from_db()
    return terms


def line(terms: Terms, name: str = STAR) -> OrderLine:
    return OrderLine.objects.get(order__terms=terms, fabric__name=name)


def came(terms: Terms, *lengths: str | Fraction) -> Arrival:
    bolts = [Measured(length=Fraction(length)) for length in lengths]
    check_in(line(terms), bolts, by=sam(), now=NOW)
    return arrivals_of(order_of(terms))[line(terms).fabric_id]


def cuts(terms: Terms) -> dict[int, Fraction]:
    row = next(row for row in order_of(terms).rows if row.fabric.name == STAR)
    return {need.number: need.length for need in row.needs}


def url(name: str, *parts: object) -> str:
    return reverse(name, args=["sams-bolts", "small", *parts])


def test_what_came_is_kept_with_who_and_when(terms: Terms) -> None:
    check_in(line(terms), [Measured(length=Fraction(1079, 2), dye_lot=" 12A ")], by=sam(), now=NOW)
    bolt = Bolt.objects.get()
    assert (bolt.length, bolt.dye_lot, bolt.name) == (Fraction(1079, 2), "12A", "1")
    entry = AuditEntry.objects.get(verb="check in bolts")
    assert entry.facts == {"fabric": "TW-2", "before": [], "came": [["539 1/2", "12A"]]}
    check_in(line(terms), [Measured(length=Fraction(1079, 2), dye_lot="12A")], by=sam(), now=NOW)
    assert AuditEntry.objects.filter(verb="check in bolts").count() == 1


def test_bolts_long_enough_give_every_cut(terms: Terms) -> None:
    found = came(terms, "540")
    assert (found.missing, found.stops, found.whole_year) == (0, {}, 4)
    assert found.laid.complete
    assert found.left_over == 540 - sum(length * count for length, count in found.row.cuts)


def test_spares_samples_and_first_packets_are_given_up_before_people(terms: Terms) -> None:
    by_month = cuts(terms)
    people_only = 4 * sum(by_month.values())
    found = came(terms, people_only)
    assert found.stops == {}
    assert found.missing == 8


def test_a_delivery_of_65_in_100_says_who_is_served_until_when(terms: Terms) -> None:
    """All of installment 1 and two of the four of installment 2: numbers 3 and 4 have only the first."""
    by_month = cuts(terms)
    found = came(terms, 4 * by_month[1] + 2 * by_month[2])
    assert found.stops == {3: 2, 4: 2}
    assert found.served == {(1, found.row.needs[0].colorway.pk): 4, (2, found.row.needs[0].colorway.pk): 2}
    assert (found.people, found.whole_year) == (4, 3)  # 3 x both cuts fit into 4 of one and 2 of the other


def test_nothing_to_speak_of_serves_nobody_from_the_first_on(terms: Terms) -> None:
    found = came(terms, "1")
    assert found.stops == {1: 1, 2: 1, 3: 1, 4: 1}
    assert found.whole_year == 0


def test_the_earliest_stop_over_all_fabrics_counts(terms: Terms) -> None:
    first = came(terms, 4 * cuts(terms)[1] + 2 * cuts(terms)[2])
    other = line(terms, "Tidewater background")
    check_in(other, [Measured(length=Fraction(2))], by=sam(), now=NOW)
    found = arrivals_of(order_of(terms))
    assert stops_of(found.values()) == {1: 1, 2: 1, 3: 1, 4: 1}
    assert stops_of([first]) == {3: 2, 4: 2}


def test_whole_cuts_count_on_real_bolts_never_total_length(terms: Terms) -> None:
    """Two pieces of one cut and a half give two cuts, not three."""
    cut = cuts(terms)[1]
    found = came(terms, cut * 3 / 2, cut * 3 / 2)
    assert sum(count for bolt in found.laid.bolts for _length, count in bolt.cuts) == 2
    assert [bolt.left_over for bolt in found.laid.bolts] == [cut / 2, cut / 2]


def test_two_dye_lots_are_told_however_they_are_written(terms: Terms) -> None:
    bolts = [Measured(length=Fraction(540), dye_lot=lot) for lot in ("12A", " 12a", "", "12B")]
    check_in(line(terms), bolts, by=sam(), now=NOW)
    found = arrivals_of(order_of(terms))[line(terms).fabric_id]
    assert len(found.lots) == 2


def test_who_is_not_served_is_marked_on_pick_up_in_that_month_only(client: Client, terms: Terms) -> None:
    first, second = terms.program.installments.filter(number__in=(1, 2))
    assert not any(each.lacks for each in pick_up_rows(terms, second))
    by_month = cuts(terms)
    came(terms, 4 * by_month[1] + 2 * by_month[2])
    assert not any(each.lacks for each in pick_up_rows(terms, first))
    lacking = {
        each.sign_up.packet_name: [str(fabric) for fabric in each.lacks]
        for each in pick_up_rows(terms, second)
        if each.lacks
    }
    assert lacking == {"Cilla": [STAR], "Dorte": [STAR]}
    page = login(client, sam()).get(url("shop-pick-up", 2)).content.decode()
    assert page.count(f"lacks {STAR}") == 2
    assert "2 packets are not whole" in page
    assert "lacks" not in login(client, sam()).get(url("shop-pick-up", 1)).content.decode()


def test_cutting_day_cuts_from_the_bolts_that_came(terms: Terms) -> None:
    by_month = cuts(terms)
    came(terms, 4 * by_month[1] + 2 * by_month[2])
    given: Counter[int] = Counter()
    for installment in terms.program.installments.filter(number__in=(1, 2)):
        day = cutting_day(terms, installment)
        job = next(job for job in day.jobs if job.fabric.name == STAR)
        assert {bolt.name for bolt in job.bolts} == {"B-1"}
        assert all(bolt.is_measured for bolt in job.bolts)
        given[installment.number] = job.total
        assert [(fabric.name, missing) for fabric, missing in day.short] == [(STAR, 8 - job.total)]
    assert given == {1: 4, 2: 2}


def test_a_fabric_that_gives_nothing_this_month_is_no_job_but_said(terms: Terms) -> None:
    came(terms, 4 * cuts(terms)[1])
    day = cutting_day(terms, terms.program.installments.get(number=2))
    assert STAR not in {job.fabric.name for job in day.jobs}
    assert [(fabric.name, missing) for fabric, missing in day.short] == [(STAR, 8)]


def test_taking_back_restores_the_plan_of_the_order_once(terms: Terms) -> None:
    came(terms, "300")
    assert take_back_check_in(line(terms), by=sam(), now=NOW)
    assert not take_back_check_in(line(terms), by=sam(), now=NOW)
    assert arrivals_of(order_of(terms)) == {}
    assert AuditEntry.objects.get(verb="take back check-in").facts == {
        "fabric": "TW-2",
        "before": [["300", ""]],
    }


def test_bolts_stay_once_their_cuts_are_counted(terms: Terms) -> None:
    came(terms, "300")
    count_cut(terms, terms.program.installments.get(number=1), fabric=line(terms).fabric, seen=0, to=1)
    with pytest.raises(WrongState, match="Take them back"):
        check_in(line(terms), [Measured(length=Fraction(200))], by=sam(), now=NOW)
    with pytest.raises(WrongState):
        take_back_check_in(line(terms), by=sam(), now=NOW)
    assert Bolt.objects.get().length == 300


def test_the_order_is_checked_in_when_every_fabric_is(terms: Terms) -> None:
    for each in OrderLine.objects.all():
        assert FabricOrder.objects.get().state == OrderState.SENT
        check_in(each, [Measured(length=Fraction(540))], by=sam(), now=NOW)
    assert FabricOrder.objects.get().state == OrderState.CHECKED_IN
    take_back_check_in(line(terms), by=sam(), now=NOW)
    assert FabricOrder.objects.get().state == OrderState.SENT


def test_the_page_keeps_what_is_typed_and_says_who_is_served(client: Client, terms: Terms) -> None:
    login(client, sam())
    assert "not checked in yet" in client.get(url("shop-check-in")).content.decode()
    pk = line(terms).fabric_id
    length = str(float(4 * cuts(terms)[1] + 2 * cuts(terms)[2]))
    posted = client.post(url("shop-check-in-fabric", pk), {"b1-length": length, "b1-dye_lot": "7"})
    assert posted.status_code == 302
    page = " ".join(client.get(url("shop-check-in")).content.decode().split())
    assert "10 cuts are missing" in page
    assert "2 people have every installment of the year." in page
    assert "gives 3 of 4 people their whole year" in page
    detail = client.get(url("shop-check-in-fabric", pk)).content.decode()
    assert "Take this check-in back" in detail
    client.post(url("shop-check-in-take-back", pk))
    assert not Bolt.objects.exists()


@pytest.mark.parametrize(
    ("typed", "remedy"),
    [
        ({"b1-length": "long"}, "Write a length in inches"),
        ({"b1-length": "", "b1-dye_lot": "7"}, "Measure this bolt too"),
        ({}, "Write the measured length of at least one bolt"),
        ({"b1-length": "0"}, "Longer than what straightening takes"),
    ],
)
def test_bad_input_names_the_field_and_the_remedy(  # noqa: PLR0917 -- one row of the table
    client: Client, terms: Terms, typed: dict[str, str], remedy: str
) -> None:
    login(client, sam())
    answer = client.post(url("shop-check-in-fabric", line(terms).fabric_id), typed)
    assert answer.status_code == 200
    assert remedy in answer.content.decode()
    assert not Bolt.objects.exists()


def test_before_an_order_there_is_one_sentence_and_one_button(client: Client) -> None:
    priced_terms(frozen_program())
    login(client, sam())
    assert "No order has been sent yet" in client.get(url("shop-check-in")).content.decode()
    assert client.get(url("shop-check-in-fabric", 1)).status_code == 404


def test_an_outsider_sees_and_changes_nothing(client: Client, terms: Terms) -> None:
    pk = line(terms).fabric_id
    login(client, olga())
    for address in (url("shop-check-in"), url("shop-check-in-fabric", pk)):
        assert client.get(address).status_code == 404
    assert client.post(url("shop-check-in-fabric", pk), {"b1-length": "540"}).status_code == 404
    assert client.post(url("shop-check-in-take-back", pk)).status_code == 404
    assert not Bolt.objects.exists()
