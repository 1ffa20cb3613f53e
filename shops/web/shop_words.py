"""Words and pictures that the shop's pages share."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.wording import fabric_text, length_text, measure_html
from patterns.engine.hatches import Cloth
from patterns.engine.measure import CENTIMETRE, EIGHTH_YARD, YARD, Units
from shops.domain.steps_of_sale import sells_metric

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date
    from fractions import Fraction

    from django.utils.safestring import SafeString

    from bom.models import Installment, Program
    from patterns.models import Fabric
    from shops.models import Terms


FIVE_CM = 5 * CENTIMETRE


def shop_page(terms: Terms, section: str, **context: Any) -> dict[str, Any]:
    """Give the context of a page of a shop; days are days of the shop's zone."""
    shop = terms.shop
    return {
        "terms": terms,
        "shop": shop,
        "program": terms.program,
        "section": section,
        "zone": shop.zone,
        "today": today_of(terms),
        **context,
    }


def today_of(terms: Terms) -> date:
    """Give the day that it is at the shop."""
    return timezone.now().astimezone(ZoneInfo(terms.shop.zone)).date()


def units_of(program: Program) -> Units:
    """Give the units a shop reads: those that the quilt is made in."""
    return Units.CENTIMETRES if program.centimetres else Units.INCHES


def units_at(terms: Terms) -> Units:
    """Give the units a shop cuts by: those of the program, or centimetres where its step is of them."""
    return Units.CENTIMETRES if sells_metric(terms) else units_of(terms.program)


def cut_html(length: Fraction, units: Units) -> SafeString:
    """Set a length to cut: 9 1/2 in, or centimetres."""
    return measure_html(length_text(length, units))


def stock_text(length: Fraction, units: Units) -> str:
    """Say a length of cloth on a bolt: "14 yd 20 in", or metres rounded down to 5 cm."""
    if units != Units.INCHES:
        return fabric_text(_down(length, FIVE_CM), Units.METRIC_PURCHASE)
    yards, rest = divmod(length, YARD)
    words = ([_("{yards} yd").format(yards=yards)] if yards else []) + ([length_text(rest)] if rest else [])
    return " ".join(words) or length_text(rest)


def stock_html(length: Fraction, units: Units) -> SafeString:
    """Set a length of cloth on a bolt."""
    return measure_html(stock_text(length, units))


def left_html(length: Fraction, units: Units) -> SafeString:
    """Set what is left over of many bolts, rounded down to 1/8 yd or 5 cm; as it is where it is less."""
    whole = _down(length, EIGHTH_YARD if units == Units.INCHES else FIVE_CM)
    return measure_html(fabric_text(whole, units)) if whole else cut_html(length, units)


def _down(length: Fraction, step: Fraction) -> Fraction:
    return length - length % step


def cloth_of(fabric: Fabric, letters: tuple[str, ...], hatches: Mapping[str, int]) -> Cloth:
    """Give the cloth of a fabric with the letter it comes first under."""
    letter = letters[0]
    return Cloth(letter, fabric.colour, hatches.get(letter, 0), fabric.name)


def hatches_of(program: Program) -> dict[str, int]:
    """Give the hatch of every letter of the quilt."""
    return dict(program.quilt.letters.values_list("letter", "hatch"))


def letters_text(letters: tuple[str, ...]) -> str:
    """Say the letters of a fabric that stands for several; nothing for one, since its picture says it."""
    return _("letters {letters}").format(letters=", ".join(letters)) if len(letters) > 1 else ""


def packets_text(count: int) -> str:
    """Say a number of packets."""
    return ngettext("{count} packet", "{count} packets", count).format(count=count)


def thumbs(
    installments: list[Installment], current: int, *, addresses: Mapping[int, str]
) -> list[dict[str, Any]]:
    """Give the thumb index of the installments."""
    return [
        {
            "number": each.number,
            "title": each.title,
            "url": addresses[each.number],
            "current": each.number == current,
        }
        for each in installments
    ]
