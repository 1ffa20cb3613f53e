"""The cast of the tests: Dora designs, Sam manages a shop, Paula takes part, Olga is an outsider.

Plain functions: each gives the same person or record when called again within a test.
"""

from __future__ import annotations

from datetime import UTC, date, datetime
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from bom.enums import Paper
from patterns.models import Colorway, User
from shops.enums import ShopRole
from shops.models import ColorwayOffer, Participant, Shop, ShopMember, SignUp, Terms

if TYPE_CHECKING:
    from django.test import Client

    from bom.models import Program

JOINED = datetime(2026, 9, 1, 12, tzinfo=UTC)


def person(name: str, zone: str = "America/Halifax") -> User:
    """Find or make a person by first name."""
    email = f"{name.lower()}@example.org"
    return User.objects.filter(email=email).first() or User.objects.create_user(email, name, zone=zone)


def dora() -> User:
    """Dora designs."""
    return person("Dora")


def sam() -> User:
    """Sam manages the shop of `sams_shop`."""
    return person("Sam")


def paula() -> User:
    """Paula takes part, from Oslo."""
    return person("Paula", zone="Europe/Oslo")


def olga() -> User:
    """Olga is an outsider: known, and a part of nothing."""
    return person("Olga")


def login(client: Client, user: User) -> Client:
    """Sign a person in, without the mailed code."""
    client.force_login(user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def sams_shop(**fields: Any) -> Shop:
    """Find or make Sam's shop, in Halifax, CAD before tax."""
    usual: dict[str, Any] = {
        "name": "Sam's Bolts",
        "place": "Port Averley, Nova Scotia",
        "country": "CA",
        "zone": "America/Halifax",
        "currency": "CAD",
        "tax_percent": Decimal("14.00"),
        "email": "shop@example.org",
    }
    shop = Shop.objects.get_or_create(slug="sams-bolts", defaults={**usual, **fields})[0]
    ShopMember.objects.get_or_create(shop=shop, user=sam(), defaults={"role": ShopRole.MANAGER})
    return shop


def sams_terms(program: Program, **fields: Any) -> Terms:
    """Find or make the terms of Sam's shop for a program: ten seats, every colorway sold."""
    usual: dict[str, Any] = {
        "sign_up_fee": Decimal("25.00"),
        "monthly_fee": Decimal("15.50"),
        "finishing_fee": Decimal("56.50"),
        "cap": 10,
        "sign_up_until": date(2026, 12, 31),
        "head_count_day": date(2026, 12, 31),
        "order_by_day": date(2027, 1, 4),
        "bolts_due_day": date(2027, 1, 8),
        "pick_up": "3rd Saturday, 10:00",
    }
    terms = Terms.objects.get_or_create(shop=sams_shop(), program=program, defaults={**usual, **fields})[0]
    for colorway in program.quilt.colorways.all():
        ColorwayOffer.objects.get_or_create(terms=terms, colorway=colorway, defaults={"cap": terms.cap})
    return terms


def seat(terms: Terms, user: User, **fields: Any) -> SignUp:
    """Give a person a seat, in the first colorway unless said otherwise."""
    participant = Participant.objects.get_or_create(user=user, defaults={"paper": Paper.A4})[0]
    usual: dict[str, Any] = {
        "number": terms.sign_ups.count() + 1,
        "packet_name": user.name,
        "colorway": first_colorway(terms.program),
        "joined_at": JOINED,
    }
    return SignUp.objects.create(terms=terms, participant=participant, **{**usual, **fields})


def first_colorway(program: Program) -> Colorway:
    """Give the first colorway of a program."""
    colorway = program.quilt.colorways.first()
    assert colorway is not None
    return colorway
