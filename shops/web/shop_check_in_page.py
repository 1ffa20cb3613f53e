"""What the pages of the check-in say, gathered for their templates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.wording import fractions_html, length_text
from shops.domain.arrivals import stops_of
from shops.models import SignUp
from shops.web.shop_words import cloth_of, hatches_of, stock_html, units_at

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.utils.safestring import SafeString

    from patterns.engine.bolts import BoltCuts
    from patterns.engine.hatches import Cloth
    from patterns.engine.measure import Units
    from shops.domain.arrivals import Arrival
    from shops.domain.orders import Order, OrderRow
    from shops.models import FabricOrder, OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class CameRow:
    """One fabric of the order: what was ordered, what came, and what that gives."""

    cloth: Cloth
    line: OrderLine
    arrival: Arrival | None
    length: SafeString
    lots: str
    words: str
    is_bad: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ServedRow:
    """One person whose year is cut short: the last installment that is whole, 0 for none."""

    sign_up: SignUp
    until: int


def overview_page(order: Order, sent: FabricOrder, came: Mapping[int, Arrival]) -> dict[str, Any]:
    """Gather all fabrics of the sent order, and the people whom the bolts do not serve to the end."""
    units, hatches = units_at(order.terms), hatches_of(order.terms.program)
    rows = {row.fabric.pk: row for row in order.rows}
    views = [
        _row(line, rows[line.fabric_id], came.get(line.fabric_id), hatches=hatches, units=units)
        for line in sent.lines.all()
        if line.fabric_id in rows
    ]
    stops = stops_of(came.values())
    people = SignUp.objects.with_packet().filter(terms=order.terms).select_related("colorway")
    short = [each for each in views if each.arrival and each.arrival.missing]
    return {
        "rows": sorted(views, key=lambda view: (len(view.cloth.letter), view.cloth.letter)),
        "is_whole": len(came) == len(views),
        "served": [
            ServedRow(sign_up=each, until=stops[each.number] - 1)
            for each in people.order_by("number")
            if each.number in stops
        ],
        "whole_year": people.exclude(number__in=stops).count(),
        "short": [(each, each.arrival) for each in short],
    }


def arrival_page(came: Arrival, units: Units) -> dict[str, Any]:
    """Gather what the bolts of one fabric give, bolt by bolt: name, length, cuts, what is left."""
    laid = sorted(came.laid.bolts, key=lambda bolt: int(bolt.name))
    return {
        "came": came,
        "words": _words(came),
        "bolts": [
            (
                bolt.name,
                stock_html(bolt.length, units),
                _cuts(bolt, units),
                stock_html(bolt.left_over, units),
            )
            for bolt in laid
        ],
    }


def _row(
    line: OrderLine, row: OrderRow, came: Arrival | None, *, hatches: Mapping[str, int], units: Units
) -> CameRow:
    return CameRow(
        cloth=cloth_of(row.fabric, row.letters, hatches),
        line=line,
        arrival=came,
        length=stock_html(came.length, units) if came else stock_html(line.bolts * line.bolt_length, units),
        lots=", ".join(came.lots) if came else "",
        words=_words(came) if came else _("not checked in yet"),
        is_bad=came is not None and (came.missing > 0 or len(came.lots) > 1),
    )


def _words(came: Arrival) -> str:
    """Say what the bolts give, and that a second dye lot is among them."""
    said = [_("every cut of the year")]
    if came.missing:
        words = ngettext("{count} cut is missing", "{count} cuts are missing", came.missing)
        said = [words.format(count=came.missing)]
    if len(came.lots) > 1:
        said.append(_("{count} dye lots: keep each person to one").format(count=len(came.lots)))
    return "; ".join(said)


def _cuts(bolt: BoltCuts, units: Units) -> SafeString:
    words = _("{count} of {length}")
    said = (words.format(count=count, length=length_text(length, units)) for length, count in bolt.cuts)
    return fractions_html(", ".join(said) or _("none"))
