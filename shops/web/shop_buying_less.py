"""Buying less than every seat: look at risks and money, sign, take back."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST

from bom.errors import ProgramError, WrongState
from patterns.domain.pictures import bars_svg
from patterns.engine.drawing_counts import Bar
from shops.domain.buying_less import (
    RISKS,
    Assumed,
    assumed_by,
    balancing_risk,
    given_back,
    less_of,
    months_of,
    sign_buying_less,
    signed,
    take_back_buying_less,
)
from shops.domain.head_count import sent_order
from shops.domain.order_risk import ONE_IN_TWENTY, RETENTION
from shops.domain.orders import Order, order_of
from shops.errors import LongerThanBolt
from shops.permissions import get_terms_to_order
from shops.web.shop_words import shop_page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from shops.models import Terms

CHART = 358  # px
USUAL = Assumed(risk=ONE_IN_TWENTY, retention=RETENTION)


class AssumedForm(forms.Form):
    """What is reckoned with, in parts of a hundred."""

    leave = forms.DecimalField(
        label=gettext_lazy("Of 100 people, so many leave each month"),
        min_value=Decimal(0),
        max_value=Decimal(50),
        max_digits=4,
        decimal_places=1,
    )
    resold = forms.DecimalField(
        label=gettext_lazy("Of 100 leavers' seats, so many are sold again at once"),
        min_value=Decimal(0),
        max_value=Decimal(100),
        max_digits=4,
        decimal_places=1,
    )
    risk = forms.DecimalField(
        label=gettext_lazy("A fabric may run short in so many years of 100"),
        min_value=Decimal("0.1"),
        max_value=Decimal(50),
        max_digits=4,
        decimal_places=1,
    )

    def assumed(self) -> Assumed:
        """Give the shares."""
        found = {name: Fraction(value) / 100 for name, value in self.cleaned_data.items()}
        return Assumed(risk=found["risk"], retention=1 - found["leave"], resold=found["resold"])


@login_required
def buying_less(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Show risks, installments and money; sign on POST."""
    terms = get_terms_to_order(request.user, shop, program)
    order, choice = _order(terms), signed(terms)
    if order is None or sent_order(terms):
        return redirect("shop-order", shop=shop, program=program)
    start = assumed_by(choice) if choice else USUAL
    data = request.POST if request.method == "POST" else request.GET if "risk" in request.GET else None
    form = AssumedForm(data, initial=_parts(start))
    is_good = form.is_valid()
    if request.method == "POST" and is_good:
        return _sign(request, order, form.assumed())
    assumed = form.assumed() if is_good else start
    context = {"form": form, "signed": choice, **(_page(order, assumed) if order.rows else {})}
    return render(request, "shops/buying_less.html", shop_page(terms, "order", **context))


@login_required
@require_POST
def take_back(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Order for every seat again; a second click changes nothing."""
    terms = get_terms_to_order(request.user, shop, program)
    try:
        if take_back_buying_less(terms, by=request.user, now=timezone.now()):  # type: ignore[arg-type]  # signed in
            messages.success(request, _("The order is for every seat again."))
    except WrongState as error:
        messages.error(request, error.remedy)
    return redirect("shop-order", shop=shop, program=program)


def _sign(request: HttpRequest, order: Order, assumed: Assumed) -> HttpResponse:
    terms = order.terms
    try:
        sign_buying_less(order, assumed, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
        messages.success(request, _("Your choice is signed, and the order follows."))
    except WrongState as error:
        messages.error(request, error.remedy)
    return redirect("shop-order", shop=terms.shop.slug, program=terms.program.slug)


def _page(order: Order, assumed: Assumed) -> dict[str, Any]:
    risks = sorted({*RISKS, assumed.risk})
    rows = [
        less_of(order, Assumed(risk=risk, retention=assumed.retention, resold=assumed.resold))
        for risk in risks
    ]
    months, any_short = months_of(order, assumed)
    balance = balancing_risk(order)
    return {
        "order": order,
        "less": less_of(order, assumed),
        "rows": [(_percent(row.risk), row, row.risk == assumed.risk) for row in rows],
        "months": [(each.number, _one_place(each.expected), each.packets) for each in months],
        "any_short": _percent(any_short),
        "given_back": given_back(order),
        "balance": None if balance is None else _percent(balance),
        "chart": _chart(order, [(_percent(row.risk), row.bolts) for row in rows]),
        "values": _parts(assumed),
    }


def _chart(order: Order, rows: list[tuple[str, int]]) -> str:
    bars = [Bar(label=_("all"), parts=(Fraction(order.bolts),), words=str(order.bolts))]
    bars += [Bar(label=risk, parts=(Fraction(bolts),), words=str(bolts)) for risk, bolts in rows]
    return bars_svg(bars, width_px=CHART, name=_("Bolts against risk"), unit="")


def _parts(assumed: Assumed) -> dict[str, str]:
    """Give shares in parts of a hundred, as they are typed."""
    shares = {"leave": 1 - assumed.retention, "resold": assumed.resold, "risk": assumed.risk}
    return {name: _one_place(share * 100) for name, share in shares.items()}


def _percent(share: Fraction) -> str:
    return f"{_one_place(share * 100)} %"


def _one_place(number: Fraction) -> str:
    tenths = round(number * 10)
    whole, rest = divmod(tenths, 10)
    return f"{whole}.{rest}" if rest else f"{whole}"


def _order(terms: Terms) -> Order | None:
    try:
        return order_of(terms)
    except (ProgramError, LongerThanBolt):
        return None
