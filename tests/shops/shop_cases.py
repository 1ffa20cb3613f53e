"""A shop ready to order, for tests: Sam's, with prices, over the frozen small program."""

from __future__ import annotations

from datetime import UTC, datetime
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from patterns.models import Fabric
from shops.models import FabricOffer
from tests.cast import dora, person, sams_shop, sams_terms, seat
from tests.factories import make_program
from tests.shops.factories import FIRST_RELEASE, schedule

if TYPE_CHECKING:
    from bom.models import Program
    from shops.models import Terms

NOW = datetime(2026, 12, 31, 22, 0, tzinfo=UTC)  # 18:00 in Halifax, the day of the head-count freeze


def frozen_program(**fields: Any) -> Program:
    """Make the small program with its fabric freeze passed, as the freeze stores it, without the proof."""
    usual = {"state": "open", "frozen_at": NOW, "frozen_by": dora(), "frozen_hash": "f" * 64}
    program = make_program(designer=dora(), **{**usual, **fields})
    schedule(program.installments.get(number=1), FIRST_RELEASE)
    return program


def priced_terms(program: Program, *, bolt: str = "540", end_loss: str = "1", **fields: Any) -> Terms:
    """Give the terms of Sam's shop, every fabric priced at 100.00 a bolt."""
    terms = sams_terms(program, **fields)
    for fabric in Fabric.objects.all():
        FabricOffer.objects.create(
            shop=sams_shop(),
            fabric=fabric,
            price_per_bolt=Decimal("100.00"),
            bolt_length=bolt,
            end_loss=end_loss,
        )
    terms.refresh_from_db()
    return terms


def three_people(terms: Terms) -> None:
    """Seat three: two packets in the first colorway, the sheet only in it; a fourth waits."""
    for name, fields in (
        ("Paula", {}),
        ("Marit", {"takes": "packet"}),
        ("Tove", {"takes": "sheet"}),
        ("Wim", {"place": "waiting"}),
    ):
        seat(terms, person(name), **fields)


def with_seats(terms: Terms, *, at: datetime = NOW, **seats: int) -> Terms:
    """Freeze the head-count of the terms at these seats."""
    terms.frozen_seats, terms.head_count_frozen_at = seats, at
    terms.save()
    return terms
