"""Files of a designer: the sheet as PDF, the program file, the yardage of the year."""

from __future__ import annotations

import csv
import json
from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from bom.domain.editions import newest_edition
from bom.domain.packets import packets
from bom.domain.program_files import export_program
from bom.domain.records import read_colorways
from bom.domain.sheets.renderings import bytes_of, ensure_rendering, make_draft
from bom.domain.sheets.variants import Variant
from bom.domain.words import says_something_new
from bom.enums import Paper, PrintSize, UnitsChoice
from bom.errors import ProgramError
from bom.permissions import get_installment_for, get_program_for
from bom.web.year_rows import work_or_fault
from patterns.engine.measure import Units, write_inches

if TYPE_CHECKING:
    from collections.abc import Iterator

    from django.http import HttpRequest

    from bom.models import Installment, Program
    from patterns.models import Colorway

HEAD = ("colorway", "installment", "title", "letters", "fabric", "minimum in", "packet in", "packet", "grams")
RISKY = ("=", "+", "-", "@", "\t", "\r")  # a table program would read such a cell as a formula


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
def yardage(request: HttpRequest, slug: str) -> HttpResponse:
    """Give the packets of the year as a table, one line for each fabric."""
    program = get_program_for(request.user, slug)
    response = HttpResponse(content_type="text/csv; charset=utf-8")
    try:
        rows = list(_rows(program))
    except ProgramError as error:
        messages.error(request, error.remedy)
        return redirect("program-year", slug=slug)
    writer = csv.writer(response)
    writer.writerow(HEAD)
    writer.writerows(map(_safe, row) for row in rows)
    name = f"{program.slug}-yardage.csv"
    response["Content-Disposition"] = _named(name)
    return response


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


def _rows(program: Program) -> Iterator[list[object]]:
    work, fault = work_or_fault(program)
    if fault:
        raise fault
    titles = {each.number: each.title for each in program.installments.all()}
    for colorway in read_colorways(program):
        for packet in packets(program, work, colorway) if work else ():
            for line in packet.lines:
                yield [
                    colorway.name,
                    packet.number,
                    titles[packet.number],
                    " ".join(line.letters),
                    f"{line.fabric.number} {line.fabric.name}",
                    write_inches(line.line.minimum),
                    write_inches(line.line.suggested),
                    line.line.bought(Units.INCHES),
                    line.weight_grams,
                ]


def _safe(cell: object) -> object:
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(RISKY) else cell


def _named(name: str, *, is_shown: bool = False) -> str:
    return content_disposition_header(as_attachment=not is_shown, filename=name) or "attachment"


def file_answer(data: bytes, name: str, kind: str, *, is_shown: bool = False) -> HttpResponse:
    """Give a file that no cache keeps."""
    response = HttpResponse(data, content_type=kind)
    response["Content-Disposition"] = _named(name, is_shown=is_shown)
    response["Cache-Control"] = "private, no-store"
    response["X-Content-Type-Options"] = "nosniff"
    return response
