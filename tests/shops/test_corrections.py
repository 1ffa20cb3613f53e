"""A correction after release: who is told, what it says, and which packets it touches."""

from __future__ import annotations

from datetime import date, timedelta
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
import time_machine

from bom.domain.corrections import changes_of, changes_to_come
from bom.domain.editions import make_edition, newest_edition
from bom.errors import ProgramError
from bom.models import Outbox, SheetEdition
from patterns.models import Fabric
from shops.domain.copies import record_copy
from shops.domain.corrected_packets import touched_packets
from shops.domain.corrections import publish_correction, queue_correction_notices
from shops.domain.cutting_day import count_cut
from shops.domain.forgetting import forget_person
from shops.domain.packet_editions import packet_edition
from shops.domain.pick_ups import give_packet
from shops.models import CutCount, Notice, PickUp, SignUp
from shops.tasks import pull_releases
from tests.cast import dora, login, olga, paula, person, sam, seat
from tests.shops.factories import FIRST_RELEASE, make_rendering
from tests.shops.shop_cases import frozen_program, priced_terms, with_seats

if TYPE_CHECKING:
    from django.test import Client

    from bom.models import Installment
    from shops.models import Terms

pytestmark = pytest.mark.django_db
OUT = FIRST_RELEASE + timedelta(days=3)
LINE = "Buy a little more of every fabric."


@pytest.fixture
def terms() -> Terms:
    return with_seats(priced_terms(frozen_program()), harbour=3, at=FIRST_RELEASE)


@pytest.fixture
def first(terms: Terms) -> Installment:
    """Give the first installment with its first edition."""
    installment = terms.program.installments.get(number=1)
    make_edition(installment, by=dora(), now=FIRST_RELEASE)
    return installment


def take(sign_up: SignUp, installment: Installment) -> SignUp:
    """Let a person take the newest edition."""
    edition = newest_edition(installment)
    assert edition
    made = edition.renderings.first() or make_rendering(edition, sign_up)
    record_copy(sign_up=sign_up, rendering=made, now=OUT)
    return sign_up


def more_fabric(installment: Installment) -> Installment:
    """Sell by the half yard, then by the yard, so that every packet holds another length."""
    program = installment.program
    program.sold_by = Fraction(36) if program.sold_by == Fraction(18) else Fraction(18)
    program.save()
    return program.installments.get(pk=installment.pk)


def correct(installment: Installment) -> tuple[SheetEdition, int]:
    return publish_correction(more_fabric(installment), by=dora(), now=OUT, change_line=LINE)


def told() -> list[str]:
    return list(
        Outbox.objects.filter(key__startswith="corrected:").order_by("to").values_list("to", flat=True)
    )


def test_exactly_those_who_hold_the_older_edition_are_told_once(terms: Terms, first: Installment) -> None:
    take(seat(terms, paula()), first)
    take(seat(terms, person("Per")), first)
    seat(terms, person("Pia"))  # never took it
    made, count = correct(first)
    assert (made.number, count) == (2, 2)
    assert told() == ["paula@example.org", "per@example.org"]
    assert queue_correction_notices(now=OUT) == 0
    assert Notice.objects.filter(kind="edition 2").count() == 2


def test_who_took_the_newest_is_not_told(terms: Terms, first: Installment) -> None:
    mine = take(seat(terms, paula()), first)
    make_edition(more_fabric(first), by=dora(), now=OUT, change_line=LINE)
    take(mine, first)
    assert queue_correction_notices(now=OUT) == 0


def test_an_edition_made_elsewhere_is_told_by_the_timer(terms: Terms, first: Installment) -> None:
    take(seat(terms, paula()), first)
    make_edition(more_fabric(first), by=dora(), now=OUT, change_line=LINE)
    pull_releases()
    pull_releases()
    assert told() == ["paula@example.org"]


def test_a_second_correction_names_the_edition_each_person_holds(terms: Terms, first: Installment) -> None:
    take(seat(terms, paula()), first)
    late = take(seat(terms, person("Per")), first)
    correct(first)
    take(late, first)
    assert correct(first)[1] == 2
    assert sorted(told()) == ["paula@example.org"] * 2 + ["per@example.org"] * 2
    mail = Outbox.objects.get(key__startswith="corrected:", key__endswith=f":3:{late.pk}")
    assert "takes the place of edition 2" in mail.text


def test_who_left_is_told_and_who_was_forgotten_is_not(terms: Terms, first: Installment) -> None:
    gone, left = take(seat(terms, person("Gro")), first), take(seat(terms, person("Liv")), first)
    SignUp.objects.filter(pk__in=(gone.pk, left.pk)).update(left_on=date(2027, 1, 20))
    forget_person(person("Gro"), now=OUT)
    assert correct(first)[1] == 1
    assert told() == ["liv@example.org"]


def test_a_correction_without_a_line_is_refused_and_tells_nobody(terms: Terms, first: Installment) -> None:
    take(seat(terms, paula()), first)
    with pytest.raises(ProgramError) as refused:
        publish_correction(more_fabric(first), by=dora(), now=OUT, change_line="")
    assert refused.value.field == "change_line"
    assert first.editions.count() == 1
    assert told() == []


