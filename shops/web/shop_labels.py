"""The labels of an installment's packets as a file to print."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpResponse
from django.shortcuts import redirect
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from bom.domain.keeping import Kept, hash_of
from bom.domain.sheets.pdf import make_pdf
from bom.errors import ProgramError
from shops.domain.cutting_day import cutting_day
from shops.domain.labels import labelled_packets
from shops.domain.packet_editions import packet_edition
from shops.errors import LongerThanBolt
from shops.permissions import get_terms_for
from shops.web.shop_cutting import installment_of
from shops.web.shop_labels_page import LabelWishes, labels_html

if TYPE_CHECKING:
    from django.http import HttpRequest

    from bom.models import Installment
    from shops.domain.cutting_day import CuttingDay

_files: Kept[bytes] = Kept(most=8)  # setting forty labels takes seconds; who prints often asks twice


@login_required
@require_GET
def labels(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Give one label for each packet, on the label sheet of the shop's country; 404 where nothing is cut."""
    terms = get_terms_for(request.user, shop, program)
    installment = installment_of(terms, number)
    wishes = LabelWishes(fibre="fibre" in request.GET, seller="seller" in request.GET)
    try:
        day = cutting_day(terms, installment)
    except (ProgramError, LongerThanBolt):
        messages.error(request, _("There are no labels as long as the packets cannot be worked out."))
        return redirect("shop-cutting", shop=shop, program=program, number=number)
    return _as_file(_pdf(day, installment, wishes), f"{program}-{number:02d}-labels.pdf")


def _pdf(day: CuttingDay, installment: Installment, wishes: LabelWishes) -> bytes:
    packets = labelled_packets(day)
    if not packets:
        raise Http404
    html = labels_html(day, packets, edition=packet_edition(day.terms, installment), wishes=wishes)
    return _files.get(hash_of(html), lambda: make_pdf(html).data)


def _as_file(pdf: bytes, name: str) -> HttpResponse:
    """Answer with a file that opens at once and that no cache keeps: it holds names."""
    response = HttpResponse(pdf, content_type="application/pdf")
    response["Content-Disposition"] = (
        content_disposition_header(as_attachment=False, filename=name) or "inline"
    )
    response["Cache-Control"] = "private, no-store"
    response["X-Content-Type-Options"] = "nosniff"
    return response
