"""Closed lists of choices of the shops app."""

from django.db.models import TextChoices
from django.utils.translation import gettext_lazy as _


class ShopRole(TextChoices):
    """What a person does in a shop."""

    MANAGER = "manager", _("manager")
    CUTTER = "cutter", _("cuts packets")


class Takes(TextChoices):
    """What a sign-up gets each month."""

    BOTH = "both", _("packet and sheet")
    PACKET = "packet", _("packet only")
    SHEET = "sheet", _("sheet only")


class Place(TextChoices):
    """A seat, or a place on the waiting list."""

    SEAT = "seat", _("seat")
    WAITING = "waiting", _("waiting list")


class OrderState(TextChoices):
    """The states of a fabric order."""

    SENT = "sent", _("sent")
    CHECKED_IN = "checked in", _("checked in")


class PacketFor(TextChoices):
    """What a packet is for; only a person's has a name on it."""

    PERSON = "person", _("Person")
    FIRST = "first", _("First packet")
    SAMPLE = "sample", _("For the window")
    SPARE = "spare", _("Spare")
