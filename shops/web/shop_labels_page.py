"""What the labels of an installment's packets say, and where on the label sheet each of them lies.

Every text is fitted (`bom.domain.sheets.fitting`): shrunk by steps to 6 or 7 points, then cut with an
ellipsis.  Numbers, letters and amounts are never cut.  A text with letters that our fonts lack is left
out; in the place of a person's name stands the number of the seat.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import segno
from django.conf import settings
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import translation
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.sheets.fitting import Face, Fitted, fit, has_letters, width_of
from patterns.domain.pictures import data_uri, swatch_svg
from patterns.domain.wording import fractions_html
from shops.domain.label_stock import EACH_PAGE, LabelStock, stock_of
from shops.enums import PacketFor
from shops.web.shop_cutting_page import bag_amount
from shops.web.shop_words import cloth_of, hatches_of, units_at

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from django.utils.safestring import SafeString

    from bom.domain.packets import FabricLine
    from bom.models import SheetEdition
    from patterns.engine.measure import Units
    from shops.domain.cutting_day import CuttingDay
    from shops.domain.labels import LabelledPacket
    from shops.models import SignUp

# Points.  The words take the width left of the code's column; the rows begin below the rule.  The same
# places stand in bom/static/css/labels.css.
SIDES, HEAD, SWATCH, GAP = 112, 48, 34, 5
CODE, RIGHT_COLUMN, QUIET = 74, 92, 4  # the quiet zone is in modules (ISO/IEC 18004)
ROWS_TOP, FOOT, TALLEST = 50, 7, 16
MOST_ROWS = 9
SWATCH_PX = (40, 18)  # as drawn; it is set as high as its line allows
TITLE = (15, 13.5, 12, 10.5, 9, 8, 7)
WHO = (12, 11, 10, 9, 8, 7)
NUMBER = (40, 34, 28, 22)
NOTE = (7.4, 7, 6.5, 6)
ROW = (9.5, 9, 8.5, 8, 7.5, 7, 6.5, 6)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelRow:
    """One fabric of the packet."""

    swatch: str
    letter: str
    name: Fitted
    amount: SafeString
    amount_style: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelView:
    """One label; `code` is empty where nobody has a sheet."""

    place: str
    title: Fitted
    who: Fitted
    code: str
    notes: tuple[Fitted, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelWishes:
    """What a shop wants on its labels beside what is always there."""

    fibre: bool = False
    seller: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """The rows that all packets of one colorway have in common.

    `more` says how many have no room; `line` and `swatch` are the heights of a line and of a swatch.
    """

    rows: tuple[LabelRow, ...]
    more: str
    line: str
    swatch: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """What all labels of one file have in common; `of` counts them."""

    day: CuttingDay
    of: int
    edition: SheetEdition | None
    wishes: LabelWishes
    stock: LabelStock
    units: Units
    hatches: Mapping[str, int]

    @property
    def words_width(self) -> float:
        """Give the points that words have left of the code."""
        return float(self.stock.points(self.stock.width)) - SIDES


def labels_html(
    day: CuttingDay,
    packets: Sequence[LabelledPacket],
    *,
    edition: SheetEdition | None,
    wishes: LabelWishes,
) -> str:
    """Write the HTML of the labels, in the language of the program's sheets."""
    run = _Run(
        day=day,
        of=len(packets),
        edition=edition,
        wishes=wishes,
        stock=stock_of(day.terms.shop),
        units=units_at(day.terms),
        hatches=hatches_of(day.terms.program),
    )
    with translation.override(day.terms.program.language):
        bags = {(packet.colorway, packet.numbers): packet.all_lines for packet in packets}
        rows = {bag: _rows(lines, run) for bag, lines in bags.items()}
        views = [(_label(packet, run), rows[packet.colorway, packet.numbers]) for packet in packets]
        pages = [views[start : start + EACH_PAGE] for start in range(0, len(views), EACH_PAGE)]
        return render_to_string("sheets/labels.html", _page(run, pages))


def _page(run: _Run, pages: list[list[tuple[LabelView, Rows]]]) -> dict[str, object]:
    stock, number = run.stock, str(run.day.installment.number)
    return {
        "program": run.day.terms.program,
        "installment": run.day.installment,
        "pages": pages,
        "paper": stock.paper,
        "size": f"width:{stock.width}{stock.unit};height:{stock.height}{stock.unit}",
        "words_width": f"width:{run.words_width:.4f}pt",
        "number": fit(number, face=Face.BOOK_BLACK, width=HEAD - 6, sizes=NUMBER),
        "code_size": f"width:{CODE}pt;height:{CODE}pt",
    }


def _label(packet: LabelledPacket, run: _Run) -> LabelView:
    left, top = run.stock.place(packet.number - 1)
    width = run.words_width - HEAD
    title = _ours(run.day.installment.title, Face.BOOK_BLACK)
    return LabelView(
        place=f"left:{left}{run.stock.unit};top:{top}{run.stock.unit}",
        title=fit(title, face=Face.BOOK_BLACK, width=width, sizes=TITLE),
        who=_who(packet, width),
        code=code_of(packet.sign_up) if packet.sign_up else "",
        notes=_notes(packet, run),
    )


