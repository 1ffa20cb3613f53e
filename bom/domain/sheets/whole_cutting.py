"""Cutting the whole quilt at once, for who uses own fabric: by fabric, the largest first, over all months.

The list has names of its own; beside each piece stands how many of it go to which month, by the name
that the month's sheet has for it.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from bom.domain.allowance_words import allowance_words
from bom.domain.chain import loose_work, whole_work, work_of
from bom.domain.cloth import cloths_of
from bom.domain.packets import packet_of
from bom.domain.piece_names import size_of
from bom.domain.sheets.finishing_layers import bought_text
from bom.domain.sheets.rows import CutRow, cut_rows, joined_rows
from patterns.domain.pictures import data_uri, strip_plan_svg, swatch_svg
from patterns.domain.wording import fractions_html, length_text
from patterns.engine.surds import ceiling

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.utils.safestring import SafeString

    from bom.domain.packets import FabricLine
    from bom.domain.piece_names import Size
    from bom.domain.sheets.documents import Wish
    from bom.domain.work import InstallmentWork, StripsAcross
    from patterns.engine.hatches import Cloths

TALLEST_PX = 780  # what of a page is left for one plan
PIXEL = Fraction(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class WholeFabric:
    """One fabric: what to buy of it cut all at once and month by month, its pieces, and how they lie."""

    swatch: str
    letters: str
    name: str
    at_once: SafeString
    by_month: SafeString
    rows: list[tuple[CutRow, str]]  # a piece, and which months it goes to
    joined: list[SafeString]
    plan: str
    alt: str


def whole_cutting_content(wish: Wish) -> dict[str, Any]:
    """Gather what the template sets.  ProgramError as `work_of` and `packet`."""
    program, colorway = wish.program, wish.variant.colorway
    work, chosen = work_of(program), wish.months()
    months = [each for each in work.installments if each.number in chosen]
    if len(months) == len(work.installments):
        months.append(loose_work(program))
    whole = whole_work(program, months)
    bought: dict[int, Fraction] = defaultdict(Fraction)
    for line in (line for each in months for line in packet_of(program, each, colorway).lines):
        if not line.is_backing:
            bought[line.fabric.pk] += line.line.suggested
    goes_to = _goes_to(months)
    return {
        "hash": work.content_hash,
        "numbers": [each.number for each in months if each.number],
        "of": len(work.installments),
        "fabrics": [
            _fabric(line, wish, whole=whole, goes_to=goes_to, by_month=bought[line.fabric.pk])
            for line in packet_of(program, whole, colorway).lines
        ],
        "allowances": fractions_html("; ".join(allowance_words(program, wish.variant.measures))),
    }


def _goes_to(months: list[InstallmentWork]) -> Mapping[Size, list[str]]:
    """Say of every size which months take it: "3: 8 A2"."""
    found: dict[Size, list[str]] = {}
    for month in months:
        number = str(month.number) if month.number else _("to finish")
        for piece in (piece for pieces in month.pieces.values() for piece in pieces):
            words = f"{number}: {piece.count}\u00a0{piece.id}"
            found.setdefault(size_of(piece), []).append(words)
    return found


def _fabric(
    line: FabricLine,
    wish: Wish,
    *,
    whole: InstallmentWork,
    goes_to: Mapping[Size, list[str]],
    by_month: Fraction,
) -> WholeFabric:
    variant, cloths = wish.variant, cloths_of(wish.variant.colorway)
    cloth = cloths[line.letters[0]]
    rows = cut_rows({line.letters[0]: line.pieces}, cloths, variant)
    told = ["; ".join(goes_to.get(size_of(piece), ())) for piece in line.pieces]
    name = _("Strip plan of {letter}, {name}").format(letter=", ".join(line.letters), name=cloth.name)
    return WholeFabric(
        swatch=data_uri(swatch_svg(cloth, width_px=64, height_px=40)),
        letters=", ".join(line.letters),
        name=_("{fabric}, backing").format(fabric=cloth.name) if line.is_backing else cloth.name,
        at_once=_amount(line.line.suggested, wish) if line.is_length else _form(line, wish),
        by_month=_amount(by_month, wish),
        rows=list(zip(rows, told, strict=True)),
        joined=joined_rows(_own(whole.strips, line), variant),
        plan=_plan(line, cloths, wish),
        alt=name,
    )


def _amount(length: Fraction, wish: Wish) -> SafeString:
    units = wish.variant.measures
    return fractions_html(f"{bought_text(length, units)} ({length_text(length, units)})")


def _form(line: FabricLine, wish: Wish) -> SafeString:
    """Name a fat quarter or eighth that is all there is to buy."""
    return fractions_html(_(line.line.bought(wish.variant.measures)))


def _own(strips: tuple[StripsAcross, ...], line: FabricLine) -> list[StripsAcross]:
    return [each for each in strips if each.fabric in line.letters]


def _plan(line: FabricLine, cloths: Cloths, wish: Wish) -> str:
    """Draw how the pieces lie, narrow enough that the plan stands on one page."""
    plan = line.line.plan
    if plan is None:
        return ""
    tall = sum((strip.height for strip in plan.strips), start=Fraction(0))
    width = min(Fraction(wish.variant.column_px), TALLEST_PX * plan.usable_width / tall)
    return data_uri(
        strip_plan_svg(
            plan,
            cloth=cloths[line.letters[0]],
            width_px=int(ceiling(width, PIXEL)),
            units=wish.variant.measures,
        )
    )
