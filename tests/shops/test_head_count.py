"""Two freezes, never confused: the fabric's, and the shop's head-count."""

from __future__ import annotations

from datetime import timedelta

import pytest

from bom.errors import WrongState
from bom.models import AuditEntry
from shops.domain.head_count import (
    freeze_and_order,
    freeze_head_count,
    is_out_of_date,
    send_order,
    sent_order,
)
from shops.domain.orders import order_of
from shops.domain.sign_ups import leave, seat_from_waiting_list
from shops.enums import Place
from shops.errors import WrongPlace
from shops.models import FabricOffer, FabricOrder, SignUp, Terms
from tests.cast import sam
from tests.shops.factories import make_sign_up
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

pytestmark = pytest.mark.django_db
LATER = NOW + timedelta(hours=1)


@pytest.fixture
def terms() -> Terms:
    terms = priced_terms(frozen_program())
    three_people(terms)
    return terms


def test_the_head_count_is_fixed_by_colorway_and_recorded(terms: Terms) -> None:
    assert freeze_head_count(terms, by=sam(), now=NOW) == {"harbour": 2}
    terms.refresh_from_db()
    assert (terms.frozen_seats, terms.head_count_frozen_at) == ({"harbour": 2}, NOW)
    assert terms.head_count_frozen_by == sam()
    entry = AuditEntry.objects.get(verb="freeze head-count")
    assert (entry.subject, entry.facts) == ("terms:sams-bolts/small", {"seats": {"harbour": 2}})


def test_a_second_head_count_freeze_is_refused_and_changes_nothing(terms: Terms) -> None:
    freeze_head_count(terms, by=sam(), now=NOW)
    make_sign_up(terms, "Late", now=NOW)
    for _again in range(2):
        with pytest.raises(WrongState) as refused:
            freeze_head_count(terms, by=sam(), now=LATER)
        assert refused.value.field == "head-count freeze"
    terms.refresh_from_db()
    assert (terms.frozen_seats, terms.head_count_frozen_at) == ({"harbour": 2}, NOW)
    assert AuditEntry.objects.filter(verb="freeze head-count").count() == 1


def test_without_the_fabric_freeze_the_refusal_names_it(terms: Terms) -> None:
    terms.program.frozen_at = None
    terms.program.save()
    for act in (freeze_head_count, send_order, freeze_and_order):
        with pytest.raises(WrongState) as refused:
            act(terms, by=sam(), now=NOW)
        assert refused.value.field == "fabric freeze"
        assert "fabric freeze" in refused.value.remedy
    terms.refresh_from_db()
    assert terms.head_count_frozen_at is None


def test_with_the_fabric_freeze_only_the_order_asks_for_the_head_count(terms: Terms) -> None:
    with pytest.raises(WrongState) as refused:
        send_order(terms, by=sam(), now=NOW)
    assert refused.value.field == "head-count freeze"


def test_the_order_is_kept_as_sent(terms: Terms) -> None:
    shown = order_of(terms)
    sent = freeze_and_order(terms, by=sam(), now=NOW)
    assert (sent.frozen_hash, sent.sent_at, sent.sent_by) == ("f" * 64, NOW, sam())
    kept = {line.fabric_id: (line.bolts, line.bolt_length, line.price_per_bolt) for line in sent.lines.all()}
    assert kept == {each.fabric.pk: (each.bolts, 540, 100) for each in shown.rows}
    FabricOffer.objects.update(price_per_bolt=999)
    assert {line.price_per_bolt for line in FabricOrder.objects.get().lines.all()} == {100}
    assert AuditEntry.objects.get(verb="send fabric order").facts["people"] == 2


def test_a_second_order_is_refused(terms: Terms) -> None:
    freeze_and_order(terms, by=sam(), now=NOW)
    for act in (send_order, freeze_and_order):
        with pytest.raises(WrongState) as refused:
            act(terms, by=sam(), now=LATER)
        assert refused.value.field == "order"
    assert FabricOrder.objects.count() == 1


def test_an_order_that_cannot_be_sent_leaves_the_head_count_open(terms: Terms) -> None:
    FabricOffer.objects.filter(fabric__name="Tidewater star").delete()
    with pytest.raises(WrongState, match="Tidewater star") as refused:
        freeze_and_order(terms, by=sam(), now=NOW)
    assert refused.value.field == "price"
    terms.refresh_from_db()
    assert terms.head_count_frozen_at is None


def test_nobody_with_a_packet_is_no_order() -> None:
    with pytest.raises(WrongState) as refused:
        freeze_and_order(priced_terms(frozen_program()), by=sam(), now=NOW)
    assert refused.value.field == "sign-ups"


def test_another_fabric_freeze_makes_the_order_out_of_date(terms: Terms) -> None:
    freeze_and_order(terms, by=sam(), now=NOW)
    found = sent_order(terms)
    assert found is not None
    assert not is_out_of_date(found)
    terms.program.frozen_hash = "e" * 64
    terms.program.save()
    found = sent_order(terms)
    assert found is not None
    assert is_out_of_date(found)


def test_after_the_freeze_who_signs_up_waits_and_a_leavers_seat_is_given_on(terms: Terms) -> None:
    freeze_head_count(terms, by=sam(), now=NOW)
    terms.refresh_from_db()
    late = make_sign_up(terms, "Late", now=NOW)
    assert late.place == Place.WAITING
    with pytest.raises(WrongPlace):
        seat_from_waiting_list(sign_up=late, now=NOW)
    paula = SignUp.objects.get(packet_name="Paula")
    assert leave(sign_up=paula, day=NOW.date(), now=NOW)
    assert seat_from_waiting_list(sign_up=late, now=NOW)
    another = SignUp.objects.get(packet_name="Wim")
    with pytest.raises(WrongPlace):
        seat_from_waiting_list(sign_up=another, now=NOW)
    assert order_of(terms).people == 2
