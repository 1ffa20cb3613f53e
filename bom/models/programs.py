"""A block of the month as one designer releases it."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from bom.enums import GateName, InstallmentState, PartKind, ProgramRole, ProgramState
from patterns.enums import HouseStyleChoice, UnnestedChoice
from patterns.models import PlacedBlock, Quilt
from patterns.models.fields import InchesField


class Program(models.Model):
    """A year of installments over one quilt.  Allowances are settings and stand on every sheet."""

    slug = models.SlugField(_("address"), max_length=60, unique=True)
    title = models.CharField(_("title"), max_length=120)
    lead = models.TextField(_("lead"), blank=True)
    designer = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="programs")
    studio = models.CharField(_("published by"), max_length=120, blank=True)
    quilt = models.OneToOneField(Quilt, on_delete=models.PROTECT, related_name="program")
    language = models.CharField(_("language"), max_length=8, default="en")
    zone = models.CharField(_("time zone"), max_length=60)
    invented = models.BooleanField(_("invented, for showing"), default=False)
    state = models.CharField(max_length=8, choices=ProgramState, default=ProgramState.DRAFT)

    centimetres = models.BooleanField(_("a quilt made in centimetres"), default=False)
    seam = InchesField(_("seam allowance"), default="1/4")
    cutting_step = InchesField(_("cutting step"), default="1/8")
    house_style = models.CharField(
        _("house style"), max_length=9, choices=HouseStyleChoice, default=HouseStyleChoice.OVERSIZED
    )
    half_square_over = InchesField(_("room to trim, half-square triangles"), default="1/8")
    quarter_square_over = InchesField(_("room to trim, quarter-square triangles and geese"), default="1/4")
    unnested = models.CharField(
        _("where seams cannot nest"), max_length=11, choices=UnnestedChoice, default=UnnestedChoice.CLASSES
    )
    squaring_up = InchesField(_("squaring up, per cut of fabric"), default="1")
    cutting_tolerance = InchesField(_("shop's cutting tolerance, per half yard"), default="1/2")
    binding_tail = InchesField(_("binding tail"), default="10")
    spare_strip = models.BooleanField(_("one spare strip per fabric"), default=False)
    prewash = models.BooleanField(_("the fabric is washed before it is cut"), default=False)
    shrinkage_percent = models.DecimalField(
        _("washing takes, per cent"), max_digits=3, decimal_places=1, default=Decimal(5)
    )
    sold_by = InchesField(_("fabric is sold by"), default="9/2")
    precuts = models.JSONField(default=list, blank=True)  # names of patterns.engine.precut_sizes

    suggested_monthly = models.DecimalField(
        _("suggested price of a month"), max_digits=9, decimal_places=2, null=True, blank=True
    )
    suggested_currency = models.CharField(_("currency"), max_length=3, blank=True)

    rule = models.CharField(
        _("release rule"), max_length=200, help_text=_("RFC 5545, e.g. FREQ=MONTHLY;BYDAY=3SA")
    )
    first_day = models.DateField(_("first day to look from"))
    release_time = models.TimeField(_("time of day"))

    frozen_at = models.DateTimeField(_("fabric freeze"), null=True, blank=True)
    frozen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    frozen_need = models.JSONField(default=dict, blank=True)  # see bom.domain.freezing: needs by colorway
    frozen_work = models.JSONField(default=dict, blank=True)  # see bom.domain.freezing: parts by installment
    frozen_hash = models.CharField(max_length=64, blank=True)

    class Meta:
        constraints = (
            models.CheckConstraint(
                condition=models.Q(shrinkage_percent__gte=0, shrinkage_percent__lt=50),
                name="washing_leaves_half_of_a_fabric",
            ),
        )

    def __str__(self) -> str:
        """Give the title."""
        return self.title

    @property
    def is_frozen(self) -> bool:
        """Whether the fabric freeze has been passed."""
        return self.frozen_at is not None


class ProgramMember(models.Model):
    """Somebody who works on a program besides its designer."""

    program = models.ForeignKey(Program, on_delete=models.CASCADE, related_name="members")
    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="program_roles")
    role = models.CharField(max_length=8, choices=ProgramRole)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=("program", "user", "role"), name="one_role_once_per_program"),
        )


class Gate(models.Model):
    """A gate of the whole program that has been passed."""

    program = models.ForeignKey(Program, on_delete=models.CASCADE, related_name="gates")
    name = models.CharField(max_length=20, choices=GateName)
    passed_on = models.DateField()
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        constraints = (models.UniqueConstraint(fields=("program", "name"), name="gate_passed_once"),)


class InstallmentQuerySet(models.QuerySet["Installment"]):
    """The words for what is due and what may be seen."""

    def due(self, at: datetime) -> InstallmentQuerySet:
        """Scheduled installments whose instant has come, a missed one included."""
        return self.filter(state=InstallmentState.SCHEDULED, release_at__lte=at)

    def open_at(self, at: datetime) -> InstallmentQuerySet:
        """Installments whose sheet may be had: read from the row, not from a flag that a sweep sets."""
        states = (InstallmentState.SCHEDULED, InstallmentState.RELEASED)
        return self.filter(state__in=states, release_at__lte=at)


class Installment(models.Model):
    """One dated part of a program; it may hold any number of parts, or none."""

    program = models.ForeignKey(Program, on_delete=models.CASCADE, related_name="installments")
    number = models.PositiveSmallIntegerField(_("number"))
    title = models.CharField(_("title"), max_length=120)
    story = models.TextField(_("story"), blank=True)
    tips = models.TextField(_("tips"), blank=True)
    state = models.CharField(max_length=9, choices=InstallmentState, default=InstallmentState.DRAFT)
    wall_day = models.DateField(_("day"), null=True, blank=True)
    wall_time = models.TimeField(_("time of day"), null=True, blank=True)
    fold = models.PositiveSmallIntegerField(default=0)
    by_exception = models.BooleanField(_("moved by hand"), default=False)
    release_at = models.DateTimeField(null=True, blank=True)  # derived from wall day, time, fold and zone
    due_day = models.DateField(_("show it by"), null=True, blank=True)
    carried = models.JSONField(default=dict, blank=True)  # letter -> number of the packet that holds it

    objects: ClassVar[models.Manager[Installment]] = InstallmentQuerySet.as_manager()

    class Meta:
        ordering = ("program", "number")
        constraints = (
            models.UniqueConstraint(fields=("program", "number"), name="installment_numbered_once"),
            models.CheckConstraint(
                condition=~models.Q(state__in=("scheduled", "released")) | models.Q(release_at__isnull=False),
                name="scheduled_has_an_instant",
            ),
        )

    def __str__(self) -> str:
        """Give number and title."""
        return f"{self.number} {self.title}"


class InstallmentPart(models.Model):
    """What an installment holds: a placed block, or a part of the whole quilt."""

    installment = models.ForeignKey(Installment, on_delete=models.CASCADE, related_name="parts")
    kind = models.CharField(max_length=8, choices=PartKind)
    placed_block = models.OneToOneField(
        PlacedBlock, on_delete=models.PROTECT, null=True, blank=True, related_name="installment_part"
    )
    position = models.PositiveSmallIntegerField(default=0)

    class Meta:
        ordering = ("position", "pk")
        constraints = (
            models.CheckConstraint(
                condition=models.Q(kind="block", placed_block__isnull=False)
                | (~models.Q(kind="block") & models.Q(placed_block__isnull=True)),
                name="block_part_has_its_block",
            ),
        )
