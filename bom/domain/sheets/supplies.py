"""The supply list: what somebody needs before the first month, and what comes when."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from bom.domain.allowance_words import allowance_words
from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.packets import packet, year_of
from bom.domain.quilt_pictures import quilt_drawing
from bom.domain.sheets.finishing_layers import bought_text, packed_text
from bom.domain.sheets.tools import tools_of
from bom.enums import PartKind
from patterns.domain.pictures import data_uri, quilt_svg, swatch_svg
from patterns.domain.wording import fabric_text, form_text, fractions_html, length_text, size_text
from patterns.engine.finishing import Backing
from patterns.engine.hatches import Cloth
from patterns.engine.yardage import FabricForm

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.packets import FabricLine, Packet, YearLine
    from bom.domain.sheets.documents import Wish
    from bom.domain.work import ProgramWork
    from bom.models import Installment
    from patterns.engine.measure import Units
    from patterns.engine.surds import Number

PICTURE_SHARE = 3  # the picture takes a third of the column


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyRow:
    """One fabric over the whole year: its letters, and what to buy where it comes in no packet."""

    swatches: tuple[tuple[str, str], ...]  # address and letter
    name: str
    role: str
    takes: SafeString
    finishing: SafeString | str  # how much of it lies in months without a block
    width: SafeString
    bleeds: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthRow:
    """One month: its number, title and day, and what its packet holds."""

    installment: Installment
    holds: tuple[SafeString, ...]
    is_finishing: bool


def supplies_content(wish: Wish) -> dict[str, Any]:
    """Gather what the template sets.  ProgramError as `work_of` and `packet`."""
    program, variant = wish.program, wish.variant
    work, units = work_of(program), variant.measures
    months = [packet(program, work, wish.colorway(each.number), each.number) for each in work.installments]
    rows = year_of(months)
    roles = {row.letter: row.role for row in program.quilt.letters.all()}
    name = _("The quilt in the {colorway} colorway").format(colorway=variant.colorway.name)
    picture = quilt_svg(
        quilt_drawing(work),
        cloths=cloths_of(variant.colorway),
        width_px=variant.column_px // PICTURE_SHARE,
        name=name,
    )
    return {
        "hash": work.content_hash,
        "picture": data_uri(picture),
        "alt": name,
        "size": fractions_html(size_text((work.top.width, work.top.height), units)),
        "blocks": sum(1 for each in work.installments for part in each.parts if part.kind == PartKind.BLOCK),
        "fabrics": [_supply_row(row, wish, roles) for row in rows],
        "allowances": fractions_html("; ".join(allowance_words(program, units))),
        "bleeding": get_text_list(sorted({row.fabric.name for row in rows if row.fabric.bleeds}), _("and")),
        "tools": tools_of(work, units),
        "batting": _batting(work, units),
        "months": _months(wish, months),
    }


def _supply_row(row: YearLine, wish: Wish, roles: dict[str, str]) -> SupplyRow:
    units = wish.variant.measures
    hatches = {each.letter: each.hatch for each in wish.program.quilt.letters.all()}
    fabric = row.fabric
    cloths = [Cloth(letter, fabric.colour, hatches[letter], fabric.name) for letter in row.letters]
    return SupplyRow(
        swatches=tuple(
            (data_uri(swatch_svg(cloth, width_px=44, height_px=26)), cloth.letter) for cloth in cloths
        ),
        name=fabric.name,
        role=", ".join(dict.fromkeys(roles.get(letter, "") for letter in row.letters)),
        takes=fractions_html(_bought(row.suggested, units)),
        finishing=fractions_html(_bought(row.finishing, units)) if row.finishing else "",
        width=fractions_html(length_text(fabric.usable_width, units)),
        bleeds=fabric.bleeds,
    )


def _bought(length: Number, units: Units) -> str:
    """Say a length as one asks for it, and as it is measured where that is another thing."""
    bought, measured = bought_text(length, units), length_text(length, units)
    return bought if bought == measured else f"{bought}, {measured}"


def _batting(work: ProgramWork, units: Units) -> SafeString | str:
    """Say how large the batting has to be, and which packed size is large enough."""
    for back in (part.finishing for each in work.installments for part in each.parts):
        if isinstance(back, Backing):
            size = _("batting, {size}").format(size=size_text((back.width, back.height), units))
            return fractions_html(f"{size}. {packed_text(back, units)}")
    return ""


def _months(wish: Wish, packets: list[Packet]) -> list[MonthRow]:
    installments = {each.number: each for each in wish.program.installments.all()}
    return [
        MonthRow(
            installment=installments[each.number],
            holds=tuple(fractions_html(_holds(line, wish.variant.measures)) for line in each.lines),
            is_finishing=each.is_finishing,
        )
        for each in packets
    ]


def _holds(line: FabricLine, units: Units) -> str:
    """Say one fabric of a packet: "A, C 3/8 yd"."""
    if line.line.form != FabricForm.LENGTH:
        return f"{', '.join(line.letters)} {form_text(line.line, units)}"
    return f"{', '.join(line.letters)} {fabric_text(line.line.suggested, units)}"
