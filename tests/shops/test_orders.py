"""What a shop must order: every seat, whole cuts, the fewest bolts."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bom.domain.chain import work_of
from patterns.engine.measure import inches
from patterns.models import Fabric
from shops.domain.needs import Counts
from shops.domain.order_risk import left_out, ordering_less, pool
from shops.domain.orders import Order, OrderRow, order_of
from shops.errors import LongerThanBolt
from shops.models import FabricOffer
from tests.shops.shop_cases import frozen_program, priced_terms, three_people, with_seats

pytestmark = pytest.mark.django_db


def row(order: Order, name: str) -> OrderRow:
    return next(each for each in order.rows if each.fabric.name == f"Tidewater {name}")


def cuts(found: OrderRow) -> list[tuple[str, int]]:
    return [(str(length), count) for length, count in found.cuts]


def test_two_packets_spares_first_packet_and_sample_are_ordered_in_every_installment() -> None:
    terms = priced_terms(frozen_program())
    three_people(terms)
    order = order_of(terms)
    assert (order.people, dict(order.seats), order.waiting) == (2, {"harbour": 2}, 1)
    star = row(order, "star")
    assert (star.numbers, star.letters) == ((1, 2), ("B",))
    assert star.counts == Counts(seats=4, spares=4, first_packets=2, samples=2)
    assert star.counts.packets == sum(count for _length, count in star.cuts) == 12
    binding = row(order, "binding")
    assert (binding.numbers, binding.counts.packets) == ((5,), 6)


def test_every_column_and_the_money_add_up() -> None:
    terms = priced_terms(frozen_program())
    three_people(terms)
    order = order_of(terms)
    counts = order.counts
    assert counts.packets == counts.seats + counts.spares + counts.first_packets + counts.samples
    assert counts.seats == sum(each.counts.seats for each in order.rows)
    assert order.bolts == sum(each.bolts for each in order.rows)
    assert order.total == 100 * order.bolts
    for each in order.rows:
        used = sum(length * count for length, count in each.cuts)
        assert used + each.plan.left_over + each.bolts * each.offer.end_loss == each.plan.bought


def test_every_letter_of_the_pictures_has_a_line_and_no_other() -> None:
    program = frozen_program()
    terms = priced_terms(program)
    three_people(terms)
    sewn = {letter for installment in work_of(program).installments for letter in installment.letters}
    assert order_of(terms).letters == sewn == {"A", "B", "C", "D", "E", "F"}


def test_two_letters_that_are_one_fabric_are_one_line() -> None:
    terms = with_seats(priced_terms(frozen_program()), meadow=3)
    order = order_of(terms)
    assert row(order, "accent").letters == ("C", "D")
    assert [each.fabric.name for each in order.rows].count("Tidewater accent") == 1
    assert "Tidewater frame" not in {each.fabric.name for each in order.rows}


def test_a_fabric_of_two_colorways_is_one_dye_lot() -> None:
    terms = with_seats(priced_terms(frozen_program()), harbour=3, meadow=2)
    background = row(order_of(terms), "background")
    assert background.counts.seats == (3 + 2) * len(background.numbers)
    assert background.counts.spares == (2 + 2) * len(background.numbers)  # of each colorway


def test_a_colorway_that_nobody_takes_is_not_ordered() -> None:
    terms = priced_terms(frozen_program())
    assert order_of(terms).rows == ()
    three_people(terms)
    assert {need.colorway.slug for each in order_of(terms).rows for need in each.needs} == {"harbour"}


def test_a_frozen_head_count_stays_when_people_come_and_go() -> None:
    terms = priced_terms(frozen_program())
    three_people(terms)
    with_seats(terms, harbour=7)
    assert order_of(terms).people == 7


def test_backing_is_counted_and_its_fabric_keeps_its_own_cuts() -> None:
    terms = with_seats(priced_terms(frozen_program()), harbour=3)
    backing = row(order_of(terms), "backing")
    assert (backing.numbers, backing.backings, backing.counts.packets) == ((5,), 7, 7)


# 37 sign-ups of 3/8 yd from 15-yd bolts: one bolt? (case C51) and 45 of 2/3 yd are 30 yd: two
# bolts? (case C52); public accounts, common practice.
CASES = [
    ("C51 exact", 37, "13 1/2", "0", "540", 1, "81/2"),
    ("C51 with tolerance", 37, "13 1/2", "1/2", "540", 1, "22"),
    ("C51 8 yd", 37, "13 1/2", "0", "288", 2, "153/2"),
    ("C51 25 yd", 37, "13 1/2", "0", "900", 1, "801/2"),
    ("C52", 45, "24", "0", "540", 3, "540"),
]


@pytest.mark.parametrize(
    ("packets", "cut", "tolerance", "bolt", "bolts", "left"), [each[1:] for each in CASES]
)
def test_whole_cuts_are_ordered_never_total_yards(  # noqa: PLR0917 -- one row of the table
    packets: int, cut: str, tolerance: str, bolt: str, bolts: int, left: str
) -> None:
    program = frozen_program(sold_by=cut, squaring_up="0", cutting_tolerance=tolerance)
    terms = priced_terms(program, bolt=bolt, end_loss="0")
    with_seats(terms, harbour=packets - terms.spares - terms.first_packets - terms.samples)
    binding = row(order_of(terms), "binding")
    assert binding.cuts == ((inches(cut) + inches(tolerance), packets),)
    assert (binding.bolts, binding.plan.left_over, binding.plan.proven) == (bolts, Fraction(left), True)


def test_an_order_hangs_on_a_yard_where_a_shorter_bolt_makes_one_more() -> None:
    """A bolt of 24 cuts of 13 1/2 in holds 324 in; 22 cuts leave 27 in, 21 leave 40 1/2 in, over a yard."""
    program = frozen_program(sold_by="13 1/2", squaring_up="0", cutting_tolerance="0")
    terms = priced_terms(program, bolt="324", end_loss="0")
    assert row(order_of(with_seats(terms, harbour=22 - 4)), "binding").hangs
    assert not row(order_of(with_seats(terms, harbour=21 - 4)), "binding").hangs


def test_without_a_price_bolts_of_15_yards_are_reckoned_and_the_fabric_is_named() -> None:
    terms = priced_terms(frozen_program())
    three_people(terms)
    FabricOffer.objects.filter(fabric__name="Tidewater star").delete()
    order = order_of(terms)
    assert [each.fabric.name for each in order.unpriced] == ["Tidewater star"]
    star = row(order, "star")
    assert (star.offer.bolt_length, star.offer.end_loss) == (540, 1)
    assert order.total == 100 * (order.bolts - star.bolts)


def test_a_cut_that_no_bolt_gives_is_named() -> None:
    terms = with_seats(priced_terms(frozen_program()), harbour=3)
    offer = FabricOffer.objects.get(fabric=Fabric.objects.get(name="Tidewater backing"))
    offer.bolt_length = "9"
    offer.save()
    with pytest.raises(LongerThanBolt) as refused:
        order_of(terms)
    assert (refused.value.fabric, refused.value.longest) == ("Tidewater backing", 8)


def test_one_pool_a_year_at_one_in_twenty() -> None:
    """One installment, the first, wants everybody; the fourth has passed three chances to leave.

    Of 25 people at 90 in 100 more than 21 are there with 0.0629, more than 22 with 0.0191 (scipy.stats).
    """
    risk = Fraction(1, 20)
    assert pool(people=25, retention=Fraction(9, 10), risk=risk, numbers=(1,)) == 25
    assert pool(people=25, retention=Fraction(9, 10), risk=risk, numbers=(4,)) == 22


def test_packets_left_out_are_of_the_months_when_most_have_left() -> None:
    half = Fraction(1, 2)
    assert left_out(people=10, retention=half, numbers=(1, 2, 3), fewer=5) == {1: 0, 2: 2, 3: 3}
    assert left_out(people=10, retention=half, numbers=(1,), fewer=3) == {1: 0}


def test_ordering_less_never_takes_more_bolts_and_says_what_it_saves() -> None:
    terms = with_seats(priced_terms(frozen_program(), bolt="180"), harbour=40)
    order = order_of(terms)
    less = ordering_less(order, retention=Fraction(8, 10))
    assert 0 < less.packets < less.every == order.counts.seats
    assert less.bolts + less.saved == order.bolts
    assert less.saved > 0
    assert less.money == 100 * less.saved
    assert ordering_less(order, retention=Fraction(1)).saved == 0
