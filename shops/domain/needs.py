"""What a shop has to cut: one line for each installment, colorway and fabric, and for how many packets."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.packets import packet
from bom.domain.records import read_colorways
from shops.domain.own_colorways import own_colorways
from shops.domain.steps_of_sale import at_shop
from shops.models import SignUp

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from fractions import Fraction

    from bom.domain.packets import FabricLine
    from bom.models import Program
    from patterns.models import Colorway
    from shops.models import Terms


@dataclass(frozen=True, slots=True, kw_only=True)
class Counts:
    """Packets, by what they are for."""

    seats: int = 0
    spares: int = 0
    first_packets: int = 0
    samples: int = 0

    @property
    def packets(self) -> int:
        """Add all of them up."""
        return self.seats + self.spares + self.first_packets + self.samples

    def __add__(self, other: Counts) -> Counts:
        return Counts(
            seats=self.seats + other.seats,
            spares=self.spares + other.spares,
            first_packets=self.first_packets + other.first_packets,
            samples=self.samples + other.samples,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """One fabric of the packets of one installment and colorway, and how many packets there are."""

    number: int
    colorway: Colorway
    line: FabricLine
    counts: Counts

    @property
    def length(self) -> Fraction:
        """Give the inches of one cut of full-width fabric, the shop's tolerance in."""
        return self.line.line.cut_length

    @property
    def cuts(self) -> int:
        """Count the whole cuts: one serves `per_cut` packets."""
        return cuts_for(self.counts.packets, self.line)


def cuts_for(packets: int, line: FabricLine) -> int:
    """Count the cuts for so many packets, the last one begun counted whole."""
    return -(-packets // line.line.per_cut)


def seats_of(terms: Terms) -> dict[str, int]:
    """Give the seats with a packet by colorway: as frozen, or else as they stand; never who waits."""
    if terms.head_count_is_frozen:
        return {slug: int(seats) for slug, seats in terms.frozen_seats.items()}
    taken = SignUp.objects.with_packet().filter(terms=terms).values_list("colorway__slug", flat=True)
    return dict(Counter(taken))


def counts_of(terms: Terms, seats: int) -> Counts:
    """Add to the seats of a colorway the terms' spares, first packets and samples."""
    return Counts(seats=seats, spares=terms.spares, first_packets=terms.first_packets, samples=terms.samples)


def needs_of(
    terms: Terms, seats: Mapping[str, int], *, numbers: Iterable[int] | None = None
) -> tuple[Need, ...]:
    """List the needs of the year, or of some installments, installment by installment.

    A colorway that nobody has a packet in is not ordered.  Spares, first packets and samples are of
    one colorway, since a packet of another cannot stand in.  ProgramError where the program cannot
    be worked out.  Where the shop substitutes a fabric, its packets hold that one; they
    are rounded up to the step by which it sells.
    """
    program: Program = terms.program
    work = work_of(program)
    wanted = [each.number for each in work.installments] if numbers is None else list(numbers)
    colorways = [each for each in read_colorways(program) if seats.get(each.slug)]
    own = own_colorways(terms)
    return tuple(
        Need(
            number=number,
            colorway=colorway,
            line=at_shop(line, terms),
            counts=counts_of(terms, seats[colorway.slug]),
        )
        for number in wanted
        for colorway in colorways
        for line in packet(program, work, own.at(colorway, number), number).lines
    )
