"""What bolts cost a shop, and how long they come."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django import forms
from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.exceptions import ValidationError
from django.db import transaction
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bom.domain.allowance_words import SOLD_BY, sold_by_text
from bom.errors import WrongState
from patterns.engine.measure import inches, write_inches
from patterns.models.fields import InchesFormField
from shops.domain.offers import Bolt, fabrics_of, keep_offers
from shops.domain.orders import offers_of
from shops.domain.steps_of_sale import keep_step
from shops.permissions import get_terms_to_order
from shops.web.shop_words import shop_page

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from patterns.models import Fabric, User
    from shops.models import FabricOffer, Terms

USUAL = {
    "length": Fraction(540),
    "end_loss": Fraction(1),
}  # 15 yd nominal, 1 in to straighten (common practice)


class StepForm(forms.Form):
    """By what step the shop sells fabric."""

    sold_by = forms.ChoiceField(
        label=gettext_lazy("Fabric is sold by"),
        required=False,
        help_text=gettext_lazy("Packets are rounded up to it; none holds less than the sheet says."),
    )

    def __init__(self, data: Any, *, terms: Terms) -> None:
        """Offer the program's own step first."""
        step = terms.sold_by
        super().__init__(data, initial={"sold_by": write_inches(step) if step else ""})
        own = _("as on the sheet, {step}").format(step=sold_by_text(terms.program.sold_by))
        steps = dict.fromkeys((*SOLD_BY, *([step] if step else [])))
        self.fields["sold_by"].choices = [  # type: ignore[attr-defined]  # a ChoiceField
            ("", own),
            *((write_inches(each), sold_by_text(each)) for each in steps),
        ]

    def step(self) -> Fraction | None:
        """Give the step, or None for the program's."""
        chosen = self.cleaned_data["sold_by"]
        return inches(chosen) if chosen else None


class BoltForm(forms.Form):
    """One fabric: what a bolt costs, how long it is, what straightening takes."""

    price = forms.DecimalField(
        label=gettext_lazy("price of a bolt"), min_value=Decimal("0.01"), max_digits=9, decimal_places=2
    )
    length = InchesFormField(label=gettext_lazy("length, inches"), max_length=20)
    end_loss = InchesFormField(label=gettext_lazy("to straighten, inches"), max_length=20)

    def __init__(self, data: Any, *, fabric: Fabric, offer: FabricOffer | None) -> None:
        """Begin with what is known, or with the usual bolt."""
        known = (
            {"price": offer.price_per_bolt, "length": offer.bolt_length, "end_loss": offer.end_loss}
            if offer
            else USUAL
        )
        super().__init__(data, initial=known, prefix=f"f{fabric.pk}")
        self.fabric = fabric
        for field in self.fields.values():
            field.widget.attrs["aria-label"] = f"{fabric.name}, {field.label}"

    def clean(self) -> dict[str, Any]:
        """Refuse a bolt that is no longer than what straightening takes."""
        found: dict[str, Any] = self.cleaned_data
        if "length" in found and "end_loss" in found and found["length"] <= found["end_loss"]:
            raise ValidationError({"length": _("Longer than what straightening takes.")})
        return found

    def bolt(self) -> Bolt:
        """Give how the fabric comes."""
        found = self.cleaned_data
        return Bolt(
            fabric=self.fabric, price=found["price"], length=found["length"], end_loss=found["end_loss"]
        )


@login_required
def prices(request: HttpRequest, shop: str, program: str) -> HttpResponse:
    """Show and keep what bolts cost."""
    terms = get_terms_to_order(request.user, shop, program)
    data = request.POST if request.method == "POST" else None
    rows, step = _forms(terms, data), StepForm(data, terms=terms)
    is_sent = data is not None and all([row.is_valid() for row in (*rows, step)])  # noqa: C419 -- every row is checked, not up to the first fault
    if is_sent and _kept(request, terms, rows=rows, step=step):
        return redirect("shop-order", shop=shop, program=program)
    return render(request, "shops/prices.html", shop_page(terms, "order", rows=rows, step=step))


def _kept(request: HttpRequest, terms: Terms, *, rows: list[BoltForm], step: StepForm) -> bool:
    """Keep bolts and step, both or neither; False with the reason on the form."""
    by: User = request.user  # type: ignore[assignment]  # signed in
    now = timezone.now()
    try:
        with transaction.atomic():
            keep_step(terms, step.step(), by=by, now=now)
            keep_offers(terms, [row.bolt() for row in rows], by=by, now=now)
    except WrongState as error:
        step.add_error("sold_by", error.remedy)
        return False
    messages.success(request, _("The bolts are kept, and the order follows."))
    return True


def _forms(terms: Terms, data: Any) -> list[BoltForm]:
    fabrics = fabrics_of(terms)
    offers = offers_of(terms, [fabric.pk for fabric in fabrics])
    return [BoltForm(data, fabric=fabric, offer=offers.get(fabric.pk)) for fabric in fabrics]
