"""Pick-up: who has been given the packet of an installment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from bom.errors import WrongState
from shops.domain.entitlement import opens_at
from shops.domain.pick_ups import give_packet, pick_up_rows, take_back_packet
from shops.permissions import get_terms_for
from shops.web.shop_cutting import installment_of
from shops.web.shop_words import shop_page, thumbs

if TYPE_CHECKING:
    from datetime import datetime

    from django.http import HttpRequest, HttpResponse

    from shops.models import Terms


@login_required
@require_GET
def pick_up_now(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Go to the installment that is given out now: the newest that is out."""
    terms = get_terms_for(request.user, shop, program)
    number = given_out_now(terms, now=timezone.now())
    return redirect("shop-pick-up", shop=shop, program=program, number=number)


@login_required
@require_GET
def pick_up(request: HttpRequest, shop: str, program: str, number: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """List who gets the packet, and who has it."""
    terms = get_terms_for(request.user, shop, program)
    installment = installment_of(terms, number)
    rows = pick_up_rows(terms, installment)
    installments = list(terms.program.installments.all())
    addresses = {
        each.number: reverse("shop-pick-up", args=[shop, program, each.number]) for each in installments
    }
    context = {
        "installment": installment,
        "thumbs": thumbs(installments, number, addresses=addresses),
        "rows": rows,
        "given": sum(1 for row in rows if row.given),
        "lacking": sum(1 for row in rows if row.lacks and not row.given),
        "opens": opens_at(installment, terms),
    }
    return render(request, "shops/pick_up.html", shop_page(terms, "pick-up", **context))


@login_required
@require_POST
def give(request: HttpRequest, shop: str, program: str, number: int, person: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Record that the packet was given, or take it back; a second click changes nothing."""
    terms = get_terms_for(request.user, shop, program)
    installment = installment_of(terms, number)
    sign_up = get_object_or_404(terms.sign_ups, number=person)
    act = take_back_packet if request.POST.get("back") else give_packet
    try:
        act(sign_up, installment, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
    except WrongState as error:
        messages.error(request, error.remedy)
    address = reverse("shop-pick-up", args=[shop, program, number])
    return redirect(f"{address}#number-{person}")


def given_out_now(terms: Terms, *, now: datetime) -> int:
    """Give the number of the newest installment that is out at the shop, or 1."""
    installments = terms.program.installments.order_by("number")
    out = [each.number for each in installments if (at := opens_at(each, terms)) is not None and at <= now]
    return max(out, default=1)
