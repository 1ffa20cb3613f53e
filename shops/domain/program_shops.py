"""The shops of one program as its designer sees them: seats and states, no person's name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.db.models import Count, Q

from bom.models import SheetEdition
from shops.enums import Place, Takes
from shops.models import FabricOrder, SheetCopy, Terms

if TYPE_CHECKING:
    from datetime import datetime

    from bom.models import Program

SEATED = Q(sign_ups__place=Place.SEAT, sign_ups__left_on__isnull=True)
WAITING = Q(sign_ups__place=Place.WAITING, sign_ups__left_on__isnull=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopRow:
    """One shop: seats taken of the cap, packets, waiting list, and how far it is."""

    terms: Terms
    seats: int
    packets: int
    waiting: int
    ordered_at: datetime | None

    @property
    def quota_is_reached(self) -> bool:
        """Whether as many people as the shop needs have signed up."""
        return self.seats >= self.terms.quota


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionRow:
    """The newest edition of an installment: people who hold it, and people who hold only an older one."""

    edition: SheetEdition
    holders: int
    behind: int


def shop_rows(program: Program) -> list[ShopRow]:
    """List the shops by name: two queries, however many there are."""
    orders = dict(FabricOrder.objects.filter(terms__program=program).values_list("terms", "sent_at"))
    with_packet = SEATED & ~Q(sign_ups__takes=Takes.SHEET)
    counted = (
        Terms.objects.filter(program=program)
        .select_related("shop")
        .annotate(
            seats_now=Count("sign_ups", filter=SEATED),
            packets_now=Count("sign_ups", filter=with_packet),
            waiting_now=Count("sign_ups", filter=WAITING),
        )
        .order_by("shop__name")
    )
    return [
        ShopRow(
            terms=each,
            seats=each.seats_now,
            packets=each.packets_now,
            waiting=each.waiting_now,
            ordered_at=orders.get(each.pk),
        )
        for each in counted
    ]


def edition_rows(program: Program) -> list[EditionRow]:
    """Say for each newest edition how many people took it, and how many took only an older one."""
    held: dict[int, dict[int, int]] = {}
    taken = SheetCopy.objects.filter(rendering__edition__installment__program=program).values_list(
        "rendering__edition__installment", "sign_up", "rendering__edition__number"
    )
    for installment, person, number in taken:
        newest = held.setdefault(installment, {})
        newest[person] = max(number, newest.get(person, 0))
    found = SheetEdition.objects.filter(installment__program=program).select_related("installment")
    rows = {each.installment_id: each for each in found.order_by("installment__number", "number")}
    return [_edition_row(each, held.get(key, {})) for key, each in rows.items()]


def _edition_row(edition: SheetEdition, held: dict[int, int]) -> EditionRow:
    up_to_date = sum(number == edition.number for number in held.values())
    return EditionRow(edition=edition, holders=up_to_date, behind=len(held) - up_to_date)
