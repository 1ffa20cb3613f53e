"""Fabric orders, the bolts that came, and what has been cut."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from bom.models import Installment
from patterns.models import Fabric
from patterns.models.fields import InchesField
from shops.enums import OrderState
from shops.models.shops import Terms


class FabricOrder(models.Model):
    """What a shop ordered for one program, kept as sent."""

    terms = models.OneToOneField(Terms, on_delete=models.PROTECT, related_name="order")
    state = models.CharField(max_length=10, choices=OrderState, default=OrderState.SENT)
    sent_at = models.DateTimeField()
    sent_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    frozen_hash = models.CharField(max_length=64)  # the fabric freeze it was reckoned from


class BuyingLess(models.Model):
    """A shop's signed choice to order less than every seat: what it reckons with, who signed and when.

    All three are shares from 0 to 1.
    """

    terms = models.OneToOneField(Terms, on_delete=models.CASCADE, related_name="buying_less")
    risk = models.DecimalField(_("risk of running short"), max_digits=5, decimal_places=4)
    retention = models.DecimalField(_("who stays on each month"), max_digits=5, decimal_places=4)
    resold = models.DecimalField(_("leavers' seats sold again"), max_digits=5, decimal_places=4)
    signed_at = models.DateTimeField()
    signed_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")


class OrderLine(models.Model):
    """One fabric of an order."""

    order = models.ForeignKey(FabricOrder, on_delete=models.CASCADE, related_name="lines")
    fabric = models.ForeignKey(Fabric, on_delete=models.PROTECT, related_name="+")
    bolts = models.PositiveSmallIntegerField(_("bolts"))
    bolt_length = InchesField(_("length of a bolt"))
    price_per_bolt = models.DecimalField(max_digits=9, decimal_places=2)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("order", "fabric"), name="fabric_ordered_once"),)


class Bolt(models.Model):
    """A bolt as measured at check-in."""

    line = models.ForeignKey(OrderLine, on_delete=models.CASCADE, related_name="checked_bolts")
    name = models.CharField(_("bolt"), max_length=12)
    length = InchesField(_("measured length"))
    dye_lot = models.CharField(_("dye lot"), max_length=40, blank=True)


class CutCount(models.Model):
    """How many packets' cuts of one fabric have been made for an installment, and from which editions.

    `from_editions` counts the cuts by the number of the sheet's edition that stood when each was made;
    "0" is before the first.
    """

    terms = models.ForeignKey(Terms, on_delete=models.CASCADE, related_name="cut_counts")
    installment = models.ForeignKey(Installment, on_delete=models.PROTECT, related_name="+")
    fabric = models.ForeignKey(Fabric, on_delete=models.PROTECT, related_name="+")
    made = models.PositiveSmallIntegerField(default=0)
    from_editions = models.JSONField(default=dict)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=("terms", "installment", "fabric"), name="cuts_counted_once"),
        )
