"""A sheet as a file: given to who may have it, and to nobody else."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from bom.domain.sheets.document_kinds import document_pdf
from bom.domain.sheets.renderings import bytes_of
from bom.domain.sheets.stamp import stamp
from bom.enums import Document
from bom.errors import ProgramError, WrongState
from shops.domain.copies import record_copy, rendering_of, stamp_text
from shops.domain.documents import may_have_document, wish_of
from shops.domain.entitlement import may_have
from shops.domain.taken import Taken, keep_taken, state_key, taken_before
from shops.permissions import get_sign_up_for

if TYPE_CHECKING:
    from datetime import datetime

    from django.http import HttpRequest

    from bom.models import Installment, Rendering
    from shops.models import SignUp


@login_required
@require_GET
def sheet(request: HttpRequest, sign_up: int, number: int) -> HttpResponse:
    """Give the newest edition in the person's own variant, stamped; 404 for everything else.

    The right to it is read from the rows at this moment: who asks one second early, for another's
    sign-up, or from the waiting list gets what any unknown address gives.
    """
    key = state_key(request.user, sign_up, number)
    kept = taken_before(key)
    if kept:
        return _as_file(kept)
    now, mine = timezone.now(), get_sign_up_for(request.user, sign_up)
    installment = mine.terms.program.installments.filter(number=number).first()
    if installment is None or not may_have(mine, installment, now=now):
        raise Http404
    rendering = rendering_of(mine, installment, now=now)
    if rendering is None:
        return _not_ready(request, mine, installment)
    try:
        taken = _take(mine, installment, rendering, now=now)
    except WrongState:
        return _not_ready(request, mine, installment)
    keep_taken(key, taken, rendering=rendering, sign_up=mine)
    return _as_file(taken)


def _take(mine: SignUp, installment: Installment, rendering: Rendering, *, now: datetime) -> Taken:
    """Stamp the file and write down that it was taken.  WrongState where the file cannot be had."""
    pdf = bytes_of(rendering, now=now)
    copy = record_copy(sign_up=mine, rendering=rendering, now=now)
    return Taken(stamp(pdf, copy.stamp), _file_name(installment, rendering))


@login_required
@require_GET
def document(request: HttpRequest, sign_up: int, kind: str) -> HttpResponse:
    """Give a document in the person's own form, stamped; 404 for what this person may not have now."""
    mine = get_sign_up_for(request.user, sign_up)
    now = timezone.now()
    if kind not in Document.values or not may_have_document(mine, Document(kind), now=now):
        raise Http404
    try:
        pdf = document_pdf(Document(kind), wish_of(mine, Document(kind), now=now))
    except ProgramError as error:
        messages.error(request, error.remedy)
        return redirect("my-program", sign_up=mine.pk)
    return _as_file(Taken(stamp(pdf, stamp_text(mine)), f"{mine.terms.program.slug}-{kind}.pdf"))


def _not_ready(request: HttpRequest, mine: SignUp, installment: Installment) -> HttpResponse:
    """Say so where an edition cannot be set in this form; 404 where there is none yet."""
    if not installment.editions.exists():
        raise Http404
    messages.error(request, _("This sheet cannot be set just now. Please try again later, or ask your shop."))
    return redirect("my-program", sign_up=mine.pk)


def _as_file(taken: Taken) -> HttpResponse:
    """Answer with a file that no cache on its way keeps."""
    response = HttpResponse(taken.pdf, content_type="application/pdf")
    response["Content-Disposition"] = content_disposition_header(as_attachment=True, filename=taken.name)
    response["Cache-Control"] = "private, no-store"
    response["X-Content-Type-Options"] = "nosniff"
    return response


def _file_name(installment: Installment, rendering: Rendering) -> str:
    """Name the file, for example demo-02-netloft-edition-3.pdf."""
    number, title = installment.number, slugify(installment.title)
    return f"{installment.program.slug}-{number:02d}-{title}-edition-{rendering.edition.number}.pdf"
