"""Shops, terms and sign-ups for tests: plain functions over the small program."""

from __future__ import annotations

import io
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any

import pikepdf
from django.core.files.base import ContentFile

from bom.enums import InstallmentState, Paper, PrintSize, ProgramState, UnitsChoice
from bom.models import Installment, Program, Rendering, SheetEdition
from shops.domain.sign_ups import Wish, sign_up
from shops.enums import Takes
from shops.models import ColorwayOffer, Shop, SignUp, Terms
from tests.factories import make_program

NOW = datetime(2026, 9, 1, 12, 0, tzinfo=UTC)
FIRST_RELEASE = datetime(2027, 1, 16, 14, 0, tzinfo=UTC)  # Saturday, 10:00 in Halifax (UTC-4)


def make_open_program(**fields: Any) -> Program:
    """Make the small program, open to everybody, its five installments scheduled four weeks apart."""
    program = make_program(**{"state": ProgramState.OPEN, **fields})
    for installment in program.installments.all():
        schedule(installment, FIRST_RELEASE + timedelta(weeks=4 * (installment.number - 1)))
    return program


def schedule(installment: Installment, instant: datetime) -> None:
    """Schedule an installment at an instant."""
    installment.state = InstallmentState.SCHEDULED
    installment.wall_day = instant.date()
    installment.release_at = instant
    installment.save()


def make_shop(slug: str = "oblong-drawer", **fields: Any) -> Shop:
    """Make a shop in Nova Scotia."""
    usual: dict[str, Any] = {
        "name": slug.replace("-", " ").title(),
        "place": "Port Averley",
        "country": "CA",
        "zone": "America/Halifax",
        "currency": "CAD",
        "tax_percent": Decimal(14),
        "email": f"{slug}@example.org",
    }
    return Shop.objects.create(slug=slug, **{**usual, **fields})


def make_terms(program: Program, shop: Shop | None = None, **fields: Any) -> Terms:
    """Make terms with two seats; every colorway is offered with the same cap."""
    usual: dict[str, Any] = {
        "sign_up_fee": Decimal("25.00"),
        "monthly_fee": Decimal("15.50"),
        "finishing_fee": Decimal("56.50"),
        "cap": 2,
        "sign_up_until": date(2026, 9, 18),
        "head_count_day": date(2026, 9, 19),
        "order_by_day": date(2026, 9, 21),
        "bolts_due_day": date(2026, 12, 11),
        "pick_up": "3rd Saturday, 10:00",
    }
    terms = Terms.objects.create(shop=shop or make_shop(), program=program, **{**usual, **fields})
    for colorway in program.quilt.colorways.all():
        ColorwayOffer.objects.create(terms=terms, colorway=colorway, cap=terms.cap)
    return terms


def make_sign_up(
    terms: Terms, name: str = "Paula", *, takes: Takes = Takes.BOTH, now: datetime = NOW
) -> SignUp:
    """Sign somebody up for the first colorway."""
    wish = Wish(
        name=name,
        email=f"{name.lower()}@example.org",
        packet_name=name,
        colorway=terms.program.quilt.colorways.first(),
        takes=takes,
    )
    return sign_up(terms=terms, wish=wish, now=now)[0]


def make_edition(installment: Installment, number: int = 1, **fields: Any) -> SheetEdition:
    """Make an edition without content; its number stands for its hash."""
    usual: dict[str, Any] = {"content_hash": str(number) * 64, "data": {}, "made_at": NOW}
    return SheetEdition.objects.create(installment=installment, number=number, **{**usual, **fields})


def make_rendering(edition: SheetEdition, sign_up: SignUp, **fields: Any) -> Rendering:
    """Make the file of an edition that this person takes."""
    person = sign_up.participant
    usual: dict[str, Any] = {
        "colorway": sign_up.colorway,
        "paper": Paper(person.paper),
        "units": UnitsChoice(person.units),
        "print_size": PrintSize(person.print_size),
        "sha256": "0" * 64,
        "pages": 5,
        "made_at": NOW,
    }
    rendering = Rendering(edition=edition, **{**usual, **fields})
    rendering.file.save("sheet.pdf", ContentFile(one_page()), save=True)
    return rendering


def one_page() -> bytes:
    """Make a PDF with one empty page."""
    out = io.BytesIO()
    with pikepdf.new() as document:
        document.add_blank_page()
        document.save(out)
    return out.getvalue()
