"""Closed lists of choices of the patterns app."""

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy as _


class Direction(TextChoices):
    """Whether a print looks different when it is turned."""

    NONE = "none", _("no direction")
    TWO_WAY = "two-way", _("two-way")
    ONE_WAY = "one-way", _("one-way")
    STRIPE = "stripe", _("stripe")
    PANEL = "panel", _("panel")


class SettingKind(TextChoices):
    """How the blocks are set in the quilt."""

    STRAIGHT = "straight", _("straight")
    ON_POINT = "on point", _("on point")


class HouseStyleChoice(TextChoices):
    """Whether units are cut to size or cut larger and trimmed."""

    EXACT = "exact", _("cut exact")
    OVERSIZED = "oversized", _("cut oversized and trim")