def _who(packet: LabelledPacket, width: float) -> Fitted:
    """Say the name on the packet and the number, or what a packet without a person is for."""
    if packet.sign_up is None:
        return fit(str(PacketFor(packet.kind).label), face=Face.SANS_BOLD, width=width, sizes=WHO)
    name, number = packet.sign_up.packet_name, packet.sign_up.number
    if not has_letters(name, Face.SANS_BOLD):
        words = _("Seat {number}").format(number=number)
        return fit(words, face=Face.SANS_BOLD, width=width, sizes=WHO)
    return fit(name, face=Face.SANS_BOLD, width=width, sizes=WHO, tail=f", {number}")


def code_of(sign_up: SignUp) -> str:
    """Draw the address of the person's page of sheets as a QR code: the sign-up's key and nothing more."""
    code = segno.make(address_of(sign_up), error="m", micro=False, boost_error=False)
    return str(code.svg_data_uri(border=QUIET, dark="#000", light=None))


def address_of(sign_up: SignUp) -> str:
    """Give the whole address of the page where the person finds the sheets."""
    return settings.SITE_URL.rstrip("/") + reverse("my-program", args=[sign_up.pk])


def _notes(packet: LabelledPacket, run: _Run) -> tuple[Fitted, ...]:
    """Say which packet of how many, colorway, edition, and what the shop wishes."""
    edition, wishes = run.edition, run.wishes
    words = (
        _("packet {number} of {all}").format(number=packet.number, all=run.of),
        packet.colorway,
        _numbered(_("fabric kept for {numbers}"), packet.kept_for),
        _numbered(_("with fabric of packet {numbers}"), packet.numbers),
        _("sheet edition {number}").format(number=edition.number) if edition else "",
        _fibres(packet.lines) if wishes.fibre else "",
        run.day.terms.shop.name if wishes.seller else "",
    )
    kept = (_ours(each, Face.SANS) for each in words)
    return tuple(fit(each, face=Face.SANS, width=RIGHT_COLUMN, sizes=NOTE) for each in kept if each)


def _numbered(words: str, numbers: Sequence[int]) -> str:
    """Say of which installments, or nothing where there are none."""
    return words.format(numbers=", ".join(map(str, numbers))) if numbers else ""


def _fibres(lines: Sequence[FabricLine]) -> str:
    return ", ".join(dict.fromkeys(line.fabric.fibre for line in lines if line.fabric.fibre))


def _rows(lines: Sequence[FabricLine], run: _Run) -> Rows:
    """Set the fabrics in lines of one height: all of them, or as many as have room and how many more."""
    shown = lines if len(lines) <= MOST_ROWS else lines[: MOST_ROWS - 1]
    room = float(run.stock.points(run.stock.height)) - ROWS_TOP - FOOT
    line = min(TALLEST, room / min(len(lines), MOST_ROWS))
    left = len(lines) - len(shown)
    words = ngettext(
        "and {count} more fabric: see the sheet", "and {count} more fabrics: see the sheet", left
    )
    return Rows(
        rows=_set_rows(shown, run, line=line),
        more=words.format(count=left) if left else "",
        line=f"height:{line:.4f}pt",
        swatch=f"height:{min(line - 1.6, SWATCH_PX[1] * 0.75):.4f}pt",
    )


def _set_rows(lines: Sequence[FabricLine], run: _Run, *, line: float) -> tuple[LabelRow, ...]:
    """Set amounts first, since they are never cut; names get what is left beside the widest."""
    width = run.words_width - SWATCH
    sizes = [size for size in ROW if size <= max(line - 2.5, ROW[-1])]
    amounts = [_amount(each, run.units, most=width * 0.6, sizes=sizes) for each in lines]
    widest = max(width_of(each.text, Face.SANS_BOLD, size=each.size) for each in amounts)
    names = [_name(each, width=width - widest - GAP, sizes=sizes) for each in lines]
    return tuple(
        LabelRow(
            swatch=_swatch(each, run.hatches),
            letter=each.letters[0],
            name=name,
            amount=fractions_html(amount.text),
            amount_style=amount.style,
        )
        for each, name, amount in zip(lines, names, amounts, strict=True)
    )


def _amount(line: FabricLine, units: Units, *, most: float, sizes: Sequence[float]) -> Fitted:
    """Say the amount at the largest size that leaves room for a name; the smallest where none does."""
    words = bag_amount(line, units)
    fits = (size for size in sizes if width_of(words, Face.SANS_BOLD, size=size) <= most)
    return Fitted(text=words, size=next(fits, sizes[-1]))


def _name(line: FabricLine, *, width: float, sizes: Sequence[float]) -> Fitted:
    """Say the fabric, and the letters where it stands for several."""
    letters = f" ({', '.join(line.letters)})" if len(line.letters) > 1 else ""
    return fit(_ours(line.fabric.name, Face.SANS), face=Face.SANS, width=width, sizes=sizes, tail=letters)


def _swatch(line: FabricLine, hatches: Mapping[str, int]) -> str:
    cloth = cloth_of(line.fabric, line.letters, hatches)
    return data_uri(swatch_svg(cloth, width_px=SWATCH_PX[0], height_px=SWATCH_PX[1]))


def _ours(text: str, face: Face) -> str:
    """Give the text where our font has its letters, else nothing."""
    return text if has_letters(text, face) else ""
