"""Shops, who works there, and what they agreed with a designer."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from bom.models import Program
from patterns.models import Colorway, Fabric, QuiltLetter
from patterns.models.fields import InchesField
from shops.enums import ShopRole


class Shop(models.Model):
    """A quilt shop in its own time and money."""

    slug = models.SlugField(_("address"), max_length=60, unique=True)
    name = models.CharField(_("name"), max_length=120)
    place = models.CharField(_("place"), max_length=120)
    country = models.CharField(_("country"), max_length=2)
    zone = models.CharField(_("time zone"), max_length=60)
    currency = models.CharField(_("currency"), max_length=3)
    tax_included = models.BooleanField(_("prices include tax"), default=False)
    tax_percent = models.DecimalField(_("tax, per cent"), max_digits=5, decimal_places=2, default=0)
    language = models.CharField(_("language"), max_length=8, default="en")
    email = models.EmailField(_("e-mail"), blank=True)

    class Meta:
        ordering = ("name",)

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class ShopMember(models.Model):
    """A person who works in a shop."""

    shop = models.ForeignKey(Shop, on_delete=models.CASCADE, related_name="members")
    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="shop_roles")
    role = models.CharField(max_length=7, choices=ShopRole)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("shop", "user"), name="one_role_per_shop_member"),)


class Terms(models.Model):
    """One shop's terms for one program: fees, seats, dates.  Money is in the shop's currency."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="terms")
    program = models.ForeignKey(Program, on_delete=models.PROTECT, related_name="terms")
    sign_up_fee = models.DecimalField(_("fee at sign-up"), max_digits=9, decimal_places=2)
    monthly_fee = models.DecimalField(_("fee per month with a packet"), max_digits=9, decimal_places=2)
    finishing_fee = models.DecimalField(_("finishing fabric"), max_digits=9, decimal_places=2, default=0)
    cap = models.PositiveSmallIntegerField(_("seats"))
    quota = models.PositiveSmallIntegerField(_("least needed"), default=0)
    spares = models.PositiveSmallIntegerField(_("spare packets"), default=2)
    first_packets = models.PositiveSmallIntegerField(_("first packets"), default=1)
    samples = models.PositiveSmallIntegerField(_("samples for the window"), default=1)
    sign_up_until = models.DateField(_("sign-up closes"))
    head_count_day = models.DateField(_("head-count freeze"))
    order_by_day = models.DateField(_("order by"))
    bolts_due_day = models.DateField(_("bolts due"))
    sold_by = InchesField(_("fabric is sold by"), null=True, blank=True)  # none: by the program's step
    hold_hours = models.PositiveSmallIntegerField(_("shop holds the sheet back, hours"), default=0)
    pick_up = models.CharField(_("pick-up"), max_length=120, blank=True)
    missed_months = models.TextField(_("if you miss a month"), blank=True)
    head_count_frozen_at = models.DateTimeField(null=True, blank=True)
    head_count_frozen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    frozen_seats = models.JSONField(default=dict, blank=True)  # colorway slug -> seats

    class Meta:
        verbose_name_plural = "terms"
        ordering = ("program", "shop")
        constraints = (
            models.UniqueConstraint(fields=("shop", "program"), name="one_terms_per_shop_and_program"),
        )

    def __str__(self) -> str:
        """Name shop and program."""
        return f"{self.shop}: {self.program}"

    @property
    def head_count_is_frozen(self) -> bool:
        """Whether this shop has fixed how many people the order is for."""
        return self.head_count_frozen_at is not None


class ColorwayOffer(models.Model):
    """A colorway that a shop sells, with its own cap."""

    terms = models.ForeignKey(Terms, on_delete=models.CASCADE, related_name="colorways")
    colorway = models.ForeignKey(Colorway, on_delete=models.PROTECT, related_name="offers")
    cap = models.PositiveSmallIntegerField(_("seats"))

    class Meta:
        ordering = ("colorway__position",)
        constraints = (models.UniqueConstraint(fields=("terms", "colorway"), name="colorway_offered_once"),)


class FabricOffer(models.Model):
    """What a fabric costs a shop, how it comes, and how wide it measured."""

    shop = models.ForeignKey(Shop, on_delete=models.CASCADE, related_name="fabric_offers")
    fabric = models.ForeignKey(Fabric, on_delete=models.PROTECT, related_name="offers")
    price_per_bolt = models.DecimalField(_("price per bolt"), max_digits=9, decimal_places=2)
    bolt_length = InchesField(_("length of a bolt"), default="540")
    end_loss = InchesField(_("taken to straighten each bolt"), default="1")
    lead_days = models.PositiveSmallIntegerField(_("days until it arrives"), default=81)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=("shop", "fabric"), name="fabric_offered_once_per_shop"),
        )


class Swap(models.Model):
    """A substitution at one shop: from an installment on, another fabric stands for a letter."""

    terms = models.ForeignKey(Terms, on_delete=models.CASCADE, related_name="swaps")
    colorway = models.ForeignKey(Colorway, on_delete=models.PROTECT, related_name="swaps")
    letter = models.ForeignKey(QuiltLetter, on_delete=models.PROTECT, related_name="+")
    from_installment = models.PositiveSmallIntegerField(_("from installment"))
    fabric = models.ForeignKey(Fabric, on_delete=models.PROTECT, related_name="+")
    adopted_at = models.DateTimeField()
    adopted_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")

    class Meta:
        ordering = ("colorway__position", "letter__hatch")
        constraints = (
            models.UniqueConstraint(fields=("terms", "colorway", "letter"), name="letter_swapped_once"),
        )
