"""All that one sheet shows, ready for its template: every number from the chain, every word translated."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django.template.loader import render_to_string
from django.utils import translation
from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from bom.domain.allowance_words import allowance_words
from bom.domain.care_words import care_html, hours_html
from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.corrections import changes_of
from bom.domain.edition_words import change_rows, first_rows
from bom.domain.making import illustrated
from bom.domain.packets import allowances_of, packet
from bom.domain.quilt_pictures import quilt_drawing, states_at
from bom.domain.sheets.carried import (
    carried_fabric_rows,
    keep_cards,
    keeps_borders,
    month_cut_rows,
    month_joined_rows,
)
from bom.domain.sheets.checks import check_rows
from bom.domain.sheets.finishing import finishing_rows
from bom.domain.sheets.large import enlarged, small_width
from bom.domain.sheets.page_codes import report_address
from bom.domain.sheets.rows import fabric_rows, plan_rows
from bom.domain.sheets.steps import part_rows
from bom.domain.sheets.true_size import true_size_pages
from bom.domain.sheets.words import sheet_words
from bom.domain.times import time_of
from bom.enums import PartKind
from patterns.domain.pictures import block_svg, data_uri, legend_svg, mark_words, quilt_svg
from patterns.domain.wording import fractions_html, length_text, measure_html, say, say_html, size_text
from patterns.engine.drawing_lines import USUAL_MARKS
from patterns.engine.seam_test import seam_test
from patterns.engine.steps import MarkKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from django.utils.safestring import SafeString

    from bom.domain.packets import Packet
    from bom.domain.sheets.rows import FabricRow
    from bom.domain.sheets.variants import Variant
    from bom.domain.work import InstallmentWork, PartWork, ProgramWork
    from bom.models import SheetEdition
    from patterns.engine.hatches import Cloths

PLATE_GAP = 30  # CSS pixels between blocks that stand side by side on the cover
MOST_CHANGES = 5  # lines of what changed that the cover has room for; the end of the sheet holds all


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockPlate:
    """A block on the cover."""

    name: str
    picture: str
    alt: str
    size: SafeString


def sheet_html(edition: SheetEdition, variant: Variant) -> str:
    """Write the HTML of a sheet in one form, in the sheet's language."""
    with translation.override(variant.language):
        return render_to_string("sheets/sheet.html", sheet_context(edition, variant))


def sheet_context(edition: SheetEdition, variant: Variant) -> dict[str, Any]:
    """Gather what the template sets."""
    installment = edition.installment
    work = work_of(installment.program)
    mine = work.installment(installment.number)
    corrections = _corrections(edition, variant)
    return {
        "program": installment.program,
        "installment": installment,
        "edition": edition,
        "variant": variant,
        "of": len(work.installments),
        "report_address": report_address(edition),
        **corrections,
        **_cover(edition, variant, work=work, has_note=corrections["has_note"]),
        **_cloth(edition, variant, work=work),
        **_sewing(mine, variant, seam=installment.program.seam),
        "next": installment.program.installments.filter(number=installment.number + 1).first(),
    }


def _cover(edition: SheetEdition, variant: Variant, *, work: ProgramWork, has_note: bool) -> dict[str, Any]:
    """Gather the first page: blocks, words, facts, where they go."""
    installment = edition.installment
    mine, cloths = work.installment(installment.number), cloths_of(variant.colorway)
    plates = _plates(mine, cloths, variant, has_note=has_note)
    return {
        "plates": plates,
        "is_beside": has_note or len(plates) == 1,  # above the story, in the column beside the facts
        "time": hours_html(mine),
        "care": care_html(mine, variant.measures),
        "assumed": fractions_html(say(time_of(mine).assumed)),
        "sizes": _sizes(mine, variant),
        "quilt": _quilt(work, mine.number, cloths, variant=variant),
        **sheet_words(installment, variant, work=work),
        "has_diagonals": _has_diagonals(mine),
        "has_border": any(part.kind == PartKind.BORDER for part in mine.parts),
    }


def _corrections(edition: SheetEdition, variant: Variant) -> dict[str, Any]:
    """Say what is corrected: as much as the cover holds, and all of it where that is more."""
    colorways = {variant.colorway.slug: variant.colorway.name}
    rows = change_rows(changes_of(edition), colorways=colorways, units=variant.measures)
    shown, left = first_rows(rows, MOST_CHANGES)
    return {
        "has_note": bool(rows or edition.change_line),
        "corrections": shown,
        "more_corrections": left,
        "all_corrections": rows if left else (),
    }


def _cloth(edition: SheetEdition, variant: Variant, *, work: ProgramWork) -> dict[str, Any]:
    """Gather fabrics, cutting, and how the pieces lie."""
    program = edition.installment.program
    mine, cloths = work.installment(edition.installment.number), cloths_of(variant.colorway)
    fabric = packet(program, work, variant.colorway, mine.number)
    roles = {row.letter: row.role for row in program.quilt.letters.all()}
    bleeding = [line.fabric.name for line in fabric.lines if line.fabric.bleeds]
    return {
        "fabrics": _fabric_rows(fabric, mine, cloths, roles=roles, variant=variant),
        "keeps": keep_cards(mine, work, cloths, variant=variant),
        "keeps_borders": keeps_borders(mine, work),
        "carried": sorted(set(mine.carried.values())),
        "allowances": fractions_html("; ".join(allowance_words(program, variant.measures))),
        "bleeding": get_text_list(bleeding, _("and")),
        "cuts": month_cut_rows(mine, cloths, variant),
        "joined": month_joined_rows(mine, variant),
        "plans": plan_rows(fabric, cloths, variant, allowances=allowances_of(program)),
    }


