"""Notices of a release: each seat once, at its own shop's instant, in its own time."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from bom.domain.planning import schedule_by_rule
from bom.enums import InstallmentState, UnitsChoice
from bom.models import Outbox, Program
from shops.domain.notices import queue_release_notices
from shops.enums import Place, Takes
from shops.models import Notice, Participant, SignUp, Terms
from tests.cast import olga, paula, person, sam, sams_terms, seat
from tests.factories import make_program

OPENS = datetime(2027, 1, 16, 14, tzinfo=UTC)  # 10:00 in Halifax, third Saturday of January
pytestmark = pytest.mark.django_db


@pytest.fixture
def terms() -> Terms:
    """Give terms of a program whose first installments are scheduled."""
    program = make_program()
    schedule_by_rule(program, by=None, now=OPENS - timedelta(days=30))
    program.installments.filter(number__lte=3).update(state=InstallmentState.SCHEDULED)
    return sams_terms(program)


def told(sign_up: SignUp) -> list[int]:
    rows = Notice.objects.filter(sign_up=sign_up).order_by("installment__number")
    return list(rows.values_list("installment__number", flat=True))


def test_three_seats_get_one_mail_each_and_a_second_pull_finds_nothing(terms: Terms) -> None:
    for name in ("Paula", "Per", "Pia"):
        seat(terms, person(name))
    assert queue_release_notices(now=OPENS - timedelta(seconds=1)) == 0
    assert queue_release_notices(now=OPENS) == 3
    assert queue_release_notices(now=OPENS) == 0
    keys = [f"released:small:1:{each.pk}" for each in SignUp.objects.order_by("pk")]
    assert list(Outbox.objects.order_by("pk").values_list("key", flat=True)) == keys
    assert Notice.objects.count() == 3


def test_it_does_not_wait_for_the_sweep_and_does_not_tell_twice_after_it(terms: Terms) -> None:
    seat(terms, paula())
    assert queue_release_notices(now=OPENS) == 1
    terms.program.installments.filter(number=1).update(state=InstallmentState.RELEASED)
    assert queue_release_notices(now=OPENS) == 0


def test_a_missed_night_is_caught_up_in_order(terms: Terms) -> None:
    mine = seat(terms, paula())
    assert queue_release_notices(now=OPENS + timedelta(days=90)) == 3
    assert told(mine) == [1, 2, 3]
    subjects = [
        "Small Tide: 1 First Light is open",
        "Small Tide: 2 Two Boats is open",
        "Small Tide: 3 Catch Up is open",
    ]
    assert list(Outbox.objects.order_by("pk").values_list("subject", flat=True)) == subjects


def test_who_joins_later_is_told_of_the_earlier_ones_too(terms: Terms) -> None:
    seat(terms, paula())
    queue_release_notices(now=OPENS + timedelta(days=40))
    joiner = seat(terms, person("Jo"), joined_at=OPENS + timedelta(days=50))
    assert queue_release_notices(now=OPENS + timedelta(days=51)) == 2
    assert told(joiner) == [1, 2]


def test_a_shop_may_hold_back_and_never_advance(terms: Terms) -> None:
    Terms.objects.update(hold_hours=4)
    seat(terms, paula())
    assert queue_release_notices(now=OPENS + timedelta(hours=4) - timedelta(seconds=1)) == 0
    assert queue_release_notices(now=OPENS + timedelta(hours=4)) == 1


@pytest.mark.parametrize(
    "fields",
    [
        {"place": Place.WAITING},
        {"takes": Takes.PACKET},
        {"left_on": date(2027, 1, 10)},
        {"first_installment": 2},
    ],
)
def test_who_may_not_have_the_sheet_is_not_told(terms: Terms, fields: dict[str, object]) -> None:
    seat(terms, paula(), **fields)
    assert queue_release_notices(now=OPENS) == 0


def test_staff_and_outsiders_are_not_told(terms: Terms) -> None:
    olga(), sam()
    seat(terms, paula())
    queue_release_notices(now=OPENS)
    assert list(Outbox.objects.values_list("to", flat=True)) == ["paula@example.org"]


def test_drafts_and_ended_programs_tell_nobody(terms: Terms) -> None:
    seat(terms, paula())
    Program.objects.update(state="ended")
    assert queue_release_notices(now=OPENS) == 0
    Program.objects.update(state="running")
    terms.program.installments.update(state=InstallmentState.APPROVED)
    assert queue_release_notices(now=OPENS) == 0


def test_the_mail_speaks_in_the_readers_time_units_and_colorway(terms: Terms) -> None:
    mine = seat(terms, paula())
    Participant.objects.update(units=UnitsChoice.CENTIMETRES)
    queue_release_notices(now=OPENS)
    mail = Outbox.objects.get()
    assert "Sat 16 Jan, 15:00, Oslo time" in mail.text
    assert "2 Two Boats, Sat 20 Feb, 15:00, Oslo time" in mail.text
    assert "Ohio Star, 15.3\u00a0×\u00a015.3 cm finished" in mail.text
    assert "Harbour" in mail.text
    assert f"/my/{mine.pk}/sheet/1.pdf" in mail.text
    assert f"/my/{mine.pk}/sheet/1.pdf" in mail.html
    assert "{" not in mail.text + mail.html.replace("{#", "")


def test_names_are_escaped_in_the_page_and_plain_in_the_text(terms: Terms) -> None:
    Program.objects.update(title="Salt & <b>Tide</b>")
    seat(terms, paula())
    queue_release_notices(now=OPENS)
    mail = Outbox.objects.get()
    assert mail.subject.startswith("Salt & <b>Tide</b>: 1")
    assert "Salt &amp; &lt;b&gt;Tide&lt;/b&gt;" in mail.html


def test_queries_do_not_grow_with_blocks(terms: Terms, django_assert_max_num_queries: object) -> None:
    """Each mail costs the same few queries: notice and outbox row."""
    for name in ("Per", "Pia"):
        seat(terms, person(name))
    with django_assert_max_num_queries(30):  # type: ignore[operator]  # a fixture without types
        queue_release_notices(now=OPENS)
