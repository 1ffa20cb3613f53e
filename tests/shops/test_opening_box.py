"""Carried fabric at a shop: whoever begins later gets it with the first packet; substitutes keep to it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from django.test import Client
from django.urls import reverse
from django.utils.html import strip_tags

from bom.errors import WrongState
from patterns.models import Fabric
from shops.domain.arrivals import arrivals_of, lacking, stops_of
from shops.domain.cutting_day import cutting_day
from shops.domain.labels import LabelledPacket, labelled_packets
from shops.domain.orders import order_of
from shops.domain.pick_ups import pick_up_rows
from shops.domain.swaps import SwapPlace, adopt, touched
from shops.models import Bolt, FabricOrder, OrderLine, Terms
from shops.web.shop_labels_page import LabelWishes, labels_html
from tests.cast import login, person, sam, seat
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def terms() -> Terms:
    """Packet 1 holds letter B of installment 2; Joan begins with 2, the others with 1."""
    program = frozen_program()
    program.installments.filter(number=2).update(carried={"B": 1})
    terms = priced_terms(program)
    three_people(terms)
    seat(terms, person("Joan"), first_installment=2)
    return terms


def packets_of(terms: Terms, number: int) -> tuple[LabelledPacket, ...]:
    return labelled_packets(cutting_day(terms, terms.program.installments.get(number=number)))


def place_of(terms: Terms, number: int) -> SwapPlace:
    quilt = terms.program.quilt
    return SwapPlace(
        terms=terms,
        colorway=quilt.colorways.get(slug="harbour"),
        letter=quilt.letters.get(letter="B"),
        number=number,
    )


def test_the_order_holds_the_carried_fabric_once_for_every_seat(terms: Terms) -> None:
    row = next(row for row in order_of(terms).rows if row.letters == ("B",))
    assert row.numbers == (1,)
    assert row.counts.seats == 3  # Joan's too, though she begins later
    assert [need.line.kept_for for need in row.needs] == [(2,)]


def test_who_begins_later_finds_it_in_the_first_packet(terms: Terms) -> None:
    boxes = {
        each.sign_up.packet_name: [(number, line.fabric.name) for number, line in each.box]
        for each in packets_of(terms, 2)
        if each.sign_up
    }
    assert boxes == {"Paula": [], "Marit": [], "Joan": [(1, "Tidewater star")]}
    rows = pick_up_rows(terms, terms.program.installments.get(number=2))
    assert [bool(row.box) for row in rows] == [False, False, True]
    assert not any(each.box for each in packets_of(terms, 1))


def test_nothing_is_added_where_the_later_installments_are_sewn_already(terms: Terms) -> None:
    terms.sign_ups.filter(packet_name="Joan").update(first_installment=5)
    assert not any(each.box for each in packets_of(terms, 5))


def test_the_labels_say_what_is_kept_and_what_is_added(terms: Terms) -> None:
    first, second = (
        strip_tags(
            labels_html(
                cutting_day(terms, terms.program.installments.get(number=number)),
                packets_of(terms, number),
                edition=None,
                wishes=LabelWishes(),
            )
        )
        for number in (1, 2)
    )
    assert first.count("fabric kept for 2") == len(packets_of(terms, 1))
    assert second.count("with fabric of packet 1") == 1


def test_the_pages_say_who_begins_here(client: Client, terms: Terms) -> None:
    login(client, sam())
    where = ["sams-bolts", "small", 2]
    cutting = client.get(reverse("shop-cutting", args=where)).content.decode()
    assert "Joan begins here: add the spare cut of Tidewater star from packet 1" in cutting
    pick_up = client.get(reverse("shop-pick-up", args=where)).content.decode()
    assert "begins here: give Tidewater star of packet 1 too" in pick_up
    first = client.get(reverse("shop-cutting", args=[*where[:2], 1])).content.decode()
    assert ", also for installment 2" in first


def test_a_short_delivery_serves_who_begins_later_before_the_spares(terms: Terms) -> None:
    row = next(row for row in order_of(terms).rows if row.letters == ("B",))
    order = FabricOrder.objects.create(terms=terms, sent_at=NOW, sent_by=sam(), frozen_hash="f" * 64)
    line = OrderLine.objects.create(
        order=order, fabric=row.fabric, bolts=1, bolt_length="540", price_per_bolt=100
    )
    bolt = Bolt.objects.create(line=line, name="1", length=1 + 3 * row.longest)
    assert lacking(terms, 2) == {}
    bolt.length = Fraction(1 + 2 * row.longest)
    bolt.save()
    joan = terms.sign_ups.get(packet_name="Joan").number
    assert lacking(terms, 1) == {}
    assert lacking(terms, 2) == {joan: (row.fabric,)}
    assert stops_of(arrivals_of(order_of(terms)).values()) == {joan: 2}


def test_a_substitute_does_not_begin_between_the_packet_and_its_sewing(terms: Terms) -> None:
    collection = Fabric.objects.get(name="Tidewater star").collection
    teal = Fabric.objects.create(
        collection=collection, number="TW-20", name="Teal", colour="#117777", value=3
    )
    with pytest.raises(WrongState, match="Begin with installment 1, or after installment 2"):
        adopt(place_of(terms, 2), teal, by=sam(), now=NOW)
    assert touched(place_of(terms, 1)).numbers == (1, 2)
    adopt(place_of(terms, 1), teal, by=sam(), now=NOW)
    needs = [need for row in order_of(terms).rows for need in row.needs if need.line.fabric == teal]
    assert [(need.number, need.line.kept_for) for need in needs] == [(1, (2,))]
