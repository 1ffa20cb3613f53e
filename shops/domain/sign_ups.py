"""Signing up at a shop: seats up to the cap, then the waiting list; leaving."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from django.db import transaction
from django.db.models import Count, Max, Q

from bom.domain.audit import record
from bom.enums import Paper, ProgramState
from patterns.models import User
from shops.enums import Place, Takes
from shops.errors import NotOffered, SignUpClosed, WrongPlace
from shops.models import Participant, SignUp, Terms

if TYPE_CHECKING:
    from patterns.models import Colorway

LETTER_COUNTRIES = frozenset({"US", "CA", "MX", "PH"})  # where Letter is the usual paper; from memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What a person asks for on the form; `language` is the page's, "" leaves it to the shop's."""

    name: str
    email: str
    packet_name: str
    colorway: Colorway
    takes: Takes = Takes.BOTH
    language: str = ""


def is_open(terms: Terms, *, now: datetime) -> bool:
    """Whether the shop still takes sign-ups; the last day ends at 24:00 in the shop's zone."""
    if terms.program.state not in (ProgramState.OPEN, ProgramState.RUNNING):
        return False
    return now.astimezone(ZoneInfo(terms.shop.zone)).date() <= terms.sign_up_until


def seats_left(terms: Terms, colorway: Colorway | None = None) -> int:
    """Count the free seats of the terms, or of one colorway within them; never below zero.

    Once the head-count is frozen the order is fixed, so no seat is free.
    """
    if terms.head_count_is_frozen:
        return 0
    taken = SignUp.objects.seated().filter(terms=terms)
    free = terms.cap - taken.count()
    if colorway is not None:
        offer = terms.colorways.get(colorway=colorway)
        free = min(free, offer.cap - taken.filter(colorway=colorway).count())
    return max(0, free)


def seats_to_give(waiting: SignUp, terms: Terms) -> int:
    """Count the seats that this waiting person could be given.

    Before the head-count freeze any free seat; after it a leaver's, whose packets are ordered.  Who
    takes the sheet only needs no packet, and fits while the shop's seats are not all taken.
    """
    if not terms.head_count_is_frozen:
        return seats_left(terms, waiting.colorway)
    if waiting.takes == Takes.SHEET:
        return max(0, terms.cap - SignUp.objects.seated().filter(terms=terms).count())
    taken = SignUp.objects.with_packet().filter(terms=terms, colorway=waiting.colorway)
    return max(0, int(terms.frozen_seats.get(waiting.colorway.slug, 0)) - taken.count())


def with_seats_taken(program_id: int) -> list[Terms]:
    """List the program's terms with `taken`, the seats taken at each, in one query; shops joined."""
    seated = Q(sign_ups__place=Place.SEAT, sign_ups__left_on__isnull=True)
    return list(
        Terms.objects.filter(program_id=program_id)
        .select_related("shop", "program")
        .annotate(taken=Count("sign_ups", filter=seated))
        .order_by("shop__name")
    )


@transaction.atomic
def sign_up(*, terms: Terms, wish: Wish, now: datetime) -> tuple[SignUp, bool]:
    """Give a seat while there is one, else a place on the waiting list; the flag says whether it is new.

    The terms' row is locked, so that seats never exceed the cap.  The same wish again (same address,
    name on the packet, colorway) gives the sign-up that is there: a double click is harmless, and two
    for a family have two names on their packets.  Raises SignUpClosed and NotOffered.
    """
    locked = Terms.objects.select_for_update(of=("self",)).select_related("shop", "program").get(pk=terms.pk)
    if not is_open(locked, now=now):
        raise SignUpClosed(locked.sign_up_until)
    if not locked.colorways.filter(colorway=wish.colorway).exists():
        raise NotOffered(wish.colorway.name)
    participant = _participant(locked, wish)
    there = _the_same(locked, participant, wish)
    if there is not None:
        return there, False
    made = SignUp.objects.create(
        terms=locked,
        participant=participant,
        number=_next_number(locked),
        packet_name=wish.packet_name,
        colorway=wish.colorway,
        takes=wish.takes,
        place=Place.SEAT if seats_left(locked, wish.colorway) else Place.WAITING,
        joined_at=now,
    )
    _note("sign up", made, now=now)
    return made, True


@transaction.atomic
def leave(*, sign_up: SignUp, day: date, now: datetime, actor: User | None = None) -> bool:
    """Take a person off the list from `day`, a day of the shop's zone; False when already gone."""
    locked = SignUp.objects.select_for_update(of=("self",)).get(pk=sign_up.pk)
    if locked.left_on is not None:
        return False
    locked.left_on = day
    locked.save(update_fields=["left_on"])
    sign_up.left_on = day
    _note("leave", locked, now=now, actor=actor)
    return True


@transaction.atomic
def seat_from_waiting_list(*, sign_up: SignUp, now: datetime, actor: User | None = None) -> bool:
    """Give a waiting person a seat that has become free; False when seated already.

    Raises WrongPlace when no seat is free or the person has left.
    """
    locked_terms = Terms.objects.select_for_update().get(pk=sign_up.terms_id)
    waiting = SignUp.objects.select_related("colorway").get(pk=sign_up.pk)
    if waiting.place == Place.SEAT:
        return False
    if waiting.left_on is not None or not seats_to_give(waiting, locked_terms):
        raise WrongPlace(waiting.number)
    waiting.place = Place.SEAT
    waiting.save(update_fields=["place"])
    sign_up.place = Place.SEAT
    _note("seat from waiting list", waiting, now=now, actor=actor)
    return True


def _participant(terms: Terms, wish: Wish) -> Participant:
    """Find or make the person; somebody known keeps the name and the choices that are there."""
    email = wish.email.strip().lower()
    user = User.objects.filter(email=email).first()
    if user is None:
        shop = terms.shop
        language = wish.language or shop.language
        user = User.objects.create_user(email, wish.name, language=language, zone=shop.zone)
    paper = Paper.LETTER if terms.shop.country in LETTER_COUNTRIES else Paper.A4
    return Participant.objects.get_or_create(user=user, defaults={"paper": paper})[0]


def _the_same(terms: Terms, participant: Participant, wish: Wish) -> SignUp | None:
    """Find the sign-up that this wish has made before."""
    return SignUp.objects.filter(
        terms=terms,
        participant=participant,
        packet_name__iexact=wish.packet_name,
        colorway=wish.colorway,
        left_on__isnull=True,
    ).first()


def _next_number(terms: Terms) -> int:
    """Give the next number of the shop's list; numbers of leavers are not used again."""
    return (terms.sign_ups.aggregate(last=Max("number"))["last"] or 0) + 1


def _note(verb: str, subject: SignUp, *, now: datetime, actor: User | None = None) -> None:
    """Record the verb in the audit, without the person's name or address."""
    facts = {"number": subject.number, "place": str(subject.place), "colorway": subject.colorway.slug}
    record(verb, actor=actor, subject=f"sign-up:{subject.pk}", facts=facts, now=now)
