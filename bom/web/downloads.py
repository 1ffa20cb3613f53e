"""Files of a designer: the sheet as PDF, the program file, the yardage of the year."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from bom.domain.editions import newest_edition
from bom.domain.program_files import export_program
from bom.domain.sheets.renderings import bytes_of, ensure_rendering, make_draft
from bom.domain.sheets.variants import Variant
from bom.domain.words import says_something_new
from bom.domain.yardage_tables import packets_table, year_table
from bom.enums import Paper, PrintSize, UnitsChoice
from bom.errors import ProgramError
from bom.permissions import get_installment_for, get_program_for
from bom.web.table_answers import file_answer, kind_of, table_answer

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from bom.models import Installment, Program
    from patterns.models import Colorway


@login_required
@require_GET
def sheet(request: HttpRequest, slug: str, number: int) -> HttpResponse:
    """Give the newest edition in one form, or the draft where there is none or it is out of date."""
    mine = get_installment_for(request.user, slug, number)
    variant = _variant(request, mine)
    try:
        data, name = _pdf(mine, variant)
    except ProgramError as error:
        messages.error(request, error.remedy)
        return redirect("installment", slug=slug, number=number)
    return file_answer(data, name, "application/pdf", is_shown=True)


@login_required
@require_GET
def program_file(request: HttpRequest, slug: str) -> HttpResponse:
    """Give the whole program as its file."""
    program = get_program_for(request.user, slug)
    text = json.dumps(export_program(program), indent=1, ensure_ascii=False)
    return file_answer(text.encode(), f"{program.slug}.json", "application/json")


@login_required
@require_GET
def yardage(request: HttpRequest, slug: str, kind: str, *, of: str) -> HttpResponse:
    """Give the year's needs, or every packet, as a table in a file."""
    program, wanted = get_program_for(request.user, slug), kind_of(kind)
    try:
        table = year_table(program) if of == "year" else packets_table(program)
    except ProgramError as error:
        messages.error(request, error.remedy)
        return redirect("program-year", slug=slug)
    return table_answer(request, table, wanted)


def _pdf(mine: Installment, variant: Variant) -> tuple[bytes, str]:
    now, edition = timezone.now(), newest_edition(mine)
    start = f"{mine.program.slug}-{mine.number:02d}-{slugify(mine.title)}"
    if edition is None or says_something_new(mine, edition):
        return make_draft(mine, variant, now=now).data, f"{start}-draft.pdf"
    kept = bytes_of(ensure_rendering(edition, variant, now=now), now=now)
    return kept, f"{start}-edition-{edition.number}.pdf"


def _variant(request: HttpRequest, mine: Installment) -> Variant:
    """Read the form that is asked for; 404 for one that does not exist."""
    ask = request.GET.get
    try:
        return Variant(
            colorway=_colorway(mine.program, ask("colorway", "")),
            paper=Paper(ask("paper", Paper.LETTER)),
            units=UnitsChoice(ask("units", UnitsChoice.INCHES)),
            print_size=PrintSize(ask("print_size", PrintSize.USUAL)),
            language=mine.program.language,
        )
    except ValueError as error:
        raise Http404 from error


def _colorway(program: Program, slug: str) -> Colorway:
    found = program.quilt.colorways.all()
    colorway = found.filter(slug=slug).first() if slug else found.first()
    if colorway is None:
        raise Http404
    return colorway
