"""Cutting day: the cuts of one installment, one cloth at a time, on the bolts of the order.

The bolts are those that were checked in, else those of the order's plan, each cut in the order of the
installments: what earlier months took of a bolt is gone when a later month comes.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain.editions import newest_edition
from bom.errors import WrongState
from shops.domain.arrivals import Arrival, arrivals_of, served_cuts
from shops.domain.needs import Counts
from shops.domain.orders import order_of
from shops.domain.packet_editions import note_cut
from shops.models import CutCount

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from bom.domain.packets import FabricLine
    from bom.models import Installment
    from patterns.engine.bolts import BoltCuts
    from patterns.models import Fabric
    from shops.domain.orders import Order, OrderRow
    from shops.models import Terms

Cuts = tuple[Fraction, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltToCut:
    """One bolt on this day, inches: cut in earlier months, to cut today, the longest first."""

    name: str
    length: Fraction
    before: Cuts
    today: Cuts
    is_measured: bool = False  # checked in, not only ordered

    @property
    def cuts(self) -> Cuts:
        """Give all cuts from the free end, those of earlier months first."""
        return self.before + self.today


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One cloth: what is cut of it today, from which bolts, and how many cuts are made.

    `lines` holds each length once with the packet line that asks for it, in the order of cutting.
    """

    fabric: Fabric
    letters: tuple[str, ...]
    lines: tuple[tuple[FabricLine, int], ...]
    bolts: tuple[BoltToCut, ...]
    end_loss: Fraction
    made: int

    @property
    def total(self) -> int:
        """Count the cuts of today."""
        return sum(number for _line, number in self.lines)

    @property
    def is_done(self) -> bool:
        """Whether every cut is made."""
        return self.made >= self.total

    @property
    def current(self) -> BoltToCut:
        """Give the bolt that the next cut comes from; the last one when all is done."""
        return self._at[0]

    @property
    def done_on_current(self) -> int:
        """Count the cuts made on that bolt, those of earlier months too."""
        bolt, done = self._at
        return len(bolt.before) + done

    @property
    def _at(self) -> tuple[BoltToCut, int]:
        """Give the bolt of the next cut, and how many of today's cuts are made on it."""
        done = min(self.made, self.total)
        for bolt in self.bolts:
            if done < len(bolt.today):
                return bolt, done
            done -= len(bolt.today)
        return self.bolts[-1], len(self.bolts[-1].today)


@dataclass(frozen=True, slots=True, kw_only=True)
class CuttingDay:
    """All that a shop cuts for one installment; packets by colorway slug.

    `short` names the fabrics whose bolts fell short, and how many of today's cuts they do not give.
    """

    terms: Terms
    installment: Installment
    packets: Mapping[str, Counts]
    jobs: tuple[Job, ...]
    bags: tuple[tuple[str, tuple[FabricLine, ...]], ...]  # colorway name -> what goes into each bag
    short: tuple[tuple[Fabric, int], ...] = ()

    @property
    def counts(self) -> Counts:
        """Add the packets of all colorways up."""
        return sum(self.packets.values(), start=Counts())

    @property
    def made(self) -> int:
        """Count the cuts that are made."""
        return sum(min(job.made, job.total) for job in self.jobs)

    @property
    def total(self) -> int:
        """Count all cuts."""
        return sum(job.total for job in self.jobs)

    @property
    def first_cuts_made(self) -> bool:
        """Whether every cloth has been begun, so that the first packet is there."""
        return all(job.made for job in self.jobs)


def cutting_day(terms: Terms, installment: Installment) -> CuttingDay:
    """Work out what is cut for one installment: every packet of every colorway that somebody takes."""
    order = order_of(terms)
    came = arrivals_of(order)
    made = dict(
        CutCount.objects.filter(terms=terms, installment=installment).values_list("fabric_id", "made")
    )
    rows = [row for row in order.rows if installment.number in row.numbers]
    jobs = [
        _job(row, installment.number, made=made.get(row.fabric.pk, 0), came=came.get(row.fabric.pk))
        for row in rows
    ]
    return CuttingDay(
        terms=terms,
        installment=installment,
        packets=_packets(rows, installment.number),
        jobs=tuple(job for job in jobs if job.bolts),
        bags=_bags(order, installment.number),
        short=tuple(_short(rows, jobs, installment.number)),
    )