def _fabric_rows(
    fabric: Packet, mine: InstallmentWork, cloths: Cloths, *, roles: Mapping[str, str], variant: Variant
) -> list[FabricRow]:
    own = fabric_rows(fabric, cloths, roles=roles, variant=variant)
    rows = [*own, *carried_fabric_rows(mine, cloths, roles=roles)]
    return sorted(rows, key=lambda row: (len(row.letter), row.letter))


def _sewing(mine: InstallmentWork, variant: Variant, *, seam: Fraction) -> dict[str, Any]:
    """Gather steps, finishing, measures and the seam test."""
    units = variant.measures
    return {
        "parts": part_rows(mine.parts, cloths_of(variant.colorway), variant),
        "true_size": true_size_pages(mine, cloths_of(variant.colorway), variant),
        "finishing": finishing_rows(mine.parts, variant),
        "legend": legend_rows(mine.parts),
        "checks": check_rows(mine.parts, variant),
        "goes_together": _goes_together(mine),
        "seam_test": [say_html(words, units) for words in seam_test(seam, units).words],
        "seam": measure_html(length_text(seam, variant.measures)),
    }


def legend_rows(parts: Iterable[PartWork]) -> list[tuple[str, str]]:
    """Explain the marks of pictures: the usual ones, and those that these parts' pictures have besides."""
    recipes = [illustrated(part) for part in parts if part.recipe]
    pictures = [picture for recipe in recipes for step in recipe.steps for picture in step.pictures]
    found = {mark.kind for picture in pictures for mark in picture.marks}
    kinds = [kind for kind in MarkKind if kind in USUAL_MARKS or kind in found]
    return [(data_uri(legend_svg(kind)), mark_words(kind)) for kind in kinds]


def _has_diagonals(mine: InstallmentWork) -> bool:
    """Whether anything is marked, sewn or cut on a diagonal."""
    recipes = (part.recipe for part in mine.parts if part.recipe)
    return any(
        row["op"] in ("stack", "cut", "slice")
        for recipe in recipes
        for step in recipe.steps
        for row in step.operations
    )


def _plates(mine: InstallmentWork, cloths: Cloths, variant: Variant, *, has_note: bool) -> list[BlockPlate]:
    """Draw the blocks side by side; smaller, above the story, where there is a correction to hold too."""
    blocks = [part for part in mine.parts if part.kind == PartKind.BLOCK and part.drawing]
    beside = max(2, len(blocks))
    width = (variant.column_px - PLATE_GAP * (beside - 1)) // beside
    if variant.is_large:
        width = small_width(variant.column_px)
    elif has_note:
        width = width * 2 // 5
    return [_plate(part, cloths, variant=variant, width=width) for part in blocks]


def _plate(part: PartWork, cloths: Cloths, *, variant: Variant, width: int) -> BlockPlate:
    drawing = part.drawing
    if drawing is None:
        raise ValueError(f"{part.title} has no drawing")
    size = (drawing.width, drawing.height)
    letters = ", ".join(drawing.letters)
    drawn = block_svg(drawing.cloth, size, cloths=cloths, width_px=width, name=part.title)
    return BlockPlate(
        name=part.title,
        picture=data_uri(enlarged(drawn) if variant.is_large else drawn),
        alt=_("{name}, block, letters {letters}").format(name=part.title, letters=letters),
        size=measure_html(size_text(size, variant.measures)),
    )


def _sizes(mine: InstallmentWork, variant: Variant) -> list[SafeString]:
    """Say finished and unfinished size of each size that is made."""
    sewn = [part.recipe for part in mine.parts if part.recipe]
    words = [
        _("{finished} finished, {unfinished} unfinished").format(
            finished=size_text(recipe.finished, variant.measures),
            unfinished=size_text(
                (recipe.finished[0] + 2 * recipe.seam, recipe.finished[1] + 2 * recipe.seam), variant.measures
            ),
        )
        for recipe in sewn
    ]
    return [fractions_html(each) for each in dict.fromkeys(words)]


def _quilt(work: ProgramWork, number: int, cloths: Cloths, *, variant: Variant) -> dict[str, str]:
    name = _("The quilt; the parts of this installment are shown in cloth")
    drawn = quilt_svg(
        quilt_drawing(work), cloths=cloths, width_px=132, name=name, states=states_at(work, 0, lit=number)
    )
    return {"picture": data_uri(enlarged(drawn) if variant.is_large else drawn), "alt": name}


def _goes_together(mine: InstallmentWork) -> tuple[int, int]:
    proofs = [part.proof for part in mine.parts if part.proof]
    return sum(proof.patches_right for proof in proofs), sum(proof.patches for proof in proofs)
