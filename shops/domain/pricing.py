"""What a packet and a year cost a shop, and the monthly price that follows, share by share.

Reckoned exactly and rounded once, to the currency's minor unit; before tax unless a name says so.
Fabric is charged at its share of a bolt; what is left over of bolts, spares and samples is not in it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.packets import packets
from bom.domain.records import read_colorways
from bom.errors import ProgramError
from patterns.domain.wording import MINOR_UNITS
from shops.domain.orders import offers_of
from shops.domain.steps_of_sale import at_shop
from shops.models import PricePlan

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from bom.domain.packets import FabricLine, Packet
    from patterns.models import Colorway
    from shops.models import FabricOffer, Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketCost:
    """One packet: its fabric, its weight with paper and bag, and the posting step that it falls in.

    `step` is the greatest weight of that step in grams; it and `posting` are None where the packet is
    heavier than every step.  A packet without fabric costs nothing.
    """

    number: int
    is_finishing: bool
    fabric: Fraction
    grams: int
    step: int | None
    posting: Decimal | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """A price and every share in it, each to the minor unit; they add up to `price`."""

    fabric: Decimal
    licence: Decimal
    bag: Decimal
    label: Decimal
    margin: Decimal
    tax: Decimal
    price: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class ColorwayPrice:
    """One colorway: its packets, the suggested price of a month and of the finishing fabric.

    `unpriced` names fabrics without a price; nothing is suggested while there are any.
    """

    colorway: Colorway
    packets: tuple[PacketCost, ...]
    unpriced: tuple[str, ...]
    monthly: Shares | None
    finishing: Shares | None

    @property
    def months(self) -> int:
        """Count the packets with blocks."""
        return sum(1 for each in self.packets if each.fabric and not each.is_finishing)

    @property
    def fabric(self) -> Fraction:
        """Add the fabric of the year up."""
        return sum((each.fabric for each in self.packets), Fraction(0))

    @property
    def posting(self) -> Decimal | None:
        """Add the posting of every packet up; None where one is heavier than every step."""
        found = [each.posting for each in self.packets if each.fabric]
        known = [each for each in found if each is not None]
        return sum(known, Decimal(0)) if found and len(known) == len(found) else None


def minor_unit(currency: str) -> Decimal:
    """Give the smallest amount of a currency (ISO 4217): 0.01 CAD, 1 JPY."""
    return Decimal(1).scaleb(-MINOR_UNITS.get(currency, 2))


def to_minor_unit(amount: Fraction, currency: str, *, rounding: str = ROUND_HALF_UP) -> Decimal:
    """Round an exact amount once."""
    unit = minor_unit(currency)
    scaled = amount / Fraction(unit)
    whole = -(-scaled // 1) if rounding == ROUND_CEILING else (2 * scaled + 1) // 2
    return int(whole) * unit


def plan_of(terms: Terms) -> PricePlan:
    """Give the shop's own reckoning, or the usual one unsaved."""
    return PricePlan.objects.filter(terms=terms).first() or PricePlan(terms=terms)


def prices_of(terms: Terms) -> tuple[ColorwayPrice, ...]:
    """Reckon every colorway that the shop sells; ProgramError where the program cannot be worked out."""
    sold = set(terms.colorways.values_list("colorway_id", flat=True))
    work, plan = work_of(terms.program), plan_of(terms)
    years = [
        (each, [_at_shop(packet, terms) for packet in packets(terms.program, work, each)])
        for each in read_colorways(terms.program)
        if each.pk in sold
    ]
    lines = (line for _colorway, year in years for packet in year for line in packet.lines)
    offers = offers_of(terms, {line.fabric.pk for line in lines})
    return tuple(_price(colorway, year, plan=plan, offers=offers) for colorway, year in years)


def posting_of(terms: Terms) -> Decimal | None:
    """Give what posting every packet of a year costs, of the dearest colorway; None where it is not known."""
    if not plan_of(terms).posting:
        return None
    try:
        found = [each.posting for each in prices_of(terms)]
    except ProgramError:
        return None
    known = [each for each in found if each is not None]
    return max(known) if known and len(known) == len(found) else None


def fabric_cost(line: FabricLine, offer: FabricOffer) -> Fraction:
    """Give what the fabric of one packet line costs: its share of a bolt, the shop's tolerance in."""
    share = line.line.cut_length / line.line.per_cut
    return Fraction(offer.price_per_bolt) * share / (offer.bolt_length - offer.end_loss)


def shares_of(fabric: Fraction, plan: PricePlan, *, with_sheet: bool) -> Shares:
    """Make a price of what a packet costs: cost / (1 - margin), rounded up; tax where prices include it."""
    shop = plan.terms.shop
    extra = [Fraction(each) for each in ((plan.sheet_licence if with_sheet else 0), plan.bag, plan.label)]
    net = (fabric + sum(extra)) / (1 - Fraction(plan.margin_percent) / 100)
    rate = Fraction(shop.tax_percent) / 100 if shop.tax_included else Fraction(0)
    price = to_minor_unit(net * (1 + rate), shop.currency, rounding=ROUND_CEILING)
    tax = to_minor_unit(Fraction(price) * rate / (1 + rate), shop.currency)
    shown = [to_minor_unit(each, shop.currency) for each in (fabric, *extra)]
    return Shares(
        fabric=shown[0],
        licence=shown[1],
        bag=shown[2],
        label=shown[3],
        margin=price - tax - sum(shown, Decimal(0)),
        tax=tax,
        price=price,
    )


def _at_shop(packet: Packet, terms: Terms) -> Packet:
    return replace(packet, lines=tuple(at_shop(line, terms) for line in packet.lines))


def _price(
    colorway: Colorway, year: Iterable[Packet], *, plan: PricePlan, offers: Mapping[int, FabricOffer]
) -> ColorwayPrice:
    listed = list(year)
    lines = [line for packet in listed for line in packet.lines]
    unpriced = dict.fromkeys(line.fabric.name for line in lines if line.fabric.pk not in offers)
    costs = tuple(_packet(packet, plan, offers) for packet in listed)
    blocks = [each.fabric for each in costs if each.fabric and not each.is_finishing]
    finishing = sum((each.fabric for each in costs if each.is_finishing), Fraction(0))
    monthly = sum(blocks, Fraction(0)) / len(blocks) if blocks else None
    return ColorwayPrice(
        colorway=colorway,
        packets=costs,
        unpriced=tuple(unpriced),
        monthly=None if unpriced or monthly is None else shares_of(monthly, plan, with_sheet=True),
        finishing=None if unpriced or not finishing else shares_of(finishing, plan, with_sheet=False),
    )


def _packet(packet: Packet, plan: PricePlan, offers: Mapping[int, FabricOffer]) -> PacketCost:
    priced = [line for line in packet.lines if line.fabric.pk in offers]
    fabric = sum((fabric_cost(line, offers[line.fabric.pk]) for line in priced), Fraction(0))
    grams = packet.weight_grams + plan.packing_grams if packet.lines else 0
    steps = ((int(most), Decimal(price)) for most, price in plan.posting if grams <= int(most))
    step, posting = next(steps, (None, None))
    return PacketCost(
        number=packet.number,
        is_finishing=packet.is_finishing,
        fabric=fabric,
        grams=grams,
        step=step,
        posting=posting,
    )
