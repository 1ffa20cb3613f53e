"""What a packet costs a shop beside its fabric, and what the shop wants to keep."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from shops.models.shops import Terms


class PricePlan(models.Model):
    """How one shop reckons its price for one program; money is in the shop's currency, before tax."""

    terms = models.OneToOneField(Terms, on_delete=models.CASCADE, related_name="price_plan")
    sheet_licence = models.DecimalField(_("licence of one sheet"), max_digits=9, decimal_places=2, default=0)
    bag = models.DecimalField(_("bag"), max_digits=9, decimal_places=2, default=0)
    label = models.DecimalField(_("labels"), max_digits=9, decimal_places=2, default=0)
    packing_grams = models.PositiveSmallIntegerField(_("paper and bag, grams"), default=15)
    margin_percent = models.DecimalField(
        _("margin, per cent of the price"), max_digits=3, decimal_places=1, default=40
    )
    posting = models.JSONField(default=list, blank=True)  # [[up to grams, "price"], ...], rising

    class Meta:
        constraints = (
            models.CheckConstraint(
                condition=models.Q(
                    sheet_licence__gte=0,
                    bag__gte=0,
                    label__gte=0,
                    margin_percent__gte=0,
                    margin_percent__lt=95,
                ),
                name="price_plan_adds_up",
            ),
        )
