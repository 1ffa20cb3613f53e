"""Packets and strip plans of an installment, as rows and pictures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.cloth import cloths_of
from bom.domain.cut_sources import fabric_key
from bom.domain.lengths import units_of
from bom.domain.packets import allowances_of, packet
from bom.domain.strip_proofs import note, note_packets
from patterns.domain.pictures import strip_plan_svg
from patterns.domain.strip_words import near_words, proof_words
from patterns.domain.wording import fractions_html, length_text
from patterns.engine.yardage import FabricForm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.utils.safestring import SafeString

    from bom.domain.packets import FabricLine, Packet
    from bom.domain.work import ProgramWork
    from bom.models import Program
    from patterns.engine.hatches import Cloth, Cloths
    from patterns.engine.measure import Units
    from patterns.models import Colorway

PLAN_PX = 760


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketLineRow:
    """One fabric of a packet: swatch, letters, minimum, what is bought, weight."""

    cloth: Cloth
    letters: str
    minimum: SafeString
    suggested: SafeString
    bought: SafeString
    grams: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketRow:
    """The packet of one colorway."""

    colorway: Colorway
    lines: list[PacketLineRow]
    grams: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    """A strip plan to scale, and what it says."""

    title: str
    picture: SafeString
    words: SafeString
    key: str  # of the cut list, for the page of strip plans


def packet_rows(
    program: Program, work: ProgramWork, colorways: Sequence[Colorway], *, number: int
) -> list[PacketRow]:
    """List the packets of one installment, colorway by colorway."""
    units, listed = units_of(program), [packet(program, work, each, number) for each in colorways]
    note_packets(listed)
    return [_packet(each, cloths_of(each.colorway), units) for each in listed]


def plan_rows(fabric: Packet, cloths: Cloths, program: Program) -> list[PlanRow]:
    """Draw the strip plan of every fabric that is cut into strips."""
    return [
        _plan(line, cloths[line.letters[0]], program, key=fabric_key(fabric.number, fabric.colorway, line))
        for line in fabric.lines
        if line.line.plan
    ]


def bought_words(line: FabricLine, units: Units) -> str:
    """Say what is in the packet: "3/8 yd, 13 1/2 in"."""
    bought = line.line.bought(units)
    if line.line.form != FabricForm.LENGTH:
        return _(bought)
    length = length_text(line.line.suggested, units)
    return bought if bought == length else f"{bought}, {length}"


def _packet(fabric: Packet, cloths: Cloths, units: Units) -> PacketRow:
    lines = [
        PacketLineRow(
            cloth=cloths[line.letters[0]],
            letters=", ".join(line.letters),
            minimum=fractions_html(length_text(line.line.minimum, units)),
            suggested=fractions_html(length_text(line.line.suggested, units)),
            bought=fractions_html(bought_words(line, units)),
            grams=line.weight_grams,
        )
        for line in fabric.lines
    ]
    return PacketRow(colorway=fabric.colorway, lines=lines, grams=fabric.weight_grams)


def _plan(line: FabricLine, cloth: Cloth, program: Program, *, key: str) -> PlanRow:
    plan = line.line.plan
    if plan is None:
        raise ValueError(f"no plan for {line.fabric}")
    return PlanRow(
        title=f"{', '.join(line.letters)} {line.fabric.name}",
        picture=strip_plan_svg(plan, cloth=cloth, width_px=PLAN_PX, units=units_of(program)),
        words=fractions_html(_plan_words(line, program)),
        key=key,
    )


def _plan_words(line: FabricLine, program: Program) -> str:
    plan, bought = line.line.plan, line.line
    if plan is None:
        return ""
    units = units_of(program)
    words = [
        proof_words(note(plan, line.demands), allowances_of(program), units),
        _("This plan needs {width} of usable width.").format(width=length_text(plan.needs_width, units)),
        _("With its allowances the packet is {bought}; the shop cuts {cut}.").format(
            bought=bought_words(line, units),
            cut=length_text(bought.cut_length, units),
        ),
        *near_words(plan, units),
    ]
    return " ".join(words)
