"""What the bolts that came give: the cuts on each, and, where they fall short, who is served until when.

Fabric that falls short goes to people first, installment by installment and in each by order of
sign-up; first packets, samples and spares come after everybody.  Lengths are inches.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain, repeat
from typing import TYPE_CHECKING

from bom.domain.keeping import Kept, hash_of
from patterns.engine.bolts import Assignment, assign_bolts
from shops.domain.check_in import dye_lots
from shops.domain.needs import cuts_for
from shops.domain.orders import order_of
from shops.models import Bolt, SignUp

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from patterns.models import Fabric
    from shops.domain.orders import Order, OrderRow
    from shops.models import Terms

Key = tuple[int, int]  # installment number, key of the colorway
Unit = tuple[Key, int]  # one packet: its key, and the person's number on the shop's list; 0 for nobody

_laid: Kept[Assignment] = Kept(most=1024)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """The bolts of one fabric that came, and what they give.

    `served` counts the packets that get their cuts; `left_out` lists the people's packets that do not,
    by the installment in which a person misses it.
    `whole_year` counts the people who could have all their installments if the fabric were kept for
    the first of the list.
    """

    row: OrderRow
    bolts: tuple[Bolt, ...]
    served: Mapping[Key, int]
    laid: Assignment
    left_out: tuple[Unit, ...]
    people: int
    whole_year: int

    @property
    def stops(self) -> dict[int, int]:
        """Give, by a person's number on the list, the first installment that they cannot be cut for."""
        found: dict[int, int] = {}
        for (number, _colorway), person in self.left_out:
            found.setdefault(person, number)
        return found

    @property
    def length(self) -> Fraction:
        """Add the measured lengths up."""
        return sum((bolt.length for bolt in self.bolts), start=Fraction(0))

    @property
    def missing(self) -> int:
        """Count the cuts that no bolt gives."""
        given = sum(count for bolt in self.laid.bolts for _cut, count in bolt.cuts)
        return sum(count for _cut, count in self.row.cuts) - given

    @property
    def left_over(self) -> Fraction:
        """Add up what is left on the bolts."""
        return sum((bolt.left_over for bolt in self.laid.bolts), start=Fraction(0))

    @property
    def lots(self) -> tuple[str, ...]:
        """List the dye lots; more than one breaks the rule of one lot per fabric over the year."""
        return dye_lots(self.bolts)


def arrivals_of(order: Order) -> dict[int, Arrival]:
    """Give what came by the key of the fabric, of those that are checked in; in two queries."""
    found: dict[int, list[Bolt]] = {}
    bolts = Bolt.objects.filter(line__order__terms=order.terms).select_related("line")
    for bolt in bolts.order_by("pk"):
        found.setdefault(bolt.line.fabric_id, []).append(bolt)
    people = _people(order) if found else []
    rows = (row for row in order.rows if row.fabric.pk in found)
    return {row.fabric.pk: arrival(row, found[row.fabric.pk], people=people) for row in rows}


def arrival(row: OrderRow, bolts: Sequence[Bolt], *, people: Sequence[SignUp]) -> Arrival:
    """Lay a fabric's cuts on the bolts that came; where they fall short, as many packets as they give."""
    units = list(_by_month(row, people))
    fit = _longest_fit(row, units, bolts)
    served = Counter(key for key, _person in units[:fit])
    theirs = sorted((unit for unit in units if unit[1]), key=lambda unit: (unit[1], unit[0]))
    whole = _longest_fit(row, theirs, bolts) if fit < len(units) else len(theirs)
    cut_short = {person for _key, person in theirs[whole:]}
    return Arrival(
        row=row,
        bolts=tuple(bolts),
        served=served,
        laid=_lay(row, served, bolts),
        left_out=tuple(_missed(units[fit:], people)),
        people=len({person for _key, person in theirs}),
        whole_year=len({person for _key, person in theirs} - cut_short),
    )


def _missed(units: Iterable[Unit], people: Iterable[SignUp]) -> Iterator[Unit]:
    """List people's packets, an earlier one under the installment with which its person begins."""
    begins = {each.number: each.first_installment for each in people}
    for (number, colorway), person in units:
        if person:
            yield (max(number, begins[person]), colorway), person


def stops_of(arrivals: Iterable[Arrival]) -> dict[int, int]:
    """Give over all fabrics the first installment that a person cannot have whole, by number on the list."""
    found: dict[int, int] = {}
    for person, number in chain.from_iterable(each.stops.items() for each in arrivals):
        found[person] = min(number, found.get(person, number))
    return found


def lacking(terms: Terms, number: int) -> dict[int, tuple[Fabric, ...]]:
    """Give the fabrics that packets of an installment lack after a short delivery, by number on the list.

    Empty before bolts are checked in.  LongerThanBolt and ProgramError as `order_of`.
    """
    if not Bolt.objects.filter(line__order__terms=terms).exists():
        return {}
    found: dict[int, tuple[Fabric, ...]] = {}
    for each in arrivals_of(order_of(terms)).values():
        for (month, _colorway), person in each.left_out:
            if month == number:
                found[person] = (*found.get(person, ()), each.row.fabric)
    return found


def served_cuts(row: OrderRow, served: Mapping[Key, int], *, number: int | None = None) -> Counter[Fraction]:
    """Count the cuts of the packets that are served, of the year or of one installment."""
    cuts: Counter[Fraction] = Counter()
    for need in row.needs:
        if number in {None, need.number}:
            cuts[need.length] += cuts_for(served.get((need.number, need.colorway.pk), 0), need.line)
    return +cuts


def _people(order: Order) -> list[SignUp]:
    return list(SignUp.objects.with_packet().filter(terms=order.terms).order_by("number"))


def _by_month(row: OrderRow, people: Sequence[SignUp]) -> Iterator[Unit]:
    """List every packet of the fabric: people's by installment and number, then the others'.

    Who begins later has a share in an earlier packet that holds fabric for later installments.
    """
    room = {(need.number, need.colorway.pk): need.counts.packets for need in row.needs}
    last = {number: number for number in row.numbers}
    for need in row.needs:
        last[need.number] = max(last[need.number], *need.line.kept_for, 0)
    for number in row.numbers:
        for person in people:
            key = number, person.colorway_id
            if room.get(key) and person.first_installment <= last[number]:
                room[key] -= 1
                yield key, person.number
    for key, others in sorted(room.items()):
        yield from repeat((key, 0), others)


def _longest_fit(row: OrderRow, units: Sequence[Unit], bolts: Sequence[Bolt]) -> int:
    """Find how many packets of the list, from its beginning, the bolts give."""

    def fits(count: int) -> bool:
        return _lay(row, Counter(key for key, _person in units[:count]), bolts).complete

    if fits(len(units)):
        return len(units)
    low, high = 0, len(units)  # `low` fit, `high` do not
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def _lay(row: OrderRow, served: Mapping[Key, int], bolts: Sequence[Bolt]) -> Assignment:
    cuts, end_loss = served_cuts(row, served), row.offer.end_loss
    lengths = {bolt.name: bolt.length for bolt in bolts}
    key = hash_of([sorted(map(str, cuts.items())), sorted(map(str, lengths.items())), str(end_loss)])
    return _laid.get(key, lambda: assign_bolts(cuts, bolts=lengths, end_loss=end_loss))
