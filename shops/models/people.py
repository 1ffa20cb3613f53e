"""Participants, their sign-ups, and the sheets they took."""

from __future__ import annotations

from typing import ClassVar

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from bom.enums import Paper, PrintSize, UnitsChoice
from bom.models import Installment, Rendering, SheetEdition
from patterns.models import Colorway, PlacedBlock
from shops.enums import Place, Takes
from shops.models.shops import Terms


class Participant(models.Model):
    """A person who signed up, and how this person likes sheets."""

    user = models.OneToOneField(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="participant"
    )
    units = models.CharField(_("measures"), max_length=15, choices=UnitsChoice, default=UnitsChoice.INCHES)
    paper = models.CharField(_("paper"), max_length=6, choices=Paper, default=Paper.LETTER)
    print_size = models.CharField(_("print"), max_length=5, choices=PrintSize, default=PrintSize.USUAL)

    def __str__(self) -> str:
        """Give the person's name."""
        return str(self.user)


class SignUpQuerySet(models.QuerySet["SignUp"]):
    """The words for who counts."""

    def seated(self) -> SignUpQuerySet:
        """Sign-ups that hold a seat and have not left."""
        return self.filter(place=Place.SEAT, left_on__isnull=True)

    def with_packet(self) -> SignUpQuerySet:
        """Seated sign-ups that take a packet."""
        return self.seated().exclude(takes=Takes.SHEET)


class SignUp(models.Model):
    """One seat or waiting place; two for a family is two rows."""

    terms = models.ForeignKey(Terms, on_delete=models.PROTECT, related_name="sign_ups")
    participant = models.ForeignKey(Participant, on_delete=models.PROTECT, related_name="sign_ups")
    number = models.PositiveSmallIntegerField(_("number"))
    packet_name = models.CharField(_("name on the packet"), max_length=60)
    colorway = models.ForeignKey(Colorway, on_delete=models.PROTECT, related_name="sign_ups")
    takes = models.CharField(_("takes"), max_length=6, choices=Takes, default=Takes.BOTH)
    place = models.CharField(_("place"), max_length=7, choices=Place, default=Place.SEAT)
    first_installment = models.PositiveSmallIntegerField(_("from installment"), default=1)
    joined_at = models.DateTimeField(_("signed up"))
    left_on = models.DateField(_("left"), null=True, blank=True)

    objects: ClassVar[models.Manager[SignUp]] = SignUpQuerySet.as_manager()

    class Meta:
        ordering = ("terms", "number")
        constraints = (models.UniqueConstraint(fields=("terms", "number"), name="sign_up_numbered_once"),)

    def __str__(self) -> str:
        """Name number and packet."""
        return f"{self.number} {self.packet_name}"


class SheetCopy(models.Model):
    """Who holds which edition: the first download of a rendering by a sign-up."""

    sign_up = models.ForeignKey(SignUp, on_delete=models.PROTECT, related_name="sheet_copies")
    rendering = models.ForeignKey(Rendering, on_delete=models.PROTECT, related_name="copies")
    first_taken_at = models.DateTimeField()
    stamp = models.CharField(max_length=120)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("sign_up", "rendering"), name="copy_recorded_once"),)


class SewnBlock(models.Model):
    """A block that a participant says is sewn."""

    sign_up = models.ForeignKey(SignUp, on_delete=models.CASCADE, related_name="sewn_blocks")
    placed_block = models.ForeignKey(PlacedBlock, on_delete=models.CASCADE, related_name="+")
    sewn_on = models.DateField()

    class Meta:
        constraints = (models.UniqueConstraint(fields=("sign_up", "placed_block"), name="block_sewn_once"),)


class Notice(models.Model):
    """A sign-up has been told of a release or a correction; the row makes a second pull harmless."""

    sign_up = models.ForeignKey(SignUp, on_delete=models.CASCADE, related_name="notices")
    installment = models.ForeignKey(Installment, on_delete=models.CASCADE, related_name="+")
    kind = models.CharField(max_length=20)  # "released", or "edition 2" of a correction
    made_at = models.DateTimeField()

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=("sign_up", "installment", "kind"), name="noticed_once"),
        )


class PickUp(models.Model):
    """A packet was given to a person; `edition` is the sheet's that it was cut from, where one was there."""

    sign_up = models.ForeignKey(SignUp, on_delete=models.CASCADE, related_name="pick_ups")
    installment = models.ForeignKey(Installment, on_delete=models.PROTECT, related_name="+")
    given_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    edition = models.ForeignKey(SheetEdition, on_delete=models.PROTECT, null=True, related_name="+")

    class Meta:
        constraints = (models.UniqueConstraint(fields=("sign_up", "installment"), name="picked_up_once"),)
