"""The order over all shops, for the designer: each fabric once, every column, and the day to order by."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.errors import ProgramError
from shops.domain.needs import Counts
from shops.domain.orders import order_of
from shops.errors import LongerThanBolt
from shops.models import OrderLine, Terms

if TYPE_CHECKING:
    from datetime import date

    from bom.models import Program
    from patterns.models import Fabric
    from shops.domain.orders import Order, OrderRow


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopPart:
    """One fabric of one shop: its line, the bolts as sent or else as reckoned, and the day to order by."""

    terms: Terms
    row: OrderRow
    bolts: int
    is_sent: bool

    @property
    def order_by(self) -> date:
        """Give the last day on which an order still arrives by the day that the shop's bolts are due."""
        return self.terms.bolts_due_day - timedelta(days=self.row.offer.lead_days)

    @property
    def comes_late(self) -> bool:
        """Whether the shop plans to order later than the fabric's lead time allows, and has not ordered."""
        return not self.is_sent and self.order_by < self.terms.order_by_day


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricOrderRow:
    """One fabric over all shops; `letters` in every colorway that a shop takes it for."""

    fabric: Fabric
    parts: tuple[ShopPart, ...]

    @property
    def letters(self) -> tuple[str, ...]:
        """List the letters, each once."""
        found = {letter for part in self.parts for letter in part.row.letters}
        return tuple(sorted(found, key=lambda letter: (len(letter), letter)))

    @property
    def counts(self) -> Counts:
        """Add the packets up, column by column."""
        return sum((part.row.counts for part in self.parts), start=Counts())

    @property
    def bolts(self) -> int:
        """Count the bolts."""
        return sum(part.bolts for part in self.parts)

    @property
    def needed(self) -> Fraction:
        """Add the cuts of all shops up, inches; what is left on bolts is not in it."""
        cuts = (length * count for part in self.parts for length, count in part.row.cuts)
        return sum(cuts, start=Fraction(0))

    @property
    def bought(self) -> Fraction:
        """Add the lengths of the bolts up, inches."""
        lengths = (part.bolts * part.row.offer.bolt_length for part in self.parts)
        return sum(lengths, start=Fraction(0))

    @property
    def is_sent(self) -> bool:
        """Whether every shop that takes it has sent its order."""
        return all(part.is_sent for part in self.parts)

    @property
    def order_by(self) -> date:
        """Give the earliest day to order by, of the shops that have not ordered; else of all."""
        waiting = [part.order_by for part in self.parts if not part.is_sent]
        return min(waiting or [part.order_by for part in self.parts])

    @property
    def late(self) -> tuple[ShopPart, ...]:
        """List the shops that plan to order too late for this fabric."""
        return tuple(part for part in self.parts if part.comes_late)


@dataclass(frozen=True, slots=True, kw_only=True)
class ProgramOrder:
    """The orders of all shops together; `left_out` are shops whose order cannot be worked out."""

    orders: tuple[Order, ...]
    rows: tuple[FabricOrderRow, ...]
    left_out: tuple[Terms, ...]

    @property
    def counts(self) -> Counts:
        """Add the packets of all rows up."""
        return sum((row.counts for row in self.rows), start=Counts())

    @property
    def letters(self) -> frozenset[str]:
        """Name every letter that has a line."""
        return frozenset(letter for row in self.rows for letter in row.letters)


def program_order(program: Program) -> ProgramOrder:
    """Add the shops' orders up, fabric by fabric, by letter; each as sent where it is sent."""
    orders, left_out = [], []
    for terms in (
        Terms.objects.filter(program=program).select_related("shop", "program").order_by("shop__name")
    ):
        try:
            orders.append(order_of(terms))
        except (LongerThanBolt, ProgramError):
            left_out.append(terms)
    sent = _sent(program)
    parts: dict[int, list[ShopPart]] = {}
    for order in orders:
        lines = sent.get(order.terms.pk)
        for row in order.rows:
            bolts = row.bolts if lines is None else lines.get(row.fabric.pk, 0)
            part = ShopPart(terms=order.terms, row=row, bolts=bolts, is_sent=lines is not None)
            parts.setdefault(row.fabric.pk, []).append(part)
    rows = [FabricOrderRow(fabric=each[0].row.fabric, parts=tuple(each)) for each in parts.values()]
    return ProgramOrder(
        orders=tuple(orders),
        rows=tuple(sorted(rows, key=lambda row: (len(row.letters[0]), row.letters[0], row.fabric.name))),
        left_out=tuple(left_out),
    )


def _sent(program: Program) -> dict[int, dict[int, int]]:
    """Give the bolts of the sent orders, by terms and fabric."""
    found: dict[int, dict[int, int]] = {}
    lines = OrderLine.objects.filter(order__terms__program=program)
    for terms, fabric, bolts in lines.values_list("order__terms", "fabric", "bolts"):
        found.setdefault(terms, {})[fabric] = bolts
    return found
