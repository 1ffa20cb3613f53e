"""The form of what a packet costs beside its fabric."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Any, ClassVar

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shops.models import PricePlan

HEAVIEST = 30_000  # grams; no parcel service takes more in one parcel


class PricePlanForm(forms.ModelForm):
    """Licence, bag, labels, posting by weight, and the margin."""

    steps = forms.CharField(
        label=gettext_lazy("Posting by weight"),
        required=False,
        max_length=400,
        widget=forms.Textarea(attrs={"rows": 4}),
        help_text=gettext_lazy(
            "A line for each step: up to how many grams, and the price: 100 2.75. The lightest first."
        ),
    )

    class Meta:
        model = PricePlan
        fields: ClassVar[tuple[str, ...]] = (
            "sheet_licence",
            "bag",
            "label",
            "packing_grams",
            "margin_percent",
        )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        """Write the steps as lines."""
        super().__init__(*args, **kwargs)
        self.initial["steps"] = "\n".join(f"{grams} {price}" for grams, price in self.instance.posting)
        for name in ("sheet_licence", "bag", "label", "margin_percent"):
            self.fields[name].min_value = Decimal(0)  # type: ignore[attr-defined]  # a DecimalField

    def clean_margin_percent(self) -> Decimal:
        """Refuse margins that leave nothing for the cost."""
        return _within(self.cleaned_data["margin_percent"], most=Decimal("94.9"))

    def clean_sheet_licence(self) -> Decimal:
        """Refuse money below nothing."""
        return _within(self.cleaned_data["sheet_licence"])

    def clean_bag(self) -> Decimal:
        """Refuse money below nothing."""
        return _within(self.cleaned_data["bag"])

    def clean_label(self) -> Decimal:
        """Refuse money below nothing."""
        return _within(self.cleaned_data["label"])

    def clean_steps(self) -> list[list[Any]]:
        """Read the posting steps; a fault names its line."""
        found: list[list[Any]] = []
        for number, line in enumerate(self.cleaned_data["steps"].splitlines(), start=1):
            if line.strip():
                found.append(_step(line.split(), number, found))
        return found

    def save(self, commit: bool = True) -> PricePlan:  # noqa: FBT001, FBT002 -- Django's own signature
        """Keep the steps with the rest."""
        self.instance.posting = self.cleaned_data["steps"]
        plan: PricePlan = super().save(commit=commit)
        return plan


def _within(amount: Decimal, *, most: Decimal = Decimal("9999999.99")) -> Decimal:
    if not 0 <= amount <= most:
        raise ValidationError(_("Write an amount from 0 to %(most)s.") % {"most": most})
    return amount


def _step(words: list[str], number: int, before: list[list[Any]]) -> list[Any]:
    least = before[-1][0] if before else 0
    try:
        grams, price = words
        weight, amount = int(grams), Decimal(price.replace(",", "."))
    except (ValueError, InvalidOperation) as error:
        words_ = _("Line %(number)s: write grams and a price, such as 100 2.75.")
        raise ValidationError(words_ % {"number": number}) from error
    if not (least < weight <= HEAVIEST and amount.is_finite() and 0 <= amount < HEAVIEST):
        words_ = _("Line %(number)s: each step must be heavier than the one before, up to %(most)s g.")
        raise ValidationError(words_ % {"number": number, "most": HEAVIEST})
    return [weight, str(amount)]
