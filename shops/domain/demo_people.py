"""The people of the demo who sit at the shops' tables; made in bulk, since they are many."""

from __future__ import annotations

from collections import Counter
from datetime import datetime, time, timedelta
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from bom.enums import InstallmentState, Paper, PrintSize, UnitsChoice
from bom.models import Installment
from patterns.models import PlacedBlock, User
from shops.domain.notices import RELEASED
from shops.domain.sign_ups import LETTER_COUNTRIES
from shops.enums import Place, ShopRole, Takes
from shops.models import Notice, Participant, SewnBlock, SignUp

if TYPE_CHECKING:
    from collections.abc import Mapping

    from shops.models import Terms

    Data = Mapping[str, Any]

DOMAIN = "example.org"
SIGN_UPS_FROM = timedelta(days=90)  # before the list closes


def add_people(data: Data, terms: Terms, *, zones: Mapping[str, str], now: datetime) -> None:
    """Sign the people of one shop up, freeze its head-count where the file says so, note what is past."""
    participants = _participants(data, terms, zones)
    colorways = {each.slug: each for each in terms.program.quilt.colorways.all()}
    rows = data["people"]
    sign_ups = [
        SignUp(
            terms=terms,
            participant=participants[each["name"]],
            number=number,
            packet_name=each.get("packet_name", each["name"].split()[0]),
            colorway=colorways[each["colorway"]],
            takes=Takes(each.get("takes", Takes.BOTH)),
            place=Place.WAITING if each.get("waiting") else Place.SEAT,
            first_installment=each.get("from", 1),
            joined_at=_joined_at(terms, number, of=len(rows)),
            left_on=now.date() + timedelta(days=each["left"]) if "left" in each else None,
        )
        for number, each in enumerate(rows, start=1)
    ]
    SignUp.objects.bulk_create(sign_ups)
    _add_sewn(rows, sign_ups, now=now)
    _note_told(sign_ups, terms, now=now)
    if data["terms"]["head_count"] == "frozen":
        _freeze_head_count(terms)


def address_of(name: str) -> str:
    """Make an address that reaches nobody: example.org is kept for this (RFC 2606)."""
    return f"{name.lower().replace(' ', '.')}@{DOMAIN}"


def _participants(data: Data, terms: Terms, zones: Mapping[str, str]) -> dict[str, Participant]:
    """Make each person once, however many seats; the last entry says how sheets are liked."""
    shop = terms.shop
    by_name = {each["name"]: each for each in data["people"]}
    users = [
        User(email=address_of(name), name=name, language=shop.language, zone=zones.get(name, shop.zone))
        for name in by_name
    ]
    for user in users:
        user.set_unusable_password()
    User.objects.bulk_create(users)
    paper = Paper.LETTER if shop.country in LETTER_COUNTRIES else Paper.A4
    participants = [
        Participant(
            user=user,
            paper=paper,
            units=UnitsChoice(by_name[user.name].get("units", UnitsChoice.INCHES)),
            print_size=PrintSize(by_name[user.name].get("print_size", PrintSize.USUAL)),
        )
        for user in users
    ]
    Participant.objects.bulk_create(participants)
    return {each.user.name: each for each in participants}


def _joined_at(terms: Terms, number: int, *, of: int) -> datetime:
    """Spread the sign-ups over the weeks before the list closes, each in the shop's evening."""
    day = terms.sign_up_until - SIGN_UPS_FROM + SIGN_UPS_FROM * number / (of + 1)
    return datetime.combine(day, time(18, number % 60), ZoneInfo(terms.shop.zone))


def _add_sewn(rows: list[Data], sign_ups: list[SignUp], *, now: datetime) -> None:
    """Mark the blocks that people say they have sewn."""
    quilt = sign_ups[0].terms.program.quilt
    blocks = {(each.row, each.column): each for each in PlacedBlock.objects.filter(quilt=quilt)}
    SewnBlock.objects.bulk_create(
        SewnBlock(
            sign_up=sign_up,
            placed_block=blocks[tuple(place)],
            sewn_on=now.date() - timedelta(days=20 - n),
        )
        for row, sign_up in zip(rows, sign_ups, strict=True)
        for n, place in enumerate(row.get("sewn", []))
    )


def _freeze_head_count(terms: Terms) -> None:
    """Fix for how many packets the order is, in the evening of its day, by the shop's manager."""
    member = terms.shop.members.filter(role=ShopRole.MANAGER).select_related("user").get()
    seats = Counter(SignUp.objects.with_packet().filter(terms=terms).values_list("colorway__slug", flat=True))
    zone = ZoneInfo(terms.shop.zone)
    terms.head_count_frozen_at = datetime.combine(terms.head_count_day, time(19), zone)
    terms.head_count_frozen_by = member.user
    terms.frozen_seats = dict(seats)
    terms.save(update_fields=("head_count_frozen_at", "head_count_frozen_by", "frozen_seats"))


def _note_told(sign_ups: list[SignUp], terms: Terms, *, now: datetime) -> None:
    """Note that all were told of what is out, save the newest installment: its mails are still to come."""
    is_out = Installment.objects.filter(
        program=terms.program, state=InstallmentState.RELEASED, release_at__lte=now
    )
    told = list(is_out.order_by("number"))[:-1]
    seated = [each for each in sign_ups if each.place == Place.SEAT and each.left_on is None]
    Notice.objects.bulk_create(
        Notice(sign_up=sign_up, installment=installment, kind=RELEASED, made_at=installment.release_at)
        for installment in told
        for sign_up in seated
        if installment.release_at is not None
    )
