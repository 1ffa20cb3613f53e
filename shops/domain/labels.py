"""One label for each packet of an installment: who or what it is for, and what is in it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain, count, repeat
from typing import TYPE_CHECKING

from shops.domain.opening_box import opening_boxes
from shops.domain.pick_ups import takes_packet
from shops.enums import PacketFor

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bom.domain.packets import FabricLine
    from shops.domain.cutting_day import CuttingDay
    from shops.domain.needs import Counts
    from shops.domain.opening_box import Box
    from shops.models import SignUp

For = tuple[PacketFor, "SignUp | None"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelledPacket:
    """One packet; `number` counts all packets of the installment from 1, `sign_up` only a person's.

    `box` is what the first packet of somebody who begins now holds besides.
    """

    number: int
    kind: PacketFor
    sign_up: SignUp | None
    colorway: str
    lines: tuple[FabricLine, ...]
    box: Box = ()

    @property
    def all_lines(self) -> tuple[FabricLine, ...]:
        """Give what lies in it, the opening box last."""
        return (*self.lines, *(line for _number, line in self.box))

    @property
    def numbers(self) -> tuple[int, ...]:
        """Number the earlier packets that the opening box is of."""
        return tuple(sorted({number for number, _line in self.box}))

    @property
    def kept_for(self) -> tuple[int, ...]:
        """Number the later installments that its fabric is for, too."""
        return tuple(sorted({number for line in self.all_lines for number in line.kept_for}))


def labelled_packets(day: CuttingDay) -> tuple[LabelledPacket, ...]:
    """List the packets of a day, colorway by colorway: people by number, then first, window, spare.

    A packet whose person has left, or joins later, is a spare; who was seated after the head-count was
    frozen gets one of the spares.  A colorway that is not cut has no labels.  Two queries, save where
    somebody begins with carried fabric.
    """
    people = _people(day)
    boxes = opening_boxes(day.terms, day.installment, chain.from_iterable(people.values()))
    bags = dict(day.bags)
    numbers = count(1)
    return tuple(
        LabelledPacket(
            number=next(numbers),
            kind=kind,
            sign_up=sign_up,
            colorway=colorway.name,
            lines=bags[colorway.name],
            box=boxes.get(sign_up.number, ()) if sign_up else (),
        )
        for colorway in day.terms.program.quilt.colorways.order_by("position", "slug")
        if colorway.slug in day.packets
        for kind, sign_up in _for(people.get(colorway.slug, []), day.packets[colorway.slug])
    )


def _for(people: Sequence[SignUp], counts: Counts) -> Iterator[For]:
    spares = max(0, counts.seats + counts.spares - len(people))
    return chain(
        ((PacketFor.PERSON, each) for each in people),
        repeat((PacketFor.FIRST, None), counts.first_packets),
        repeat((PacketFor.SAMPLE, None), counts.samples),
        repeat((PacketFor.SPARE, None), spares),
    )


def _people(day: CuttingDay) -> dict[str, list[SignUp]]:
    """Give who gets a packet of the installment, by colorway, in the order of their numbers."""
    found: dict[str, list[SignUp]] = {}
    for each in day.terms.sign_ups.select_related("colorway").order_by("number"):
        if takes_packet(each, day.installment):
            found.setdefault(each.colorway.slug, []).append(each)
    return found
