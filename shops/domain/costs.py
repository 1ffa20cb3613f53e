"""What a place costs in all: every payment to the shop, and the tax, in the shop's currency."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from bom.enums import PartKind
from shops.enums import Takes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bom.models import Installment
    from shops.models import Terms

CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Amounts in the shop's currency; `total` is before tax unless the shop's prices include it."""

    currency: str
    sign_up: Decimal
    months: int
    monthly: Decimal
    finishing: Decimal
    tax_percent: Decimal
    tax_included: bool

    @property
    def all_months(self) -> Decimal:
        """Monthly fee times the months with a packet."""
        return self.months * self.monthly

    @property
    def total(self) -> Decimal:
        """Everything paid to the shop for the program."""
        return self.sign_up + self.all_months + self.finishing

    @property
    def tax(self) -> Decimal:
        """The tax on top of the total, or within it where prices include tax; to the cent, halves up."""
        share = self.tax_percent / (100 + self.tax_percent) if self.tax_included else self.tax_percent / 100
        return (self.total * share).quantize(CENT, ROUND_HALF_UP)

    @property
    def to_pay(self) -> Decimal:
        """The total with tax."""
        return self.total if self.tax_included else self.total + self.tax


def months_with_packet(installments: Iterable[Installment]) -> int:
    """Count the installments that hold a block; sashing, border and binding are the finishing fabric."""
    return sum(1 for each in installments if any(part.kind == PartKind.BLOCK for part in each.parts.all()))


def cost_of(terms: Terms, installments: Iterable[Installment], *, takes: str = Takes.BOTH) -> Cost:
    """Add up what one place costs; who takes the sheet only pays no fee for packets or finishing fabric."""
    packets = takes != Takes.SHEET
    return Cost(
        currency=terms.shop.currency,
        sign_up=terms.sign_up_fee,
        months=months_with_packet(installments) if packets else 0,
        monthly=terms.monthly_fee,
        finishing=terms.finishing_fee if packets else Decimal(0),
        tax_percent=terms.shop.tax_percent,
        tax_included=terms.shop.tax_included,
    )
