"""Lists: my programs, the installments of one, its blocks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from bom.domain.cloth import cloths_of
from bom.domain.lengths import units_of
from bom.domain.sewing_settings import sewing_words
from bom.enums import PartKind
from bom.permissions import get_program_for, programs_of
from bom.web.forms_documents import DocumentForm
from bom.web.pages import page
from bom.web.year_page import hours_words
from bom.web.year_pictures import first_colorway, quilt_plates, small_block, year_pictures
from bom.web.year_rows import proof_words, work_or_fault, year_rows
from bom.web.year_sentence import sentence
from patterns.domain.wording import fractions_html, length_text, measure_html, size_text
from patterns.enums import SettingKind

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse
    from django.utils.safestring import SafeString

    from bom.domain.work import ProgramWork
    from patterns.engine.hatches import Cloth, Cloths
    from patterns.engine.measure import Units
    from patterns.models import Quilt

BLOCK = 180  # px


@login_required
@require_GET
def programs(request: HttpRequest) -> HttpResponse:
    """List the programs of a person, or go to the only one."""
    found = programs_of(request.user)
    if len(found) == 1:
        return redirect("program-year", slug=found[0].slug)
    return render(request, "designer/programs.html", {"programs": found})


@login_required
@require_GET
def installments(request: HttpRequest, slug: str) -> HttpResponse:
    """List the installments of a program."""
    program = get_program_for(request.user, slug)
    now = timezone.now()
    today = now.astimezone(ZoneInfo(program.zone)).date()
    work, fault = work_or_fault(program)
    pictures = year_pictures(program, work)
    found = year_rows(program, work, now=now, today=today)
    rows = [
        {
            "row": row,
            "pictures": pictures.get(row.installment.number, []),
            "proof": proof_words(row),
            "hours": hours_words(row),
        }
        for row in found
    ]
    words = sentence(program, found, today=today)
    asked = DocumentForm(program=program)
    context = page(request, program, "installments", rows=rows, fault=fault, sentence=words, documents=asked)
    return render(request, "designer/installments.html", context)


@login_required
@require_GET
def blocks(request: HttpRequest, slug: str) -> HttpResponse:
    """Show the quilt, and every block with its size and the installment that it comes in."""
    program = get_program_for(request.user, slug)
    work, fault = work_or_fault(program)
    colorway = first_colorway(program)
    shown = _shown(work, cloths_of(colorway), program.quilt) if work and colorway else {}
    sewn = [fractions_html(words) for words in sewing_words(program)]
    context = page(request, program, "blocks", fault=fault, colorway=colorway, sewn=sewn, **shown)
    return render(request, "designer/blocks.html", context)


def _shown(work: ProgramWork, cloths: Cloths, setting: Quilt) -> dict[str, Any]:
    units, size = units_of(setting.program), (work.top.width, work.top.height)
    return {
        **quilt_plates(work, cloths, setting),
        "sides": measure_html(size_text(size, units)),
        "blocks": _blocks(work, cloths, units),
        "facts": _facts(setting),
        "letters": _letters(setting, cloths),
    }


def _facts(setting: Quilt) -> list[tuple[str, SafeString | str]]:
    """Name the sizes of the setting; what is not there is left out."""
    units = units_of(setting.program)
    size = length_text(setting.block_size, units)
    places = _("{rows} rows of {columns}, {size} each").format(
        rows=setting.rows, columns=setting.columns, size=size
    )
    if setting.setting == SettingKind.ROWS:
        places = _("{rows} rows, {size} where a block has no other size").format(rows=setting.rows, size=size)
    widths = (
        (_("Sashing"), setting.sashing_width, setting.sashing_letter),
        (_("Border"), setting.border_width, setting.border_letter),
        (_("Second border"), setting.second_border_width, setting.second_border_letter),
        (_("Third border"), setting.third_border_width, setting.third_border_letter),
        (_("Binding"), setting.binding_strip, setting.binding_letter),
    )
    words = _("{width} wide, letter {letter}")
    shown = [
        (name, fractions_html(words.format(width=length_text(width, units), letter=letter)))
        for name, width, letter in widths
        if width and letter
    ]
    return [(_("Setting"), str(setting.get_setting_display())), (_("Places"), fractions_html(places)), *shown]


def _letters(setting: Quilt, cloths: Cloths) -> list[tuple[Cloth, str]]:
    return [(cloths[row.letter], row.role) for row in setting.letters.all() if row.letter in cloths]


def _blocks(work: ProgramWork, cloths: Cloths, units: Units) -> list[dict[str, Any]]:
    found = [
        {
            "part": part,
            "number": month.number,
            "title": month.title,
            "picture": small_block(part, cloths, width_px=BLOCK),
            "letters": ", ".join(part.drawing.letters) if part.drawing else "",
            "size": fractions_html(length_text(part.drawing.width, units)) if part.drawing else "",
        }
        for month in work.installments
        for part in month.parts
        if part.kind == PartKind.BLOCK
    ]
    return sorted(found, key=lambda row: row["part"].place)
