"""Backing, batting and quilting in words, with the numbers of the chain."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.wording import fabric_text, fractions_html, length_text, size_text
from patterns.engine.hanging import PACKAGED
from patterns.engine.measure import Units, up_to_5_cm, up_to_eighth_yard

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from patterns.engine.finishing import Backing, BackingWay
    from patterns.engine.surds import Number


def layer_steps(back: Backing, variant: Variant) -> tuple[SafeString, ...]:
    """Say how the back of the packet is pieced, and how the layers are laid and quilted."""
    way = back.best
    pieced = ngettext(
        "Take the selvages off {panels} length of {length}.",
        "Take the selvages off {panels} lengths of {length} and sew them side by side, the seams {seams}.",
        way.panels,
    ).format(panels=way.panels, length=length_text(way.panel_length, variant.measures), seams=_seams(way))
    size = size_text((back.width, back.height), variant.measures)
    words = (
        pieced,
        _("Press the seams open, and trim the backing to {size}. Cut the batting as large.").format(
            size=size
        ),
        _(
            "Lay the backing wrong side up and smooth, but not stretched; then the batting, then the top "
            "right side up. Baste the layers from the middle out: pins a hand apart, or long stitches."
        ),
        _(
            "Quilt from the middle out, no farther apart than the batting's maker says. Straight lines "
            "beside the seams hold it; the rest is as you like."
        ),
        _("Trim all three layers even with the top, the corners as the top has them."),
    )
    return tuple(fractions_html(each) for each in words)


def layer_notes(back: Backing, variant: Variant) -> tuple[SafeString, ...]:
    """Say what fabric the back takes each way, in one width, and which packed batting is large enough."""
    words = [*(_way_words(way, variant) for way in back.ways), _wide(back, variant)]
    packed = packed_text(back, variant.measures)
    return tuple(fractions_html(each) for each in dict.fromkeys([*words, packed] if packed else words))


def bought_text(length: Number, units: Units) -> str:
    """Say how much to ask for: inches up to 1/8 yd, or metres up to 5 cm."""
    step = up_to_eighth_yard if units == Units.INCHES else up_to_5_cm
    return fabric_text(step(length), units)


def packed_batting(back: Backing) -> tuple[Fraction, Fraction] | None:
    """Give the smallest size sold in packs that covers the back, turned or not; None where none does."""
    short, long = sorted((back.width, back.height))
    sold = [(Fraction(min(size)), Fraction(max(size))) for size in PACKAGED.values()]
    fits = [size for size in sold if size[0] >= short and size[1] >= long]
    return min(fits, key=lambda size: size[0] * size[1], default=None)


def packed_text(back: Backing, units: Units) -> str:
    """Say which packed batting is large enough; empty where none is."""
    size = packed_batting(back)
    if size is None:
        return ""
    return _("Batting in a pack: {size} is large enough.").format(size=size_text(size, units))


def _seams(way: BackingWay) -> str:
    return _("from top to bottom") if way.along == "height" else _("from side to side")


def _way_words(way: BackingWay, variant: Variant) -> str:
    if not way.seams:
        words = _("From your own fabric, no seam: one length of {length}, {bought}.")
    else:
        words = _("From your own fabric, seams {seams}: {panels} lengths of {length}, {bought}.")
    return words.format(
        seams=_seams(way),
        panels=way.panels,
        length=length_text(way.panel_length, variant.measures),
        bought=bought_text(way.fabric_length, variant.measures),
    )


def _wide(back: Backing, variant: Variant) -> str:
    across, along = sorted((back.width, back.height))
    return _(
        "Wide backing, no seam: one length of {length}, at least {width} wide inside the selvages."
    ).format(length=length_text(along, variant.measures), width=length_text(across, variant.measures))