def test_the_mail_says_the_line_and_what_changed_in_the_persons_colorway(
    terms: Terms, first: Installment
) -> None:
    mine = take(seat(terms, paula()), first)
    correct(first)
    mail = Outbox.objects.get(key=f"corrected:small:1:2:{mine.pk}")
    assert mail.subject == "Small Tide: correction to 1 First Light"
    for words in (LINE, "Packets", "C, Tidewater accent: 1/2 yd, 18 in", f"/my/{mine.pk}/sheet/1.pdf"):
        assert words in mail.text
        assert words in mail.html
    assert "Meadow" not in mail.text


def test_the_packets_it_touches_are_counted_at_each_shop(terms: Terms, first: Installment) -> None:
    """Two cuts of the star from edition 1, one after it is corrected; one packet handed out before."""
    star = Fabric.objects.get(name="Tidewater star")
    mine = seat(terms, paula())
    for seen in (0, 1):
        count_cut(terms, first, fabric=star, seen=seen, to=seen + 1)
    give_packet(mine, first, by=sam(), now=OUT)
    made, _told = correct(first)
    count_cut(terms, made.installment, fabric=star, seen=2, to=3)
    rows = {
        row.fabric: row for row in touched_packets(made, changes_of(made)) if row.colorway.slug == "harbour"
    }
    assert (rows[star].cut, rows[star].given) == (2, 1)
    assert {row.cut for fabric, row in rows.items() if fabric != star} == {0}
    assert CutCount.objects.get().from_editions == {"1": 2, "2": 1}
    assert PickUp.objects.get().edition == first.editions.get(number=1)


def test_words_alone_touch_no_packet(terms: Terms, first: Installment) -> None:
    first.tips = "Pin it."
    first.save()
    made = make_edition(first, by=dora(), now=OUT, change_line="A tip.")
    assert touched_packets(made, changes_of(made)) == []


def test_a_cut_taken_back_is_the_last_that_was_made(terms: Terms, first: Installment) -> None:
    star = Fabric.objects.get(name="Tidewater star")
    count_cut(terms, first, fabric=star, seen=0, to=1)
    correct(first)
    count_cut(terms, first, fabric=star, seen=1, to=2)
    assert packet_edition(terms, first) == first.editions.get(number=1)
    count_cut(terms, first, fabric=star, seen=2, to=1)
    assert CutCount.objects.get().from_editions == {"1": 1}
    count_cut(terms, first, fabric=star, seen=1, to=0)
    assert CutCount.objects.get().from_editions == {}
    assert packet_edition(terms, first) == first.editions.get(number=2)


def test_labels_and_cutting_day_carry_the_edition_the_packets_are_cut_from(
    client: Client, terms: Terms, first: Installment
) -> None:
    star = Fabric.objects.get(name="Tidewater star")
    count_cut(terms, first, fabric=star, seen=0, to=1)
    correct(first)
    page = login(client, sam()).get(f"/shop/{terms.shop.slug}/small/cutting/1/").content.decode()
    assert "edition 1 on every label" in page
    assert "Edition 2 of the sheet is new" in page
    assert "Cut already from an older edition: 1; packets handed out: 0." in page


def test_the_designer_sees_the_difference_the_packets_and_how_many_are_told(
    client: Client, terms: Terms, first: Installment
) -> None:
    take(seat(terms, paula()), first)
    count_cut(terms, first, fabric=Fabric.objects.get(name="Tidewater star"), seen=0, to=1)
    more_fabric(first)
    login(client, dora())
    page = client.get("/program/small/1/correction/").content.decode()
    assert "What edition 2 changes" in page
    assert "Publish edition 2 and tell 1 person" in page
    assert page.count('<th scope="row" class="w">Sam&#x27;s Bolts</th>') == 2  # the star in both colorways
    assert "Not cut yet" not in page
    assert first.editions.count() == 1
    after = client.post("/program/small/1/correction/", {"change_line": LINE}, follow=True)
    words = after.content.decode()
    assert "Edition 2 is out. 1 person who holds an older one is told." in words
    assert "1 person who held an older one was told." in words
    assert "Superseded by edition 2." in client.get("/program/small/1/editions/1/").content.decode()
    assert "there is nothing to correct" in client.get("/program/small/1/correction/").content.decode()


def test_nobody_else_sees_or_makes_a_correction(client: Client, terms: Terms, first: Installment) -> None:
    more_fabric(first)
    for user in (olga(), sam()):
        login(client, user)
        assert client.get("/program/small/1/correction/").status_code == 404
        assert client.post("/program/small/1/correction/", {"change_line": LINE}).status_code == 404
        assert client.get("/program/small/1/editions/1/").status_code == 404
    client.logout()
    assert client.get("/program/small/1/correction/").status_code == 302
    assert first.editions.count() == 1


def test_there_is_no_correction_before_the_first_edition(client: Client, terms: Terms) -> None:
    assert login(client, dora()).get("/program/small/2/correction/").status_code == 404
    assert changes_to_come(terms.program.installments.get(number=2)) == ()


def test_a_persons_year_shows_what_changed_since_the_edition_they_hold(
    client: Client, terms: Terms, first: Installment
) -> None:
    mine = take(seat(terms, paula()), first)
    correct(first)
    correct(first)
    with time_machine.travel(OUT, tick=False):
        page = login(client, paula()).get(f"/my/{mine.pk}/").content.decode()
    assert "You hold edition 1." in page
    assert "Get edition 3" in page
    assert "C, Tidewater accent: 1 yd" in page
