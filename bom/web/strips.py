"""One page of strip plans: a cut list is pasted, or taken from a block or an installment's fabric."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import render
from django.views.decorators.http import require_http_methods

from bom.domain.cut_sources import NOMINAL_WIDTH, PLAIN, find_source, sources_of
from bom.domain.strip_proofs import note
from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.forms_strips import CutListForm
from bom.web.pages import page
from bom.web.strips_page import from_left_overs, in_precuts, strips_page
from bom.web.year_rows import work_or_fault

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.domain.cut_sources import CutSource
    from bom.domain.work import ProgramWork
    from bom.models import Program


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def strips(request: HttpRequest, slug: str) -> HttpResponse:
    """Show the strip plan of a cut list; only an open one is kept, for the worker to prove."""
    program = get_program_for(request.user, slug)
    work, _fault = work_or_fault(program)
    source = _source(request, program, work)
    form = CutListForm(request.POST if request.method == "POST" else None, program=program, source=source)
    context: dict[str, Any] = {"form": form, "source": source, "choices": _choices(program, work)}
    if form.plan:
        cloth = source.cloth if source else PLAIN
        plan = note(form.plan, form.demands, mode=form.chosen)
        context |= strips_page(plan, form.demands, mode=form.chosen, program=program, cloth=cloth)
        context |= from_left_overs(plan, form.demands, mode=form.chosen, program=program)
        width = source.nominal_width if source else NOMINAL_WIDTH
        context |= in_precuts(program, form.demands, nominal_width=width)
    return render(request, "designer/strips.html", page(request, program, "fabrics", **context))


def _source(request: HttpRequest, program: Program, work: ProgramWork | None) -> CutSource | None:
    key = request.GET.get("from", "")
    if not key:
        return None
    try:
        found = find_source(program, work, key) if work else None
    except ProgramError as error:
        raise Http404 from error
    if found is None:
        raise Http404
    return found


def _choices(program: Program, work: ProgramWork | None) -> list[tuple[str, list[CutSource]]]:
    try:
        found = sources_of(program, work) if work else []
    except ProgramError:
        return []
    return [(f"{month.number} {month.title}", sources) for month, sources in found]
