"""Check-in of bolts: what came of each fabric, what it gives, and who is served where it falls short."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.exceptions import ValidationError
from django.http import Http404
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_GET, require_POST

from bom.errors import ProgramError, WrongState
from patterns.models.fields import InchesFormField
from shops.domain.arrivals import arrivals_of
from shops.domain.check_in import Measured, check_in, take_back_check_in
from shops.domain.head_count import sent_order
from shops.domain.orders import Order, order_of
from shops.errors import LongerThanBolt
from shops.permissions import get_terms_for
from shops.web.shop_check_in_page import arrival_page, overview_page
from shops.web.shop_words import shop_page, units_at

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from shops.models import Bolt, OrderLine, Terms


class BoltCameForm(forms.Form):
    """One bolt as it came: its measured length and its dye lot; empty for one that did not come."""

    length = InchesFormField(label=gettext_lazy("measured length, inches"), max_length=20, required=False)
    dye_lot = forms.CharField(label=gettext_lazy("dye lot"), max_length=40, required=False)

    def __init__(self, data: Any, *, place: int, bolt: Bolt | None, end_loss: Fraction) -> None:
        """Begin with what was kept before."""
        known = {"length": bolt.length, "dye_lot": bolt.dye_lot} if bolt else {}
        super().__init__(data, initial=known, prefix=f"b{place}")
        self.place, self.end_loss = place, end_loss
        for field in self.fields.values():
            words = _("Bolt {number}, {field}")
            field.widget.attrs["aria-label"] = words.format(number=place, field=field.label)

    def clean(self) -> dict[str, Any]:
        """Refuse a lot without a length, and a bolt that straightening uses up."""
        found: dict[str, Any] = self.cleaned_data
        length = found.get("length")
        if "length" in found and length is None and found.get("dye_lot"):
            raise ValidationError({"length": _("Measure this bolt too, or leave its dye lot empty.")})
        if length is not None and length <= self.end_loss:
            raise ValidationError({"length": _("Longer than what straightening takes.")})
        return found

    def measured(self) -> Measured | None:
        """Give the bolt, or nothing where none came."""
        length = self.cleaned_data["length"]
        return Measured(length=length, dye_lot=self.cleaned_data["dye_lot"]) if length is not None else None


@login_required
@require_GET
def bolts_that_came(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Show every fabric of the sent order, what came of it, and who is served."""
    terms = get_terms_for(request.user, shop, program)
    sent, order = sent_order(terms), _order(terms)
    context = overview_page(order, sent, arrivals_of(order)) if sent and order else {}
    return render(
        request, "shops/check_in.html", shop_page(terms, "order", sent=sent, order=order, **context)
    )


@login_required
def bolts_of_fabric(request: HttpRequest, shop: str, program: str, fabric: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Show and keep the bolts of one fabric."""
    terms = get_terms_for(request.user, shop, program)
    line, order = _line(terms, fabric), _order(terms)
    came = arrivals_of(order).get(fabric) if order else None
    rows = _forms(line, request.POST if request.method == "POST" else None, terms)
    if request.method == "POST" and all([row.is_valid() for row in rows]):  # noqa: C419 -- every row is checked, not up to the first fault
        found = [bolt for row in rows if (bolt := row.measured())]
        if not found:
            rows[0].add_error("length", _("Write the measured length of at least one bolt that came."))
        elif _keep(request, line, found):
            return redirect("shop-check-in", shop=shop, program=program)
    context = arrival_page(came, units_at(terms)) if came else {}
    return render(
        request, "shops/check_in_fabric.html", shop_page(terms, "order", line=line, rows=rows, **context)
    )


@login_required
@require_POST
def take_back(request: HttpRequest, shop: str, program: str, fabric: int) -> HttpResponse:  # noqa: PLR0917 -- Django gives the parts of the address
    """Forget what was checked in of one fabric; a second click changes nothing."""
    terms = get_terms_for(request.user, shop, program)
    line = _line(terms, fabric)
    try:
        if take_back_check_in(line, by=request.user, now=timezone.now()):  # type: ignore[arg-type]  # signed in
            messages.success(
                request, _("The check-in of {name} is taken back.").format(name=line.fabric.name)
            )
    except WrongState as error:
        messages.error(request, error.remedy)
    return redirect("shop-check-in", shop=shop, program=program)


def _keep(request: HttpRequest, line: OrderLine, found: list[Measured]) -> bool:
    try:
        check_in(line, found, by=request.user, now=timezone.now())  # type: ignore[arg-type]  # signed in
    except WrongState as error:
        messages.error(request, error.remedy)
        return False
    messages.success(request, _("The bolts of {name} are checked in.").format(name=line.fabric.name))
    return True


def _line(terms: Terms, fabric: int) -> OrderLine:
    sent = sent_order(terms)
    line = sent.lines.select_related("fabric").filter(fabric=fabric).first() if sent else None
    if line is None:
        raise Http404
    return line


def _forms(line: OrderLine, data: Any, terms: Terms) -> list[BoltCameForm]:
    """Give a row for each bolt ordered or kept, and one more: a bolt may come in two pieces."""
    kept: list[Bolt | None] = [*line.checked_bolts.order_by("pk")]
    slots = max(line.bolts, len(kept)) + 1
    offer = terms.shop.fabric_offers.filter(fabric=line.fabric_id).first()
    end_loss = offer.end_loss if offer else Fraction(0)
    kept += [None] * (slots - len(kept))
    return [
        BoltCameForm(data, place=place, bolt=bolt, end_loss=end_loss) for place, bolt in enumerate(kept, 1)
    ]


def _order(terms: Terms) -> Order | None:
    try:
        return order_of(terms)
    except (ProgramError, LongerThanBolt):
        return None
