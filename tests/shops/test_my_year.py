"""The participant's own pages."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest
import time_machine
from django.test import Client
from icalendar import Calendar

from bom.models import Installment
from patterns.models import PlacedBlock
from shops.domain.progress import BlockState, block_states, mark_sewn, take_back
from shops.domain.sign_ups import leave
from shops.domain.year_rows import installments_of
from shops.enums import Takes
from shops.models import Participant, SewnBlock, SignUp
from tests.factories import make_user
from tests.shops.factories import (
    FIRST_RELEASE,
    NOW,
    make_edition,
    make_open_program,
    make_rendering,
    make_sign_up,
    make_terms,
)
from tests.shops.test_public_pages import words

pytestmark = pytest.mark.django_db
AFTER_FIRST = FIRST_RELEASE + timedelta(days=3)
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def paula() -> SignUp:
    return make_sign_up(make_terms(make_open_program(), cap=4))


@pytest.fixture(autouse=True)
def _after_first_release() -> object:
    with time_machine.travel(AFTER_FIRST, tick=False):
        yield


def as_person(sign_up: SignUp) -> Client:
    client = Client()
    client.force_login(sign_up.participant.user, backend=BACKEND)
    return client


def block(sign_up: SignUp, name: str) -> PlacedBlock:
    return PlacedBlock.objects.get(quilt=sign_up.terms.program.quilt, block__name=name)


def year(sign_up: SignUp) -> str:
    return words(as_person(sign_up).get(f"/my/{sign_up.pk}/").content)


def test_the_next_day_is_told_on_the_readers_clock(paula: SignUp) -> None:
    user = paula.participant.user
    user.zone = "Europe/Oslo"
    user.save()
    page = year(paula)
    assert "Next, installment 2 Two Boats Saturday 13 February, 15:00 your time, Oslo." in page
    assert "Oblong Drawer, 3rd Saturday, 10:00" in page


def test_released_sewn_and_ahead(paula: SignUp) -> None:
    make_edition(paula.terms.program.installments.get(number=1))
    assert "Ohio Star not yet. Edition 1" in year(paula)
    as_person(paula).post(f"/my/{paula.pk}/sewn/{block(paula, 'Ohio Star').pk}/")
    page = year(paula)
    assert "1 of 3 blocks sewn" in page
    assert "Ohio Star sewn 19 January. Edition 1" in page
    assert "2 Two Boats Sat 13 Feb" in page


def test_states_of_blocks(paula: SignUp) -> None:
    mark_sewn(sign_up=paula, placed_block_id=block(paula, "Ohio Star").pk, now=AFTER_FIRST)
    found = block_states(paula, installments_of(paula.terms.program), now=FIRST_RELEASE + timedelta(weeks=4))
    named = {PlacedBlock.objects.get(pk=key).block.name: state for key, state in found.items()}
    assert named == {
        "Ohio Star": BlockState.SEWN,
        "Sawtooth Star": BlockState.RELEASED,
        "Nine Patch": BlockState.RELEASED,
    }


def test_sewing_twice_and_taking_back_twice_change_nothing(paula: SignUp) -> None:
    star = block(paula, "Ohio Star").pk
    assert mark_sewn(sign_up=paula, placed_block_id=star, now=AFTER_FIRST)
    assert not mark_sewn(sign_up=paula, placed_block_id=star, now=AFTER_FIRST)
    assert SewnBlock.objects.count() == 1
    assert take_back(sign_up=paula, placed_block_id=star)
    assert not take_back(sign_up=paula, placed_block_id=star)


def test_sewn_is_a_post_and_can_be_taken_back(paula: SignUp) -> None:
    client, path = as_person(paula), f"/my/{paula.pk}/sewn/{block(paula, 'Ohio Star').pk}/"
    assert client.get(path).status_code == 405
    assert client.post(path).status_code == 302
    assert client.post(path, {"back": "1"}).status_code == 302
    assert not SewnBlock.objects.exists()


def test_what_is_not_out_cannot_be_sewn(paula: SignUp) -> None:
    path = f"/my/{paula.pk}/sewn/{block(paula, 'Nine Patch').pk}/"
    assert as_person(paula).post(path).status_code == 404
    assert as_person(paula).post(f"/my/{paula.pk}/sewn/99999/").status_code == 404


def test_a_newer_edition_than_the_one_taken_is_a_correction(paula: SignUp) -> None:
    first = paula.terms.program.installments.get(number=1)
    rendering = make_rendering(make_edition(first), paula)
    paula.sheet_copies.create(rendering=rendering, first_taken_at=NOW, stamp="Paula")
    assert "Correction" not in year(paula)
    make_edition(first, number=2, change_line="Do not wash the packet.")
    page = year(paula)
    assert "Correction to 1 First Light Do not wash the packet. You hold edition 1. Get edition 2" in page


def test_the_waiting_list_sees_no_sheet(paula: SignUp) -> None:
    make_edition(paula.terms.program.installments.get(number=1))
    SignUp.objects.update(place="waiting")
    page = year(paula)
    assert "You are on the waiting list." in page
    assert "No sheet is out for you yet." in page
    assert "Next, installment" not in page


def test_a_leaver_keeps_what_came_out_before(paula: SignUp) -> None:
    make_edition(paula.terms.program.installments.get(number=1))
    leave(sign_up=paula, day=date(2027, 1, 20), now=AFTER_FIRST)
    page = year(paula)
    assert "You left on Wednesday 20 January 2027." in page
    assert "1 First Light" in page
    assert "Next, installment" not in page


def test_who_takes_packets_only_gets_no_sheet_button(paula: SignUp) -> None:
    make_edition(paula.terms.program.installments.get(number=1))
    SignUp.objects.update(takes=Takes.PACKET)
    page = as_person(paula).get(f"/my/{paula.pk}/").content.decode()
    assert "/sheet/" not in page
    assert page.count(".pdf") == 2  # supply list and colouring page


def test_how_i_like_my_sheets_is_kept(paula: SignUp) -> None:
    client = as_person(paula)
    choice = {"units": "cm", "paper": "a4", "print_size": "large", "language": "de"}
    for _ in range(2):
        assert client.post("/my/settings/", choice).status_code == 302
    person = Participant.objects.get(pk=paula.participant_id)
    assert (person.units, person.paper, person.print_size) == ("cm", "a4", "large")
    assert person.user.language == "de"


def test_a_choice_that_is_none_is_refused(paula: SignUp) -> None:
    answer = as_person(paula).post("/my/settings/", {"units": "ells", "paper": "a4", "print_size": "usual"})
    assert answer.status_code == 200
    assert "id_units_error" in answer.content.decode()


def test_the_calendar_file_holds_the_days_in_utc(paula: SignUp) -> None:
    answer = as_person(paula).get(f"/my/{paula.pk}/days.ics")
    assert answer["Content-Type"] == "text/calendar; charset=utf-8"
    events = list(Calendar.from_ical(answer.content).walk("VEVENT"))
    assert len(events) == 5
    assert events[0]["DTSTART"].dt == datetime(2027, 1, 16, 14, 0, tzinfo=UTC)
    assert events[0]["SUMMARY"] == "Small Tide 1: First Light"
    assert len({event["UID"] for event in events}) == 5


def test_one_sign_up_is_shown_at_once_and_several_are_listed(paula: SignUp) -> None:
    client = as_person(paula)
    assert client.get("/my/")["Location"] == f"/my/{paula.pk}/"
    second = make_sign_up(paula.terms, "Mother", now=NOW)
    SignUp.objects.filter(pk=second.pk).update(participant=paula.participant)
    page = words(client.get("/my/").content)
    assert "Paula" in page
    assert "Mother" in page
    assert "My other places" in year(paula)


def test_the_page_costs_the_same_queries_when_more_is_out(
    paula: SignUp, django_assert_max_num_queries: object
) -> None:
    path, counts = f"/my/{paula.pk}/", []
    for installment in paula.terms.program.installments.all():
        installment.tips = "A {seam} seam, in {fabric A}."
        installment.save()
        make_edition(installment)
    for moment in (AFTER_FIRST, FIRST_RELEASE + timedelta(weeks=30)):
        with time_machine.travel(moment, tick=False):
            client = as_person(paula)
        with time_machine.travel(moment, tick=False), django_assert_max_num_queries(40) as made:  # type: ignore[operator]  # a fixture of pytest-django
            client.get(path)
        counts.append(len(made))
    assert counts[0] == counts[1]


def test_the_designers_words_come_in_my_measure_once_the_sheet_is_mine(paula: SignUp) -> None:
    Participant.objects.update(units="cm")
    Installment.objects.update(tips="**Trim** to {unfinished size}, in {fabric A}.")
    assert "Trim" not in year(paula)
    make_edition(paula.terms.program.installments.get(number=1))
    page = year(paula)
    assert (
        "In the words of Dora Trim to 16.6&nbsp;×&nbsp;16.6 cm, in Tidewater background." in page
    )  # 16.51 cm


class TestOlga:
    """An outsider: signed in, with a place of her own elsewhere, or not signed in at all."""

    PATHS = ("", "days.ics", "sheet/1.pdf", "problem/1/")

    @pytest.fixture
    def olga(self) -> Client:
        client = Client()
        client.force_login(make_user("olga@example.org", "Olga"), backend=BACKEND)
        return client

    @pytest.mark.parametrize("rest", PATHS)
    def test_another_persons_pages_are_not_there(self, olga: Client, paula: SignUp, rest: str) -> None:
        make_rendering(make_edition(paula.terms.program.installments.get(number=1)), paula)
        unknown = olga.get(f"/my/{paula.pk + 1}/{rest}")
        answer = olga.get(f"/my/{paula.pk}/{rest}")
        assert (answer.status_code, answer.content) == (404, unknown.content)

    def test_she_cannot_sew_for_others(self, olga: Client, paula: SignUp) -> None:
        assert olga.post(f"/my/{paula.pk}/sewn/{block(paula, 'Ohio Star').pk}/").status_code == 404
        assert not SewnBlock.objects.exists()

    def test_the_shop_and_the_designer_are_outsiders_here(self, paula: SignUp) -> None:
        client = Client()
        client.force_login(paula.terms.program.designer, backend=BACKEND)
        assert client.get(f"/my/{paula.pk}/").status_code == 404

    def test_without_a_sign_up_there_are_no_settings(self, olga: Client) -> None:
        assert olga.get("/my/settings/").status_code == 404
        assert "You have not signed up at a shop yet." in words(olga.get("/my/").content)

    @pytest.mark.parametrize(
        "path", ["/my/", "/my/settings/", "/my/1/", "/my/1/sheet/1.pdf", "/my/1/problem/1/"]
    )
    def test_a_visitor_is_sent_to_sign_in(self, path: str) -> None:
        assert Client().get(path)["Location"] == f"/sign-in/?next={path}"
