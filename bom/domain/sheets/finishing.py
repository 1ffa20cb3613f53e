"""Backing and binding in words, with the numbers of the chain."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.wording import fractions_html, length_text, size_text
from patterns.engine.finishing import Backing, Binding

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import PartWork


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishingRows:
    """A finishing part: its name and what to do, in order."""

    title: str
    words: tuple[SafeString, ...]


def finishing_rows(parts: tuple[PartWork, ...], variant: Variant) -> list[FinishingRows]:
    """Say how backing and binding are made; nothing for other parts."""
    rows: list[FinishingRows] = []
    for part in parts:
        if isinstance(part.finishing, Backing):
            rows.append(FinishingRows(title=_("Backing and layers"), words=_backing(part.finishing, variant)))
        elif isinstance(part.finishing, Binding):
            rows.append(FinishingRows(title=_("Binding"), words=_binding(part.finishing, variant)))
    return rows


def _backing(back: Backing, variant: Variant) -> tuple[SafeString, ...]:
    way = back.best
    seams = _("from top to bottom") if way.along == "height" else _("from side to side")
    pieced = ngettext(
        "Take the selvages off {panels} length of {length}.",
        "Take the selvages off {panels} lengths of {length} and sew them side by side, the seams {seams}.",
        way.panels,
    ).format(panels=way.panels, length=length_text(way.panel_length, variant.measures), seams=seams)
    size = size_text((back.width, back.height), variant.measures)
    return tuple(
        fractions_html(words)
        for words in (
            pieced,
            _("Trim the backing to {size}. Cut the batting as large.").format(size=size),
            _(
                "Lay the backing wrong side up, then the batting, then the top right side up. Baste the "
                "layers, and quilt as you like."
            ),
            _("Trim all three layers even with the top, the corners square."),
        )
    )


def _binding(plan: Binding, variant: Variant) -> tuple[SafeString, ...]:
    strip = length_text(plan.strip, variant.measures)
    around = length_text(plan.length, variant.measures)
    return tuple(
        fractions_html(words)
        for words in (
            _("Cut {strips} strips {strip} wide across the fabric.").format(strips=plan.strips, strip=strip),
            _(
                "Join them end to end: right sides together, crossed at a right angle, sewn corner to "
                "corner. Trim beside the seams and press them open. You need {around} of binding."
            ).format(around=around),
            _("Press the strip in half along its length, right side out."),
            _(
                "Sew it to the front, raw edge to raw edge; leave a tail unsewn at the start. At each corner "
                "stop one seam allowance before the edge, fold the strip up and away, then down along the "
                "next edge, and go on."
            ),
            _("Join the two ends on the diagonal. Turn the fold to the back and sew it down."),
        )
    )
