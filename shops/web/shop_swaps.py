"""Substitution at one shop: choose where, look at what may stand in and what it does, adopt, take back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_POST

from bom.errors import ProgramError, WrongState
from patterns.models import Colorway, Fabric, QuiltLetter
from shops.domain.own_colorways import own_colorways
from shops.domain.substitute_orders import order_substitutes
from shops.domain.swap_letters import adopt_by_mail, take_back_by_mail
from shops.domain.swaps import SwapPlace
from shops.permissions import get_terms_for, get_terms_to_order, may_order
from shops.web.shop_swaps_page import swap_page
from shops.web.shop_words import shop_page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from shops.models import Terms


class WhereForm(forms.Form):
    """Where a fabric is substituted: colorway, letter, and from which installment on."""

    colorway = forms.ModelChoiceField(
        label=gettext_lazy("Colorway"), queryset=Colorway.objects.none(), empty_label=None
    )
    letter = forms.ModelChoiceField(
        label=gettext_lazy("Letter"), queryset=QuiltLetter.objects.none(), empty_label=None
    )
    number = forms.TypedChoiceField(label=gettext_lazy("From installment"), coerce=int)

    def __init__(self, data: Any, *, terms: Terms) -> None:
        """Offer what the shop sells, the quilt's letters and the program's installments."""
        super().__init__(data)
        quilt = terms.program.quilt
        self.fields["colorway"].queryset = Colorway.objects.filter(offers__terms=terms)  # type: ignore[attr-defined]  # a ModelChoiceField
        letters: Any = self.fields["letter"]
        letters.queryset = quilt.letters.all()
        letters.label_from_instance = lambda row: f"{row.letter} {row.role}"
        self.fields["number"].choices = [  # type: ignore[attr-defined]  # a ChoiceField
            (each.number, f"{each.number} {each.title}") for each in terms.program.installments.all()
        ]

    def place(self, terms: Terms) -> SwapPlace:
        """Give the place that was chosen."""
        found = self.cleaned_data
        return SwapPlace(
            terms=terms, colorway=found["colorway"], letter=found["letter"], number=found["number"]
        )


@login_required
def substitutes(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Show what is substituted; look at a substitution before it is adopted; adopt it."""
    terms = get_terms_for(request.user, shop, program)
    if request.method == "POST":
        return _adopt(request, get_terms_to_order(request.user, shop, program))
    form = WhereForm(request.GET if "letter" in request.GET else None, terms=terms)
    context: dict[str, Any] = {
        "form": form,
        "swaps": own_colorways(terms).swaps,
        "may_order": may_order(request.user, terms),
    }
    if form.is_valid():
        try:
            context |= swap_page(form.place(terms), _fabric(request.GET.get("fabric", "")))
        except ProgramError as error:
            context["fault"] = error.remedy
    return render(request, "shops/swaps.html", shop_page(terms, "order", **context))


@login_required
@require_POST
def give_back(request: HttpRequest, shop: str, program: str, swap: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Take a substitution back; a second click changes nothing."""
    terms = get_terms_to_order(request.user, shop, program)
    found = terms.swaps.select_related("letter", "fabric", "colorway").filter(pk=swap).first()
    try:
        if found:
            take_back_by_mail(found, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
            messages.success(request, _("The designer's fabric stands for the letter again."))
    except WrongState as error:
        messages.error(request, error.remedy)
    return redirect("shop-swaps", shop=shop, program=program)


@login_required
@require_POST
def order(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Add what stands in to the order that is sent; a second click adds nothing."""
    terms = get_terms_to_order(request.user, shop, program)
    try:
        bolts = order_substitutes(terms, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
        words = ngettext(
            "{count} bolt is added to the order.", "{count} bolts are added to the order.", bolts
        )
        messages.success(request, words.format(count=bolts))
    except WrongState as error:
        messages.error(request, error.remedy)
    return redirect("shop-order", shop=shop, program=program)


def _adopt(request: HttpRequest, terms: Terms) -> HttpResponse:
    form, fabric = WhereForm(request.POST, terms=terms), _fabric(request.POST.get("fabric", ""))
    if not form.is_valid() or fabric is None:
        raise Http404
    try:
        told = adopt_by_mail(form.place(terms), fabric, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
        words = ngettext(
            "{name} stands in; order, packets, labels and sheets follow. {count} person is told by mail.",
            "{name} stands in; order, packets, labels and sheets follow. {count} people are told by mail.",
            told,
        )
        messages.success(request, words.format(name=fabric, count=told))
    except WrongState as error:
        messages.error(request, error.remedy)
    return redirect("shop-swaps", shop=terms.shop.slug, program=terms.program.slug)


def _fabric(key: str) -> Fabric | None:
    is_key = key.isascii() and key.isdigit() and len(key) < 10  # noqa: PLR2004 -- longer is no key of a row
    return Fabric.objects.filter(pk=int(key)).first() if is_key else None
