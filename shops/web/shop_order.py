"""The fabric order of a shop: what to order, freezing and ordering, and the order as sent."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from bom.enums import FileKind
from bom.errors import ProgramError, WrongState
from bom.web.table_answers import kind_of, table_answer
from shops.domain.buying_less import bolts_to_buy, price_of, signed
from shops.domain.head_count import freeze_and_order, sent_order
from shops.domain.orders import order_of
from shops.errors import LongerThanBolt
from shops.permissions import get_terms_for, get_terms_to_order, may_order
from shops.web.shop_order_page import order_page, order_table, seen_text
from shops.web.shop_sign_ups import numbers_of
from shops.web.shop_words import shop_page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from shops.domain.orders import Order
    from shops.models import Terms


@login_required
@require_GET
def order(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Show what to order, or the order as it was sent."""
    terms = get_terms_for(request.user, shop, program)
    found, fault = _order(terms)
    context = {
        "fault": fault,
        "may_order": may_order(request.user, terms),
        "numbers": numbers_of(terms),
        **(order_page(found, sent_order(terms)) if found else {}),
    }
    return render(request, "shops/order.html", shop_page(terms, "order", **context))


@login_required
def order_confirm(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Say once more what is fixed, then freeze and order; a second click ends on the kept order."""
    terms = get_terms_to_order(request.user, shop, program)
    found, fault = _order(terms)
    if found is None or not terms.program.is_frozen or sent_order(terms):
        return redirect("shop-order", shop=shop, program=program)
    if request.method != "POST":
        bolts = bolts_to_buy(found)
        context = {
            "order": found,
            "seen": seen_text(found),
            "numbers": numbers_of(terms),
            "fault": fault,
            "bolts": sum(bolts.values()),
            "total": price_of(found, bolts),
            "signed": signed(terms),
        }
        return render(request, "shops/order_confirm.html", shop_page(terms, "order", **context))
    if request.POST.get("seen") != seen_text(found):
        messages.error(request, _("The numbers have changed meanwhile. Please read them again."))
        return redirect("shop-order-confirm", shop=shop, program=program)
    return _send(request, terms)


@login_required
@require_GET
def order_file(request: HttpRequest, shop: str, program: str, kind: str = FileKind.CSV) -> HttpResponse:  # noqa: PLR0917 -- Django hands an address over by place
    """Give the order as a table in a file."""
    terms, wanted = get_terms_for(request.user, shop, program), kind_of(kind)
    found, _fault = _order(terms)
    if found is None:
        return redirect("shop-order", shop=shop, program=program)
    return table_answer(request, order_table(found, sent_order(terms)), wanted)


def _send(request: HttpRequest, terms: Terms) -> HttpResponse:
    try:
        freeze_and_order(terms, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
        messages.success(request, _("The head-count is frozen and the order is kept as sent."))
    except WrongState as error:
        messages.error(request, error.remedy)
    return redirect("shop-order", shop=terms.shop.slug, program=terms.program.slug)


def _order(terms: Terms) -> tuple[Order | None, str]:
    """Work the order out; where it cannot be, say why."""
    try:
        return order_of(terms), ""
    except ProgramError as error:
        return None, _("The designer's numbers cannot be worked out: {what}").format(what=error.remedy)
    except LongerThanBolt as error:
        words = _(
            "A cut of {fabric} is longer than a bolt of it. Ask for longer bolts, and say their length."
        )
        return None, words.format(fabric=error.fabric)
