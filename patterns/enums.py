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
    ROWS = "rows", _("rows, each with blocks of its own size")
    RUNNER = "runner", _("one row on point, its ends pointed")


class BorderCorners(TextChoices):
    """What becomes of the corners of a border."""

    BUTTED = "butted", _("butted, sides first")
    SQUARES = "corner squares", _("corner squares")
    MITRED = "mitred", _("mitred")


class BindingCut(TextChoices):
    """How the strips of a binding are cut."""

    STRAIGHT = "straight", _("straight, across the fabric")
    BIAS = "bias", _("on the bias, from one square")


class HouseStyleChoice(TextChoices):
    """Whether units are cut to size or cut larger and trimmed."""

    EXACT = "exact", _("cut exact")
    OVERSIZED = "oversized", _("cut oversized and trim")


class UnnestedChoice(TextChoices):
    """What is done where seams of copies pressed alike cannot nest, as `Unnested` of the engine."""

    CLASSES = "two classes", _("press some copies the other way")
    OPEN = "open", _("press open what else would go toward the light")


class BlockCategory(TextChoices):
    """The families of traditional blocks, as their drawing files name them."""

    FOUR_PATCH = "four-patch", _("four-patch")
    FIVE_PATCH = "five-patch", _("five-patch")
    SEVEN_PATCH = "seven-patch", _("seven-patch")
    NINE_PATCH = "nine-patch", _("nine-patch")
    ONE_PATCH = "one-patch", _("one-patch")
    STARS = "stars", _("stars")
    LOG_CABINS = "log cabins", _("log cabins")
    STRIPS = "strips", _("strips")
    BASKETS = "baskets", _("baskets")
    PICTURES = "pictures", _("pictures")
    HEXAGONS = "hexagons", _("hexagons")
    CURVES = "curves", _("curves")
