"""The chart of a program: a page, and the same on paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import render
from django.views.decorators.http import require_GET

from bom.domain.chart import shown_tables
from bom.domain.sheets.chart import chart_pdf
from bom.enums import Paper
from bom.permissions import get_program_for
from bom.web.pages import page
from bom.web.table_answers import file_answer

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
@require_GET
def chart(request: HttpRequest, slug: str) -> HttpResponse:
    """Show cut, trim-to and finished sizes of the triangles that quilts are made of."""
    program = get_program_for(request.user, slug)
    context = page(request, program, "blocks", tables=shown_tables(program))
    return render(request, "designer/chart.html", context)


@login_required
@require_GET
def chart_file(request: HttpRequest, slug: str) -> HttpResponse:
    """Give the chart as a PDF; 404 for a paper that does not exist."""
    program = get_program_for(request.user, slug)
    try:
        paper = Paper(request.GET.get("paper", Paper.LETTER))
    except ValueError as error:
        raise Http404 from error
    made = chart_pdf(program, paper)
    return file_answer(made.data, f"{program.slug}-chart-{paper}.pdf", "application/pdf", is_shown=True)
