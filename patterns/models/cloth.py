"""Fabrics as a designer keeps them."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from patterns.enums import Direction
from patterns.models.fields import InchesField


class Collection(models.Model):
    """A designer's line of prints."""

    owner = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="collections")
    name = models.CharField(_("name"), max_length=120)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=("owner", "name"), name="collection_named_once_per_owner"),
        )

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class Fabric(models.Model):
    """One print or basic: a cloth with a width, a weight and a direction."""

    collection = models.ForeignKey(Collection, on_delete=models.PROTECT, related_name="fabrics")
    number = models.CharField(_("number"), max_length=40)
    name = models.CharField(_("name"), max_length=120)
    colour = models.CharField(_("colour"), max_length=7, help_text=_("The middle colour, as #RRGGBB."))
    value = models.PositiveSmallIntegerField(_("value"), default=5, help_text=_("1 is lightest, 10 darkest."))
    direction = models.CharField(_("direction"), max_length=8, choices=Direction, default=Direction.NONE)
    nominal_width = InchesField(_("width with selvages"), default="44")
    usable_width = InchesField(_("usable width"), default="40")
    weight_gsm = models.PositiveSmallIntegerField(_("weight in g/m²"), default=150)
    fibre = models.CharField(_("fibre"), max_length=120, blank=True)
    bleeds = models.BooleanField(_("may bleed in the wash"), default=False)
    basic = models.BooleanField(
        _("basic"), default=False, help_text=_("A basic stays in production; a print is bought once.")
    )

    class Meta:
        ordering = ("collection", "number")
        constraints = (
            models.UniqueConstraint(fields=("collection", "number"), name="fabric_numbered_once"),
            models.CheckConstraint(condition=models.Q(value__range=(1, 10)), name="fabric_value_1_to_10"),
        )

    def __str__(self) -> str:
        """Give the name."""
        return self.name

    @property
    def may_turn(self) -> bool:
        """Whether pieces of this print may be turned by a quarter."""
        return self.direction == Direction.NONE
