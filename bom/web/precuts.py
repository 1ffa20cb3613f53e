"""Precuts in place of lengths: for every fabric of every packet, what they take beside the yardage."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib.auth.decorators import login_required
from django.shortcuts import render
from django.views.decorators.http import require_GET

from bom.domain.cloth import cloths_of
from bom.domain.cut_sources import fabric_key
from bom.domain.lengths import units_of
from bom.domain.precut_choices import LABELS, cloth_text, precut_text, year_choices
from bom.domain.records import read_colorways
from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.packet_rows import bought_words
from bom.web.pages import page
from bom.web.year_rows import work_or_fault
from patterns.domain.wording import fractions_html

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.domain.precut_choices import LineChoices
    from bom.domain.work import ProgramWork
    from bom.models import Program
    from patterns.engine.measure import Units
    from patterns.models import Colorway


@login_required
@require_GET
def precuts(request: HttpRequest, slug: str) -> HttpResponse:
    """Show the allowed precuts of every packet, colorway by colorway."""
    program = get_program_for(request.user, slug)
    work, fault = work_or_fault(program)
    colorways = [_rows(program, work, each) for each in read_colorways(program)] if work else []
    allowed = [label for name, label in LABELS.items() if name in program.precuts]
    context = {"colorways": colorways, "allowed": allowed, "fault": fault}
    return render(request, "designer/precuts.html", page(request, program, "fabrics", **context))


def _rows(program: Program, work: ProgramWork, colorway: Colorway) -> dict[str, Any]:
    cloths, units = cloths_of(colorway), units_of(program)
    titles = {each.number: each.title for each in work.installments}
    try:
        found = year_choices(program, work, colorway)
    except ProgramError as error:
        return {"colorway": colorway, "fault": error}
    rows = [
        {
            "title": f"{each.number} {titles[each.number]}",
            "key": fabric_key(each.number, colorway, each.line),
            "cloth": cloths[each.line.letters[0]],
            "letters": ", ".join(each.line.letters),
            **_row(each, units),
        }
        for each in found
        if each.choices
    ]
    return {"colorway": colorway, "rows": rows, "left_out": len(found) - len(rows)}


def _row(each: LineChoices, units: Units) -> dict[str, Any]:
    return {
        "length": fractions_html(bought_words(each.line, units)),
        "choices": [
            (fractions_html(precut_text(choice.plan)), fractions_html(cloth_text(choice, units)))
            for choice in each.choices
        ],
        "saves": each.saves,
    }
