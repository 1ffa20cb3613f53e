"""Fabrics: the colorways, what the year needs of each fabric, and which fabric stands for which letter."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from bom.domain.allowance_words import allowance_words, shop_words
from bom.domain.cloth import cloths_of
from bom.domain.lengths import units_of
from bom.domain.packets import packets, year_of
from bom.domain.records import read_colorways
from bom.domain.strip_proofs import note_packets
from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.forms import ColorwayForm
from bom.web.pages import changed, page
from bom.web.year_rows import work_or_fault
from patterns.domain.wording import fractions_html

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.domain.work import ProgramWork
    from bom.models import Program
    from patterns.models import Colorway


@login_required
@require_GET
def fabrics(request: HttpRequest, slug: str) -> HttpResponse:
    """Show every colorway with its swatches and the needs of its year."""
    program = get_program_for(request.user, slug)
    units = units_of(program)
    context = {
        "colorways": needs_of_the_year(program),
        "allowances": [fractions_html(words) for words in allowance_words(program, units)],
        "of_the_shop": fractions_html(shop_words(program, units)),
    }
    return render(request, "designer/fabrics.html", page(request, program, "fabrics", **context))


@login_required
def colorway(request: HttpRequest, slug: str, colorway: str) -> HttpResponse:
    """Choose the fabrics of one colorway."""
    program = get_program_for(request.user, slug, to_edit=True)
    mine = next((each for each in read_colorways(program) if each.slug == colorway), None)
    if mine is None:
        raise Http404
    form = ColorwayForm(request.POST or None, program=program, colorway=mine)
    is_sent = request.method == "POST" and form.is_valid()
    if is_sent and changed(request, program, form, target=f"colorway:{mine.slug}"):
        return redirect("program-fabrics", slug=slug)
    context = {"form": form, "colorway": mine}
    return render(request, "designer/colorway.html", page(request, program, "fabrics", **context))


def needs_of_the_year(program: Program) -> list[dict[str, Any]]:
    """Give every colorway with a line for each fabric; its fault where the year cannot be packed."""
    work, fault = work_or_fault(program)
    return [_needs(program, work, each, fault=fault) for each in read_colorways(program)]


def _needs(
    program: Program, work: ProgramWork | None, colorway: Colorway, *, fault: ProgramError | None
) -> dict[str, Any]:
    cloths = cloths_of(colorway)
    bare = {"colorway": colorway, "cloths": list(cloths.values()), "lines": [], "fault": fault}
    if work is None:
        return bare
    try:
        listed = packets(program, work, colorway)
    except ProgramError as error:
        return {**bare, "fault": error}
    return {
        **bare,
        "lines": [{"cloth": cloths[line.letters[0]], "line": line} for line in year_of(listed)],
        "open": note_packets(listed),
    }
