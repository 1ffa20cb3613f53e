"""The order over all shops as a table for a file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.tables import Table
from patterns.domain.wording import day_text
from shops.web.shop_words import units_of

if TYPE_CHECKING:
    from bom.domain.tables import Cell
    from bom.models import Program
    from patterns.engine.measure import Units
    from shops.domain.program_order import FabricOrderRow, ProgramOrder


def program_order_table(program: Program, found: ProgramOrder) -> Table:
    """Give a row for each fabric, and the sums of the page; lengths are exact, in the program's units."""
    units = units_of(program)
    heads = (
        _("fabric"), _("number"), _("letters"), _("seats"), _("spares"), _("first packets"), _("samples"),
        _("packets"), _("cuts, {unit}").format(unit=_unit(units)), _("bolts"),
        _("bolts, {unit}").format(unit=_unit(units)), _("order by"), _("bolts by shop"),
    )  # fmt: skip
    lead = _("{program}: all shops together, as sent where an order is sent, else as reckoned now.")
    return Table(
        name=f"{program.slug}-order",
        title=_("Order over all shops"),
        lead=lead.format(program=program.title) + _left_out(found),
        heads=heads,
        rows=tuple(_row(row) for row in found.rows),
        units=units,
        language=program.language,
    )


def _row(row: FabricOrderRow) -> tuple[Cell, ...]:
    counts = row.counts
    order_by = _("sent") if row.is_sent else day_text(row.order_by, year=True)
    shops = "; ".join(f"{part.terms.shop.name} {part.bolts}" for part in row.parts)
    return (
        row.fabric.name, row.fabric.number, " ".join(row.letters), counts.seats, counts.spares,
        counts.first_packets, counts.samples, counts.packets, row.needed, row.bolts, row.bought, order_by,
        shops,
    )  # fmt: skip


def _left_out(found: ProgramOrder) -> str:
    """Name the shops that are not in the sums."""
    if not found.left_out:
        return ""
    names = ", ".join(terms.shop.name for terms in found.left_out)
    return " " + _("Not in it, since the order cannot be worked out: {shops}.").format(shops=names)


def _unit(units: Units) -> str:
    return _("cm") if units == units.CENTIMETRES else _("inches")
