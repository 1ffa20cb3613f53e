"""Blocks and quilts as a designer keeps them; drawings are data, sizes are exact."""

from __future__ import annotations

from fractions import Fraction
from typing import ClassVar

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from patterns.enums import BindingCut, BorderCorners, SettingKind
from patterns.models.cloth import Fabric
from patterns.models.fields import InchesField

QUILT_BORDERS = ("border", "second_border", "third_border")  # from the inside out; how their fields begin
QUILT_LETTERS = (
    "sashing_letter",
    "cornerstone_letter",
    "triangle_letter",
    "fill_letter",
    "plain_letter",
    "border_letter",
    "border_corner_letter",
    "second_border_letter",
    "second_border_corner_letter",
    "third_border_letter",
    "third_border_corner_letter",
    "binding_letter",
    "sleeve_letter",
    "backing_letter",
)  # the fields of a quilt that name the fabric of a part of it
QUILT_CHOICES: dict[str, type[models.TextChoices]] = {
    "setting": SettingKind,
    **{f"{border}_corners": BorderCorners for border in QUILT_BORDERS},
    "binding_cut": BindingCut,
}  # the fields of a quilt with a closed list of values, the usual one first
QUILT_BLOCKS = tuple(f"{border}_block" for border in QUILT_BORDERS)  # what a pieced border repeats


class Block(models.Model):
    """A drawn block; traditional ones belong to nobody."""

    owner = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="blocks"
    )
    slug = models.SlugField(_("address"), max_length=80)
    name = models.CharField(_("name"), max_length=120)
    category = models.CharField(_("category"), max_length=60, blank=True)
    drawing = models.JSONField(_("drawing"))  # the block drawing file

    class Meta:
        ordering = ("name",)
        constraints = (
            models.UniqueConstraint(fields=("owner", "slug"), name="block_slug_once_per_owner"),
            models.UniqueConstraint(
                fields=("slug",), condition=models.Q(owner__isnull=True), name="traditional_block_slug_once"
            ),
        )

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class Quilt(models.Model):
    """A setting of blocks.  Widths are finished inches; an empty letter means the part is not there."""

    owner = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="quilts")
    name = models.CharField(_("name"), max_length=120)
    setting = models.CharField(_("setting"), max_length=10, choices=SettingKind, default=SettingKind.STRAIGHT)
    rows = models.PositiveSmallIntegerField(_("rows"))
    columns = models.PositiveSmallIntegerField(_("columns"))
    block_size = InchesField(_("finished size of a block's place"))
    sashing_width = InchesField(_("sashing, finished width"), default="0")
    sashing_outside = models.BooleanField(_("sashing also outside"), default=False)
    sashing_letter = models.CharField(_("sashing"), max_length=3, blank=True)
    cornerstone_letter = models.CharField(_("cornerstones"), max_length=3, blank=True)
    triangle_letter = models.CharField(_("setting triangles"), max_length=3, blank=True)
    fill_letter = models.CharField(_("strips that fill short rows"), max_length=3, blank=True)
    plain_letter = models.CharField(_("plain squares in places without a block"), max_length=3, blank=True)
    border_width = InchesField(_("border, finished width"), default="0")
    border_letter = models.CharField(_("border"), max_length=3, blank=True)
    border_corners = models.CharField(
        _("corners of the border"), max_length=16, choices=BorderCorners, default=BorderCorners.BUTTED
    )
    border_corner_letter = models.CharField(_("corner squares of the border"), max_length=3, blank=True)
    border_block = models.ForeignKey(
        Block,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("block repeated along the border"),
    )
    second_border_width = InchesField(_("second border, finished width"), default="0")
    second_border_letter = models.CharField(_("second border"), max_length=3, blank=True)
    second_border_corners = models.CharField(
        _("corners of the second border"), max_length=16, choices=BorderCorners, default=BorderCorners.BUTTED
    )
    second_border_corner_letter = models.CharField(
        _("corner squares of the second border"), max_length=3, blank=True
    )
    second_border_block = models.ForeignKey(
        Block,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("block repeated along the second border"),
    )
    third_border_width = InchesField(_("third border, finished width"), default="0")
    third_border_letter = models.CharField(_("third border"), max_length=3, blank=True)
    third_border_corners = models.CharField(
        _("corners of the third border"), max_length=16, choices=BorderCorners, default=BorderCorners.BUTTED
    )
    third_border_corner_letter = models.CharField(
        _("corner squares of the third border"), max_length=3, blank=True
    )
    third_border_block = models.ForeignKey(
        Block,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("block repeated along the third border"),
    )
    binding_cut = models.CharField(
        _("binding, how it is cut"), max_length=10, choices=BindingCut, default=BindingCut.STRAIGHT
    )
    binding_strip = InchesField(_("binding strip, cut width"), default="5/2")
    binding_letter = models.CharField(_("binding"), max_length=3, blank=True)
    sleeve_letter = models.CharField(_("hanging sleeve"), max_length=3, blank=True)
    backing_letter = models.CharField(_("backing"), max_length=3, blank=True)
    backing_overage = InchesField(_("backing, more on each side"), default="4")
    backing_seam = InchesField(_("backing seam"), default="1/2")

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class QuiltLetter(models.Model):
    """A fabric letter of a quilt: letter, role and hatch stay the same in every colorway."""

    quilt = models.ForeignKey(Quilt, on_delete=models.CASCADE, related_name="letters")
    letter = models.CharField(_("letter"), max_length=3)
    role = models.CharField(_("role"), max_length=60)
    hatch = models.PositiveSmallIntegerField(_("hatch"))

    class Meta:
        ordering = ("hatch",)
        constraints = (
            models.UniqueConstraint(fields=("quilt", "letter"), name="letter_once_per_quilt"),
            models.UniqueConstraint(fields=("quilt", "hatch"), name="hatch_once_per_quilt"),
        )

    def __str__(self) -> str:
        """Give the letter."""
        return self.letter


