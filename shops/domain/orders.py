"""What a shop must order: whole cuts of every fabric for the whole year, on the fewest bolts, proven.

Every seat in every installment, with spares, first packet and sample, each a column of its own; a
fabric is one line over all installments, since a print is one dye lot.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from bom.domain.keeping import Kept, hash_of
from patterns.engine.bolts import BoltPlan, plan_bolts
from patterns.engine.errors import CutLongerThanBolt
from patterns.engine.measure import YARD
from shops.domain.needs import Counts, Need, needs_of, seats_of
from shops.enums import Place
from shops.errors import LongerThanBolt
from shops.models import FabricOffer

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from patterns.models import Fabric
    from shops.models import Terms

_plans: Kept[BoltPlan] = Kept(most=512)


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRow:
    """One fabric of an order; lengths in inches of full-width fabric.

    `cuts` are whole cuts (length, how many), the longest first.  `backings` counts those that are
    lengths of backing.  `hangs`: with one bolt a yard shorter it would take one bolt more.
    """

    fabric: Fabric
    letters: tuple[str, ...]
    numbers: tuple[int, ...]
    counts: Counts
    needs: tuple[Need, ...]
    cuts: tuple[tuple[Fraction, int], ...]
    offer: FabricOffer
    plan: BoltPlan
    hangs: bool

    @property
    def bolts(self) -> int:
        """Count the bolts to buy."""
        return sum(bolt.repeat for bolt in self.plan.bolts)

    @property
    def longest(self) -> Fraction:
        """Give the longest cut."""
        return self.cuts[0][0]

    @property
    def backings(self) -> int:
        """Count the cuts that are lengths of backing, beside the packets."""
        return sum(need.cuts for need in self.needs if need.line.is_backing)

    @property
    def is_priced(self) -> bool:
        """Whether the shop has said what a bolt costs."""
        return self.offer.pk is not None

    @property
    def price(self) -> Decimal:
        """Give the price of all bolts, in the shop's currency, before tax unless its prices include it."""
        return self.bolts * self.offer.price_per_bolt


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What one shop must order for one program; `seats` by colorway, of people who take packets.

    People on the waiting list are counted beside, and never ordered for.
    """

    terms: Terms
    seats: Mapping[str, int]
    waiting: int
    rows: tuple[OrderRow, ...]

    @property
    def people(self) -> int:
        """Count the seats with a packet."""
        return sum(self.seats.values())

    @property
    def counts(self) -> Counts:
        """Add the packets of all rows up, column by column."""
        return sum((row.counts for row in self.rows), start=Counts())

    @property
    def bolts(self) -> int:
        """Count the bolts of all rows."""
        return sum(row.bolts for row in self.rows)

    @property
    def total(self) -> Decimal:
        """Add the prices up, of those fabrics that have one."""
        return sum((row.price for row in self.rows if row.is_priced), start=Decimal(0))

    @property
    def unpriced(self) -> tuple[OrderRow, ...]:
        """List the rows whose fabric has no price yet."""
        return tuple(row for row in self.rows if not row.is_priced)

    @property
    def proven(self) -> bool:
        """Whether no other choice of bolts is shorter, fabric by fabric."""
        return all(row.plan.proven for row in self.rows)

    @property
    def letters(self) -> frozenset[str]:
        """Name every fabric letter that has a line."""
        return frozenset(letter for row in self.rows for letter in row.letters)


def order_of(terms: Terms) -> Order:
    """Work out what the shop must order, for the frozen head-count or else for those who are seated.

    LongerThanBolt where a cut fits on no bolt; ProgramError where the program cannot be worked out.
    """
    seats = seats_of(terms)
    by_fabric: dict[int, list[Need]] = {}
    for need in needs_of(terms, seats):
        by_fabric.setdefault(need.line.fabric.pk, []).append(need)
    offers = offers_of(terms, by_fabric)
    rows = [_row(needs, offers.get(pk)) for pk, needs in by_fabric.items()]
    waiting = terms.sign_ups.filter(place=Place.WAITING, left_on__isnull=True).count()
    return Order(terms=terms, seats=seats, waiting=waiting, rows=tuple(sorted(rows, key=_place)))


def offers_of(terms: Terms, fabrics: Iterable[int]) -> dict[int, FabricOffer]:
    """Give the shop's offers by the key of the fabric."""
    found = FabricOffer.objects.filter(shop=terms.shop_id, fabric__in=list(fabrics))
    return {each.fabric_id: each for each in found}


def cuts_of(needs: Iterable[Need]) -> tuple[tuple[Fraction, int], ...]:
    """Add cuts of one length up, the longest first."""
    found: Counter[Fraction] = Counter()
    for need in needs:
        found[need.length] += need.cuts
    return tuple(sorted(found.items(), reverse=True))


def bolts_for(cuts: Iterable[tuple[Fraction, int]], offer: FabricOffer, *lengths: Fraction) -> BoltPlan:
    """Plan bolts of the offer's length, or of these lengths; kept by what was asked for."""
    wanted, choice = dict(cuts), lengths or (offer.bolt_length,)
    key = hash_of([sorted(map(str, wanted.items())), [str(each) for each in choice], str(offer.end_loss)])
    return _plans.get(key, lambda: plan_bolts(wanted, bolt_lengths=choice, end_loss=offer.end_loss))


def _row(needs: list[Need], offer: FabricOffer | None) -> OrderRow:
    """Make the line of one fabric; without an offer, of usual bolts at no known price."""
    fabric, cuts = needs[0].line.fabric, cuts_of(needs)
    chosen = offer or _usual(fabric)
    try:
        plan = bolts_for(cuts, chosen)
    except CutLongerThanBolt as error:
        raise LongerThanBolt(fabric.name, length=error.length, longest=error.longest) from error
    packets = {(need.number, need.colorway.pk): need.counts for need in needs}
    return OrderRow(
        fabric=fabric,
        letters=tuple(sorted({letter for need in needs for letter in need.line.letters}, key=_order)),
        numbers=tuple(sorted({need.number for need in needs})),
        counts=sum(packets.values(), start=Counts()),
        needs=tuple(needs),
        cuts=cuts,
        offer=chosen,
        plan=plan,
        hangs=_hangs(plan, cuts, chosen),
    )


def _usual(fabric: Fabric) -> FabricOffer:
    """Give the usual bolt, nominally 15 yd (common practice), for a fabric that has no offer yet."""
    offer = FabricOffer(fabric=fabric, price_per_bolt=Decimal(0))
    offer.clean_fields(exclude=("shop",))  # reads the lengths that are typed as text
    return offer


def _hangs(plan: BoltPlan, cuts: tuple[tuple[Fraction, int], ...], offer: FabricOffer) -> bool:
    """Whether one bolt that is a yard shorter would make one more bolt necessary."""
    if any(bolt.left_over >= YARD for bolt in plan.bolts):
        return False
    shorter = offer.bolt_length - YARD
    if shorter - offer.end_loss < cuts[-1][0]:
        return True
    mixed = bolts_for(cuts, offer, offer.bolt_length, shorter)
    number = sum(bolt.repeat for bolt in plan.bolts)
    return mixed.bought >= plan.bought or sum(bolt.repeat for bolt in mixed.bolts) > number


def _place(row: OrderRow) -> tuple[int, int, str]:
    """Order rows by colorway, then by letter."""
    return row.needs[0].colorway.position, *_order(row.letters[0])


def _order(letter: str) -> tuple[int, str]:
    return len(letter), letter
