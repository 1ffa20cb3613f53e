"""The sheet of an installment for the shop, before its day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect
from django.utils import timezone
from django.views.decorators.http import require_GET

from bom.errors import ProgramError
from bom.web.table_answers import file_answer
from shops.domain.previews import may_preview, take_preview
from shops.permissions import get_terms_for
from shops.web.shop_cutting import installment_of, sold_colorways

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from patterns.models import Colorway, User
    from shops.models import Terms


@login_required
@require_GET
def preview(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Give the marked sheet in a colorway that the shop sells; 404 before the designer has approved it."""
    terms = get_terms_for(request.user, shop, program)
    installment, colorway = installment_of(terms, number), _colorway(terms, request.GET.get("colorway", ""))
    if not may_preview(installment) or colorway is None:
        raise Http404
    user: User = request.user  # type: ignore[assignment]  # the page asks for a sign-in first
    try:
        made = take_preview(terms, installment, colorway=colorway, by=user, now=timezone.now())
    except ProgramError as error:
        messages.error(request, error.remedy)
        return redirect("shop-cutting", shop=shop, program=program, number=number)
    return file_answer(made, f"{program}-{number:02d}-{colorway.slug}-preview.pdf", "application/pdf")


def _colorway(terms: Terms, slug: str) -> Colorway | None:
    """Give the colorway asked for, or the first one, of those that the shop sells."""
    return next((each for each in sold_colorways(terms) if slug in ("", each.slug)), None)