@transaction.atomic
def count_cut(terms: Terms, installment: Installment, *, fabric: Fabric, seen: int, to: int) -> bool:
    """Count one cut more, or take one back: the tally says `seen` and shall say `to`.

    A second click sees what is no longer there and changes nothing: False.  A cut is counted to the
    edition that stands; one taken back is the last that was made.  WrongState beyond the cuts that are to
    be made.  A tally is no verb for the record: it is counted hundreds of times a day.
    """
    jobs = cutting_day(terms, installment).jobs
    total = next((job.total for job in jobs if job.fabric.pk == fabric.pk), 0)
    if not 0 <= to <= total or abs(to - seen) != 1:
        remedy = _("Of {fabric} there are {total} cuts to make, counted one by one.")
        raise WrongState("cuts", remedy, total=total, fabric=fabric.name)
    count = CutCount.objects.get_or_create(terms=terms, installment=installment, fabric=fabric)[0]
    noted = note_cut(count.from_editions, newest_edition(installment), more=to > seen)
    return bool(CutCount.objects.filter(pk=count.pk, made=seen).update(made=to, from_editions=noted))


def _packets(rows: Iterable[OrderRow], number: int) -> dict[str, Counts]:
    needs = (need for row in rows for need in row.needs if need.number == number)
    return {need.colorway.slug: need.counts for need in needs}


def _bags(order: Order, number: int) -> tuple[tuple[str, tuple[FabricLine, ...]], ...]:
    found: dict[str, list[FabricLine]] = {}
    for need in (need for row in order.rows for need in row.needs if need.number == number):
        found.setdefault(need.colorway.name, []).append(need.line)
    return tuple((name, tuple(sorted(lines, key=lambda line: line.letters))) for name, lines in found.items())


def _job(row: OrderRow, number: int, *, made: int, came: Arrival | None) -> Job:
    cuts = _cuts_of_month(row, number, came)
    needs = sorted((need for need in row.needs if need.number == number), key=lambda need: -need.length)
    lines = {need.length: (need.line, cuts[need.length]) for need in reversed(needs) if cuts[need.length]}
    return Job(
        fabric=row.fabric,
        letters=row.letters,
        lines=tuple(lines[length] for length in sorted(lines, reverse=True)),
        bolts=bolts_today(row, number, came=came),
        end_loss=row.offer.end_loss,
        made=made,
    )


def _short(rows: Iterable[OrderRow], jobs: Iterable[Job], number: int) -> Iterator[tuple[Fabric, int]]:
    for row, job in zip(rows, jobs, strict=True):
        missing = sum(need.cuts for need in row.needs if need.number == number) - job.total
        if missing:
            yield row.fabric, missing


def bolts_today(row: OrderRow, number: int, *, came: Arrival | None = None) -> tuple[BoltToCut, ...]:
    """Give the bolts that today's cuts come from, cut month after month."""
    bolts = _one_by_one(came.laid.bolts if came else row.plan.bolts)
    rooms = [Counter(dict(bolt.cuts)) for bolt in bolts]
    months = [_cut_month(_cuts_of_month(row, month, came), rooms) for month in row.numbers if month <= number]
    before, today = months[:-1], months[-1] if number in row.numbers else {}
    return tuple(
        BoltToCut(
            name=f"{row.letters[0]}-{bolt.name or place + 1}",
            length=bolt.length,
            before=tuple(cut for month in before for cut in month.get(place, ())),
            today=tuple(today[place]),
            is_measured=came is not None,
        )
        for place, bolt in enumerate(bolts)
        if place in today
    )


def _cuts_of_month(row: OrderRow, number: int, came: Arrival | None) -> Counter[Fraction]:
    """Count one month's cuts: of every packet, or of those that the bolts that came can serve."""
    if came:
        return served_cuts(row, came.served, number=number)
    wanted = Counter[Fraction]()
    for need in (need for need in row.needs if need.number == number):
        wanted[need.length] += need.cuts
    return wanted


def _cut_month(wanted: Counter[Fraction], rooms: list[Counter[Fraction]]) -> dict[int, list[Fraction]]:
    """Take one month's cuts from the bolts' rooms, the longest first; give them by the bolt's place."""
    wanted = wanted.copy()
    taken: dict[int, list[Fraction]] = {}
    for length in sorted(wanted, reverse=True):
        while wanted[length]:
            place = _next_bolt(rooms, length, wanted[length])
            count = min(rooms[place][length], wanted[length])
            rooms[place][length] -= count
            wanted[length] -= count
            taken.setdefault(place, []).extend([length] * count)
    return taken


def _next_bolt(rooms: list[Counter[Fraction]], length: Fraction, wanted: int) -> int:
    """Choose the fullest use: the bolt with the least room that serves all, else the one with the most."""
    enough = [place for place, room in enumerate(rooms) if room[length] >= wanted]
    if enough:
        return min(enough, key=lambda place: (rooms[place][length], place))
    return max(range(len(rooms)), key=lambda place: (rooms[place][length], -place))


def _one_by_one(bolts: Iterable[BoltCuts]) -> list[BoltCuts]:
    return [bolt for bolt in bolts for _ in range(bolt.repeat)]
