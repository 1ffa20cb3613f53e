"""Sheets: immutable editions, their renderings, and reports about them."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from bom.enums import Paper, PrintSize, ProblemState, UnitsChoice
from bom.models.programs import Installment
from patterns.models import Colorway


class SheetEdition(models.Model):
    """One state of an installment's sheet over all its colorways; never changed once made."""

    installment = models.ForeignKey(Installment, on_delete=models.PROTECT, related_name="editions")
    number = models.PositiveSmallIntegerField()
    content_hash = models.CharField(max_length=64)
    data = models.JSONField()  # what the sheet says, plain data, hashed
    change_line = models.CharField(_("what changed"), max_length=200, blank=True)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, related_name="+"
    )

    class Meta:
        ordering = ("installment", "-number")
        constraints = (
            models.UniqueConstraint(fields=("installment", "number"), name="edition_numbered_once"),
        )

    def __str__(self) -> str:
        """Name installment and edition."""
        return f"{self.installment} edition {self.number}"


class Rendering(models.Model):
    """One PDF of an edition; rendered once, kept by the hash of its bytes."""

    edition = models.ForeignKey(SheetEdition, on_delete=models.PROTECT, related_name="renderings")
    colorway = models.ForeignKey(Colorway, on_delete=models.PROTECT, related_name="+")
    paper = models.CharField(max_length=6, choices=Paper)
    units = models.CharField(max_length=15, choices=UnitsChoice)
    print_size = models.CharField(max_length=5, choices=PrintSize, default=PrintSize.USUAL)
    language = models.CharField(max_length=8, default="en")
    file = models.FileField(upload_to="sheets", max_length=200)
    sha256 = models.CharField(max_length=64)
    pages = models.PositiveSmallIntegerField()
    made_at = models.DateTimeField()

    class Meta:
        constraints = (
            models.UniqueConstraint(
                fields=("edition", "colorway", "paper", "units", "print_size", "language"),
                name="one_rendering_per_variant",
            ),
        )


class Problem(models.Model):
    """A report that something is wrong with a step."""

    installment = models.ForeignKey(Installment, on_delete=models.PROTECT, related_name="problems")
    edition = models.ForeignKey(SheetEdition, on_delete=models.PROTECT, null=True, blank=True)
    reporter = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="problems")
    step = models.CharField(_("step or page"), max_length=60, blank=True)
    words = models.TextField(_("what is wrong"))
    state = models.CharField(max_length=8, choices=ProblemState, default=ProblemState.NEW)
    made_at = models.DateTimeField()

    class Meta:
        ordering = ("-made_at",)
