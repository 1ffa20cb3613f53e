"""Packets: what fabric one participant gets for one installment in one colorway."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fractions import Fraction

    from bom.domain.work import ProgramWork
    from bom.models import Program
    from patterns.engine.steps import Piece
    from patterns.engine.yardage import PacketLine
    from patterns.models import Colorway, Fabric


@dataclass(frozen=True, slots=True, kw_only=True)
class FabricLine:
    """One fabric of a packet: planned and packed by fabric, labelled by letter.

    `pieces` keep the ids of their letter (A1, B1).  `line` holds form, minimum and suggested inches,
    what is bought and the strip plan.  Weight is of the suggested cut, nominal width, in grams.
    `is_backing` lines are lengths of fabric, never cut into strips.
    """

    fabric: Fabric
    letters: tuple[str, ...]
    pieces: tuple[Piece, ...]
    line: PacketLine
    weight_grams: int
    is_backing: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet:
    """The packet of one installment in one colorway, its fabrics in the order of their first letter."""

    number: int
    colorway: Colorway
    lines: tuple[FabricLine, ...]

    @property
    def weight_grams(self) -> int:
        """Sum the fabrics; paper and bag not included."""
        return sum(line.weight_grams for line in self.lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class YearLine:
    """One fabric over all installments: pieces, and inches of the packets' lines added up."""

    fabric: Fabric
    letters: tuple[str, ...]
    pieces: int
    minimum: Fraction
    suggested: Fraction


def packet(program: Program, work: ProgramWork, colorway: Colorway, number: int) -> Packet:
    """Work out one packet.  ProgramError names the letter that has no fabric in this colorway."""
    raise NotImplementedError


def packets(program: Program, work: ProgramWork, colorway: Colorway) -> tuple[Packet, ...]:
    """Work out the packet of every installment, in order."""
    return tuple(packet(program, work, colorway, each.number) for each in work.installments)


def year(program: Program, work: ProgramWork, colorway: Colorway) -> tuple[YearLine, ...]:
    """Add the packets up, fabric by fabric."""
    raise NotImplementedError
