"""The yardage of a program as tables: the year's needs by fabric, and every packet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.chain import work_of
from bom.domain.lengths import units_of
from bom.domain.packets import packets, year
from bom.domain.records import read_colorways
from bom.domain.tables import Table
from patterns.domain.wording import fabric_text
from patterns.engine.measure import Units

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bom.domain.packets import Packet
    from bom.domain.tables import Cell
    from bom.models import Program


def year_table(program: Program) -> Table:
    """List what one participant's year needs of each fabric, by colorway; ProgramError as the chain."""
    heads = (
        _("colorway"), _("fabric"), _("number"), _("letters"), _("pieces"), _in(_("minimum"), program),
        _in(_("in the packets"), program), _("in the packets, as sold"), _in(_("of it finishing"), program),
    )  # fmt: skip
    lead = _("{title}: one participant, the whole year").format(title=program.title)
    return Table(
        name=f"{program.slug}-yardage",
        title=_("Yardage of the year"),
        lead=lead,
        heads=heads,
        rows=tuple(_year_rows(program)),
        units=units_of(program),
        language=program.language,
    )


def packets_table(program: Program) -> Table:
    """List every fabric of every packet, by colorway; ProgramError as the chain."""
    heads = (
        _("colorway"), _("installment"), _("title"), _("letters"), _("fabric"), _("number"),
        _in(_("minimum"), program), _in(_("in the packet"), program), _("as sold"),
        _in(_("the shop cuts"), program), _("grams"), _("also for installment"),
    )  # fmt: skip
    lead = _("{title}: one participant, packet by packet").format(title=program.title)
    return Table(
        name=f"{program.slug}-packets",
        title=_("Packets"),
        lead=lead,
        heads=heads,
        rows=tuple(_packet_rows(program)),
        units=units_of(program),
        language=program.language,
    )


def unit_word(units: Units) -> str:
    """Name the unit of a column of lengths."""
    return _("cm") if units == Units.CENTIMETRES else _("in")


def _in(words: str, program: Program) -> str:
    return f"{words}, {unit_word(units_of(program))}"


def _year_rows(program: Program) -> Iterator[tuple[Cell, ...]]:
    work, units = work_of(program), units_of(program)
    for colorway in read_colorways(program):
        for line in year(program, work, colorway):
            yield (
                colorway.name, line.fabric.name, line.fabric.number, " ".join(line.letters), line.pieces,
                line.minimum, line.suggested, fabric_text(line.suggested, units), line.finishing or None,
            )  # fmt: skip


def _packet_rows(program: Program) -> Iterator[tuple[Cell, ...]]:
    work, units = work_of(program), units_of(program)
    titles = {each.number: each.title for each in work.installments}
    for colorway in read_colorways(program):
        for packet in packets(program, work, colorway):
            yield from _lines(packet, titles[packet.number], units)


def _lines(packet: Packet, title: str, units: Units) -> Iterator[tuple[Cell, ...]]:
    for line in packet.lines:
        yield (
            packet.colorway.name, packet.number, title, " ".join(line.letters), line.fabric.name,
            line.fabric.number, line.line.minimum, line.line.suggested, line.line.bought(units),
            line.line.cut_length, line.weight_grams, ", ".join(map(str, line.kept_for)),
        )  # fmt: skip
