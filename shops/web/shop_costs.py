"""What a packet costs a shop and the price that follows, share by share."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _

from bom.domain.audit import record
from bom.errors import ProgramError
from shops.domain.pricing import ColorwayPrice, plan_of, prices_of, to_minor_unit
from shops.permissions import get_terms_to_order
from shops.web.forms_costs import PricePlanForm
from shops.web.shop_words import shop_page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from shops.models import Terms


@login_required
def costs(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Show the price with its shares, and keep what it is made of."""
    terms = get_terms_to_order(request.user, shop, program)
    form = PricePlanForm(request.POST if request.method == "POST" else None, instance=plan_of(terms))
    if request.method == "POST" and form.is_valid():
        form.save()
        subject = f"terms:{terms.shop.slug}/{terms.program.slug}"
        record("keep costs", actor=request.user, subject=subject, facts={}, now=timezone.now())  # type: ignore[arg-type]  # signed in
        messages.success(request, _("Kept; the suggested price follows."))
        return redirect("shop-costs", shop=shop, program=program)
    context = {"form": form, **_shown(terms)}
    return render(request, "shops/costs.html", shop_page(terms, "order", **context))


def _shown(terms: Terms) -> dict[str, Any]:
    try:
        found = prices_of(terms)
    except ProgramError as error:
        return {"fault": error.remedy}
    titles = {each.number: each.title for each in terms.program.installments.all()}
    return {"prices": [_view(each, titles, terms) for each in found]}


def _view(price: ColorwayPrice, titles: dict[int, str], terms: Terms) -> dict[str, Any]:
    currency = terms.shop.currency
    return {
        "price": price,
        "fabric": to_minor_unit(price.fabric, currency),
        "packets": [
            {"cost": each, "title": titles[each.number], "fabric": to_minor_unit(each.fabric, currency)}
            for each in price.packets
            if each.fabric
        ],
    }