class PlacedBlock(models.Model):
    """A block in its place of the quilt, its letters translated into the quilt's."""

    quilt = models.ForeignKey(Quilt, on_delete=models.CASCADE, related_name="placed_blocks")
    block = models.ForeignKey(Block, on_delete=models.PROTECT, related_name="placed")
    row = models.PositiveSmallIntegerField(_("row"))
    column = models.PositiveSmallIntegerField(_("column"))
    turn = models.PositiveSmallIntegerField(_("quarter turns"), default=0)
    own_size = InchesField(
        _("own finished size"),
        null=True,
        blank=True,
        help_text=_("Smaller than its place: strips of the frame's letter fill the place."),
    )
    frame_letter = models.CharField(_("frame"), max_length=3, blank=True)
    letters = models.JSONField(_("letters"), default=dict)  # block letter -> quilt letter
    methods = models.JSONField(_("methods"), default=dict, blank=True)  # unit key -> method

    class Meta:
        ordering = ("row", "column")
        constraints = (
            models.UniqueConstraint(fields=("quilt", "row", "column"), name="one_block_per_place"),
            models.CheckConstraint(condition=models.Q(turn__lt=4), name="turn_by_quarters"),
        )

    def __str__(self) -> str:
        """Name the block and its place."""
        return f"{self.block.name} ({self.row}, {self.column})"

    @property
    def size(self) -> Fraction:
        """Finished size of the block itself, inches."""
        return self.own_size if self.own_size is not None else self.quilt.block_size


class DesignedColorways(models.Manager["Colorway"]):
    """The designer's colorways; those that a shop made for its own people are left out."""

    def get_queryset(self) -> models.QuerySet[Colorway]:
        """Leave out what stands for another colorway."""
        return super().get_queryset().filter(stands_for=None)


class Colorway(models.Model):
    """Which fabric stands for which letter.

    One that `stands_for` another is a shop's own, with a substitute in it: found only through
    `everything`, so that no page of the designer, no need and no edition ever holds it.
    """

    quilt = models.ForeignKey(Quilt, on_delete=models.CASCADE, related_name="colorways")
    slug = models.SlugField(_("address"), max_length=60)
    name = models.CharField(_("name"), max_length=60)
    position = models.PositiveSmallIntegerField(default=0)
    stands_for = models.ForeignKey(
        "self", on_delete=models.CASCADE, null=True, blank=True, related_name="own_colorways"
    )

    objects = DesignedColorways()
    everything: ClassVar[models.Manager[Colorway]] = models.Manager()

    class Meta:
        ordering = ("position", "slug")
        constraints = (models.UniqueConstraint(fields=("quilt", "slug"), name="colorway_slug_once"),)

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class ColorwayFabric(models.Model):
    """One letter's fabric in one colorway; two letters may be one fabric."""

    colorway = models.ForeignKey(Colorway, on_delete=models.CASCADE, related_name="fabrics")
    letter = models.ForeignKey(QuiltLetter, on_delete=models.CASCADE, related_name="fabrics")
    fabric = models.ForeignKey(Fabric, on_delete=models.PROTECT, related_name="colorway_fabrics")

    class Meta:
        ordering = ("letter__hatch",)
        constraints = (models.UniqueConstraint(fields=("colorway", "letter"), name="one_fabric_per_letter"),)
