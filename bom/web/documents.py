"""A document of a program as a file, for those who work on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect
from django.views.decorators.http import require_GET

from bom.domain.sheets.document_kinds import document_pdf
from bom.domain.sheets.documents import Wish
from bom.enums import Document
from bom.errors import ProgramError
from bom.permissions import get_program_for
from bom.web.forms_documents import DocumentForm
from bom.web.table_answers import file_answer

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@login_required
@require_GET
def document(request: HttpRequest, slug: str) -> HttpResponse:
    """Give a document in the form that the address asks for; 404 for one that does not exist."""
    program = get_program_for(request.user, slug)
    form = DocumentForm(request.GET, program=program)
    if not form.is_valid():
        raise Http404
    kind, variant = Document(form.cleaned_data["kind"]), form.variant()
    try:
        made = document_pdf(kind, Wish(program=program, variant=variant))
    except ProgramError as error:
        messages.error(request, error.remedy)
        return redirect("installment-list", slug=slug)
    name = f"{program.slug}-{kind}-{variant.colorway.slug}-{variant.paper}-{variant.units}.pdf"
    return file_answer(made, name, "application/pdf", is_shown=True)
