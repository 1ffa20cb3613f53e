"""Finishing instructions: everything that makes the blocks a quilt, in the order of sewing.

Parts that an installment holds keep the names and the packet of that installment; what no installment
holds is cut from one's own fabric.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from bom.domain.chain import loose_work, work_of
from bom.domain.cloth import cloths_of
from bom.domain.packets import allowances_of, packet, packet_of
from bom.domain.quilt_pictures import quilt_drawing
from bom.domain.sheets.carried import carried_fabric_rows, month_cut_rows, month_joined_rows
from bom.domain.sheets.content import legend_rows
from bom.domain.sheets.finishing import FinishingRows, finishing_rows
from bom.domain.sheets.rows import CutRow, FabricRow, PlanRow, fabric_rows, plan_rows
from bom.domain.sheets.setting import setting_facts
from bom.domain.sheets.steps import PartRows, part_rows
from bom.enums import PartKind
from patterns.domain.pictures import data_uri, quilt_svg
from patterns.domain.wording import length_text, say_html
from patterns.engine.seam_test import seam_test

if TYPE_CHECKING:
    from collections.abc import Iterable

    from django.utils.safestring import SafeString

    from bom.domain.packets import Packet
    from bom.domain.sheets.documents import Wish
    from bom.domain.work import InstallmentWork, PartWork, ProgramWork
    from patterns.engine.steps import Piece

PICTURE_SHARE = 2  # the picture takes half of the column


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishingMonth:
    """What finishes the quilt and comes in one installment; number 0: in none of them."""

    work: InstallmentWork
    packet: Packet
    is_shared: bool  # its packet serves blocks too

    @property
    def lines(self) -> Packet:
        """Give the packet with the fabrics that these parts are cut from."""
        letters = set(self.work.pieces)
        lines = tuple(line for line in self.packet.lines if letters.intersection(line.letters))
        return replace(self.packet, lines=lines)


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishingSection:
    """One such month as it is printed."""

    number: int
    title: str
    is_shared: bool
    has_border: bool
    fabrics: list[FabricRow]
    cuts: list[CutRow]
    joined: list[SafeString]
    carried: list[int]  # the months whose packets held some of the fabric
    plans: list[PlanRow]
    parts: list[PartRows]
    finishing: list[FinishingRows]


def finishing_months(wish: Wish) -> tuple[FinishingMonth, ...]:
    """Give the months that hold parts of the whole quilt, in order; last, what no month holds.

    ProgramError as `work_of` and `packet`.
    """
    program = wish.program
    work, loose = work_of(program), loose_work(program)
    months = [_month(wish, work, each) for each in work.installments if finishes(each)]
    if loose.parts:
        own = packet_of(program, loose, wish.variant.colorway)
        months.append(FinishingMonth(work=loose, packet=own, is_shared=False))
    return tuple(months)


def finishes(work: InstallmentWork) -> bool:
    """Whether an installment holds a part of the whole quilt."""
    return any(part.kind != PartKind.BLOCK for part in work.parts)


def finishing_content(wish: Wish) -> dict[str, Any]:
    """Gather what the template sets.  ProgramError as `finishing_months`."""
    program, variant = wish.program, wish.variant
    work, cloths = work_of(program), cloths_of(variant.colorway)
    months = finishing_months(wish)
    parts = [part for month in months for part in month.work.parts]
    units, size = variant.measures, (work.top.width, work.top.height)
    bleeding = [row.fabric.name for row in variant.colorway.fabrics.all() if row.fabric.bleeds]
    name = _("The quilt in the {colorway} colorway").format(colorway=variant.colorway.name)
    drawn = quilt_svg(
        quilt_drawing(work),
        cloths=cloths,
        width_px=variant.column_px // PICTURE_SHARE,
        name=name,
        measures=(length_text(size[0], units), length_text(size[1], units)),
    )
    return {
        "hash": work.content_hash,
        "picture": data_uri(drawn),
        "alt": name,
        "facts": setting_facts(program.quilt, work, parts, variant=variant),
        "sections": _sections(wish, months),
        "legend": legend_rows(parts),
        "bleeding": get_text_list(sorted(set(bleeding)), _("and")),
        "seam_test": [say_html(words, units) for words in seam_test(program.seam, units).words],
    }


def _month(wish: Wish, work: ProgramWork, mine: InstallmentWork) -> FinishingMonth:
    parts = tuple(part for part in mine.parts if part.kind != PartKind.BLOCK)
    is_shared = parts != mine.parts
    own = _reduced(mine, parts) if is_shared else mine
    held = packet(wish.program, work, wish.colorway(mine.number), mine.number)
    return FinishingMonth(work=own, packet=held, is_shared=is_shared)


def _reduced(mine: InstallmentWork, parts: tuple[PartWork, ...]) -> InstallmentWork:
    """Give an installment with only these of its parts."""
    pieces = _pieces(mine, parts)
    carried = {letter: number for letter, number in mine.carried.items() if letter in pieces}
    strips = tuple(each for each in mine.strips if each.fabric in pieces)
    return replace(mine, parts=parts, pieces=pieces, strips=strips, carried=carried, kept=())


def _pieces(mine: InstallmentWork, parts: Iterable[PartWork]) -> dict[str, tuple[Piece, ...]]:
    """Keep of an installment's cut list what these parts take, counted anew."""
    counts: dict[str, int] = {}
    for piece in (piece for part in parts for piece in part.pieces):
        counts[piece.id] = counts.get(piece.id, 0) + piece.count
    kept = {
        letter: tuple(replace(piece, count=counts[piece.id]) for piece in pieces if piece.id in counts)
        for letter, pieces in mine.pieces.items()
    }
    return {letter: pieces for letter, pieces in kept.items() if pieces}


def _sections(wish: Wish, months: tuple[FinishingMonth, ...]) -> list[FinishingSection]:
    """Set every month; steps are numbered on from month to month."""
    sections: list[FinishingSection] = []
    for month in months:
        before = sum(len(part.steps) for section in sections for part in section.parts)
        sections.append(_section(wish, month, before=before))
    return sections


def _section(wish: Wish, month: FinishingMonth, *, before: int) -> FinishingSection:
    work, variant = month.work, wish.variant
    cloths = cloths_of(wish.colorway(work.number))
    roles = {row.letter: row.role for row in wish.program.quilt.letters.all()}
    plans = plan_rows(month.packet, cloths, variant, allowances=allowances_of(wish.program))
    return FinishingSection(
        number=work.number,
        title=work.title,
        is_shared=month.is_shared,
        has_border=any(part.kind == PartKind.BORDER for part in work.parts),
        fabrics=[
            *fabric_rows(month.lines, cloths, roles=roles, variant=variant),
            *carried_fabric_rows(work, cloths, roles=roles),
        ],
        cuts=month_cut_rows(work, cloths, variant),
        joined=month_joined_rows(work, variant),
        carried=sorted(set(work.carried.values())),
        plans=[] if month.is_shared else plans,
        parts=part_rows(work.parts, cloths, variant, before=before),
        finishing=finishing_rows(work.parts, variant),
    )
