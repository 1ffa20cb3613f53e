"""What the page of the fabric order says, gathered for its template and its file."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from bom.domain.tables import Table
from patterns.engine.measure import YARD, write_inches
from shops.domain.buying_less import bolts_to_buy, price_of, signed
from shops.domain.head_count import is_out_of_date
from shops.domain.order_risk import ordering_less
from shops.domain.substitute_orders import still_to_order
from shops.web.shop_words import cloth_of, cut_html, hatches_of, left_html, letters_text, stock_html, units_at

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.utils.safestring import SafeString

    from bom.domain.tables import Cell
    from patterns.engine.hatches import Cloth
    from patterns.engine.measure import Units
    from shops.domain.orders import Order, OrderRow
    from shops.models import FabricOrder, OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class RowView:
    """One fabric as the page shows it: bolts and price as sent, once the order is sent."""

    row: OrderRow
    cloth: Cloth
    note: str
    numbers: str
    longest: SafeString
    left_over: SafeString | None  # rounded down to what is sold; None where less than every seat is bought
    left_exact: SafeString
    bolts: int
    price: Decimal | None
    shorter: int | None  # bolts, when one is a yard shorter and that makes one more necessary


def order_page(order: Order, sent: FabricOrder | None) -> dict[str, Any]:
    """Gather the page of an order, or of an order as sent."""
    units, hatches = units_at(order.terms), hatches_of(order.terms.program)
    lines = {line.fabric_id: line for line in sent.lines.all()} if sent else {}
    buy = bolts_to_buy(order)
    rows = [
        _view(row, lines.get(row.fabric.pk), bolts=buy[row.fabric.pk], hatches=hatches, units=units)
        for row in order.rows
    ]
    return {
        "order": order,
        "rows": rows,
        "sent": sent,
        "is_out_of_date": sent is not None and is_out_of_date(sent),
        "bolts": sum(view.bolts for view in rows),
        "total": sum((view.price for view in rows if view.price is not None), start=Decimal(0)),
        "hangs": [view for view in rows if view.row.hangs and view.left_over is not None],
        "less": ordering_less(order) if order.rows and not sent else None,
        "signed": signed(order.terms),
        "to_add": still_to_order(order),
        "bolt_lengths": sorted({row.offer.bolt_length for row in order.rows}),
        "yard": YARD,
    }


def seen_text(order: Order) -> str:
    """Say in short what was shown, so that nothing else is ordered."""
    bolts = bolts_to_buy(order)
    return f"{order.people}/{sum(bolts.values())}/{price_of(order, bolts)}"


def order_table(order: Order, sent: FabricOrder | None) -> Table:
    """Give the order as a table for a file; lengths in inches, exact."""
    heads = (
        _("fabric"), _("number"), _("letters"), _("installments"), _("seats"), _("spares"),
        _("first packets"), _("samples"), _("packets"), _("cuts, inches"), _("bolts"),
        _("length of a bolt, inches"), _("left over, inches"),
        _("price, {currency}").format(currency=order.terms.shop.currency),
    )  # fmt: skip
    buy = bolts_to_buy(order)
    lines = {line.fabric_id: line for line in sent.lines.all()} if sent else {}
    program, shop = order.terms.program, order.terms.shop
    return Table(
        name=f"{program.slug}-{shop.slug}-order",
        title=_("Fabric order"),
        lead=_("{shop}: {program}").format(shop=shop.name, program=program.title),
        heads=heads,
        rows=tuple(_file_row(row, lines.get(row.fabric.pk), buy[row.fabric.pk]) for row in order.rows),
        language=program.language,
    )


def _view(
    row: OrderRow, line: OrderLine | None, *, bolts: int, hatches: Mapping[str, int], units: Units
) -> RowView:
    note = [letters_text(row.letters)]
    if row.backings:
        note.append(_("{count} lengths are backing").format(count=row.backings))
    if not row.plan.proven:
        note.append(_("not proven to be the fewest"))
    return RowView(
        row=row,
        cloth=cloth_of(row.fabric, row.letters, hatches),
        note="; ".join(each for each in note if each),
        numbers=numbers_text(row.numbers),
        longest=cut_html(row.longest, units),
        left_over=left_html(row.plan.left_over, units) if bolts == row.bolts else None,
        left_exact=stock_html(row.plan.left_over, units),
        bolts=line.bolts if line else bolts,
        price=_price(row, line, bolts),
        shorter=row.bolts + 1 if row.hangs else None,
    )


def numbers_text(numbers: tuple[int, ...]) -> str:
    """Say installments, runs of three and more in short: "1 to 5, 7"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(_run(run) for run in runs)


def _run(run: list[int]) -> str:
    if len(run) <= 2:  # noqa: PLR2004 -- two numbers are shorter than "1 to 2"
        return ", ".join(map(str, run))
    return _("{first} to {last}").format(first=run[0], last=run[-1])


def _price(row: OrderRow, line: OrderLine | None, bolts: int) -> Decimal | None:
    if line is not None:
        return line.bolts * line.price_per_bolt
    return bolts * row.offer.price_per_bolt if row.is_priced else None


def _file_row(row: OrderRow, line: OrderLine | None, bolts: int) -> tuple[Cell, ...]:
    cuts = "; ".join(f"{count} x {write_inches(length)}" for length, count in row.cuts)
    counts = row.counts
    return (
        row.fabric.name, row.fabric.number, " ".join(row.letters), " ".join(map(str, row.numbers)),
        counts.seats, counts.spares, counts.first_packets, counts.samples, counts.packets, cuts,
        line.bolts if line else bolts,
        line.bolt_length if line else row.offer.bolt_length,
        row.plan.left_over, _price(row, line, bolts),
    )  # fmt: skip
