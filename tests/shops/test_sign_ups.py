"""Signing up and leaving: seats up to the cap, then the waiting list."""

from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from bom.enums import ProgramState
from bom.models import AuditEntry
from patterns.models import User
from shops.domain.sign_ups import (
    Wish,
    is_open,
    leave,
    seat_from_waiting_list,
    seats_left,
    sign_up,
    with_seats_taken,
)
from shops.enums import Place, Takes
from shops.errors import NotOffered, SignUpClosed, WrongPlace
from shops.models import SignUp
from tests.shops.factories import NOW, make_open_program, make_shop, make_sign_up, make_terms

pytestmark = pytest.mark.django_db


def test_sign_up_makes_person_and_seat() -> None:
    terms = make_terms(make_open_program())
    made = make_sign_up(terms)
    assert (made.number, made.place, made.packet_name) == (1, Place.SEAT, "Paula")
    user = made.participant.user
    assert (user.email, user.name, user.zone) == ("paula@example.org", "Paula", "America/Halifax")
    assert not user.has_usable_password()
    assert made.participant.paper == "letter"


def test_a_shop_outside_the_letter_countries_gives_a4() -> None:
    shop = make_shop("stoffkaia", country="NO", zone="Europe/Oslo", currency="NOK")
    assert make_sign_up(make_terms(make_open_program(), shop)).participant.paper == "a4"


def test_the_same_wish_again_gives_the_same_seat() -> None:
    terms = make_terms(make_open_program())
    wish = Wish(name="Paula", email="paula@example.org", packet_name="Paula", colorway=_first(terms))
    first, new = sign_up(terms=terms, wish=wish, now=NOW)
    again, new_again = sign_up(terms=terms, wish=wish, now=NOW)
    assert (first.pk, new, new_again) == (again.pk, True, False)
    assert SignUp.objects.count() == 1
    assert AuditEntry.objects.filter(verb="sign up").count() == 1


def test_two_for_a_family_are_two_rows_of_one_person() -> None:
    terms = make_terms(make_open_program())
    for packet_name in ("Paula", "Paula's mother"):
        wish = Wish(name="Paula", email="Paula@example.org", packet_name=packet_name, colorway=_first(terms))
        sign_up(terms=terms, wish=wish, now=NOW)
    assert list(SignUp.objects.values_list("number", "place")) == [(1, "seat"), (2, "seat")]
    assert User.objects.filter(email="paula@example.org").count() == 1


def test_after_the_cap_comes_the_waiting_list() -> None:
    terms = make_terms(make_open_program(), cap=2)
    places = [make_sign_up(terms, name).place for name in ("Paula", "Marit", "Tobias")]
    assert places == [Place.SEAT, Place.SEAT, Place.WAITING]
    assert seats_left(terms) == 0
    assert SignUp.objects.seated().count() == terms.cap


def test_a_colorway_has_its_own_cap() -> None:
    terms = make_terms(make_open_program(), cap=3)
    terms.colorways.filter(colorway=_first(terms)).update(cap=1)
    places = [make_sign_up(terms, name).place for name in ("Paula", "Marit")]
    assert places == [Place.SEAT, Place.WAITING]
    assert (seats_left(terms), seats_left(terms, _first(terms))) == (2, 0)


def test_no_seat_is_free_once_the_head_count_is_frozen() -> None:
    terms = make_terms(make_open_program(), head_count_frozen_at=NOW)
    assert make_sign_up(terms).place == Place.WAITING


@pytest.mark.parametrize(
    ("now", "expected"),
    [
        (datetime(2026, 9, 19, 2, 59, 59, tzinfo=UTC), True),  # 23:59:59 of the last day in Halifax
        (datetime(2026, 9, 19, 3, 0, tzinfo=UTC), False),
    ],
)
def test_the_last_day_ends_at_midnight_of_the_shop(now: datetime, expected: bool) -> None:
    assert is_open(make_terms(make_open_program()), now=now) is expected


def test_a_closed_shop_refuses_with_its_last_day() -> None:
    terms = make_terms(make_open_program())
    with pytest.raises(SignUpClosed) as refusal:
        make_sign_up(terms, now=datetime(2026, 10, 1, tzinfo=UTC))
    assert refusal.value.until == date(2026, 9, 18)
    assert not User.objects.filter(email="paula@example.org").exists()


def test_a_draft_takes_no_sign_ups() -> None:
    terms = make_terms(make_open_program(state=ProgramState.DRAFT))
    assert not is_open(terms, now=NOW)


def test_a_colorway_that_is_not_offered_is_refused() -> None:
    terms = make_terms(make_open_program())
    terms.colorways.all().delete()
    with pytest.raises(NotOffered):
        make_sign_up(terms)


def test_leaving_frees_the_seat_once() -> None:
    terms = make_terms(make_open_program(), cap=1)
    paula = make_sign_up(terms)
    assert leave(sign_up=paula, day=date(2026, 9, 2), now=NOW)
    assert not leave(sign_up=paula, day=date(2026, 9, 5), now=NOW)
    paula.refresh_from_db()
    assert paula.left_on == date(2026, 9, 2)
    assert (make_sign_up(terms, "Marit").number, seats_left(terms)) == (2, 0)


def test_who_left_may_sign_up_anew() -> None:
    terms = make_terms(make_open_program())
    leave(sign_up=make_sign_up(terms), day=date(2026, 9, 2), now=NOW)
    assert make_sign_up(terms).number == 2


def test_a_free_seat_goes_to_the_waiting_list() -> None:
    terms = make_terms(make_open_program(), cap=1)
    paula, marit = make_sign_up(terms), make_sign_up(terms, "Marit")
    with pytest.raises(WrongPlace):
        seat_from_waiting_list(sign_up=marit, now=NOW)
    leave(sign_up=paula, day=date(2026, 9, 2), now=NOW)
    assert seat_from_waiting_list(sign_up=marit, now=NOW)
    assert not seat_from_waiting_list(sign_up=marit, now=NOW)
    assert SignUp.objects.get(pk=marit.pk).place == Place.SEAT


def test_seats_taken_are_counted_in_one_query(django_assert_num_queries: object) -> None:
    program = make_open_program()
    terms = make_terms(program)
    make_terms(program, make_shop("tern-and-tacking"))
    leave(sign_up=make_sign_up(terms), day=date(2026, 9, 2), now=NOW)
    make_sign_up(terms, "Marit", takes=Takes.SHEET)
    with django_assert_num_queries(1):  # type: ignore[operator]  # a fixture of pytest-django
        counted = [(each.shop.name, each.taken) for each in with_seats_taken(program.pk)]  # type: ignore[attr-defined]  # annotated
    assert counted == [("Oblong Drawer", 1), ("Tern And Tacking", 0)]


def _first(terms: object) -> object:
    return terms.program.quilt.colorways.first()  # type: ignore[attr-defined]  # a Terms
