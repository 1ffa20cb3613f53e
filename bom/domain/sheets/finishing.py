"""Backing and binding in words, with the numbers of the chain."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from patterns.domain.wording import fractions_html, length_text, size_text
from patterns.engine.binding_bias import BiasBinding
from patterns.engine.finishing import Backing, Binding

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import PartWork
    from patterns.engine.hanging import Sleeve


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishingRows:
    """A finishing part: its name and what to do, in order."""

    title: str
    words: tuple[SafeString, ...]


def finishing_rows(parts: tuple[PartWork, ...], variant: Variant) -> list[FinishingRows]:
    """Say how backing, binding and sleeve are made; nothing for other parts."""
    rows: list[FinishingRows] = []
    for part in parts:
        if isinstance(part.finishing, Backing):
            rows.append(FinishingRows(title=_("Backing and layers"), words=_backing(part.finishing, variant)))
        elif isinstance(part.finishing, Binding):
            rows.append(FinishingRows(title=_("Binding"), words=_binding(part.finishing, variant)))
        elif isinstance(part.finishing, BiasBinding):
            rows.append(FinishingRows(title=_("Bias binding"), words=_bias(part.finishing, variant)))
        if part.sleeve:
            rows.append(FinishingRows(title=_("Hanging sleeve"), words=_sleeve(part.sleeve, variant)))
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


def _bias(plan: BiasBinding, variant: Variant) -> tuple[SafeString, ...]:
    side, strip, made, around = (
        length_text(length, variant.measures)
        for length in (plan.square, plan.strip, plan.joined, plan.length)
    )
    return tuple(
        fractions_html(words)
        for words in (
            _("Cut a square of {side} and cut it once diagonally. Its long edges are the bias.").format(
                side=side
            ),
            _(
                "Lay two straight edges of the triangles together, right sides facing, and sew them: a "
                "slanting sheet with two bias edges. Press the seam open."
            ),
            _(
                "On the wrong side draw lines {strip} apart, along the bias edges: {rounds} strips. Cut off "
                "what is left."
            ).format(strip=strip, rounds=plan.rounds),
            _(
                "Lay the other two edges together, right sides facing, one strip off, so that line meets "
                "line. Sew them to a tube, and press the seam open."
            ),
            _("Cut along the line, round and round: {made} of binding; you need {around}.").format(
                made=made, around=around
            ),
            *_sewn_on(),
        )
    )


def _sleeve(plan: Sleeve, variant: Variant) -> tuple[SafeString, ...]:
    width, length, hem, finished = (
        length_text(each, variant.measures)
        for each in (plan.cut_width, plan.cut_length, plan.hem, plan.finished_length)
    )
    cut = ngettext(
        "Cut {strips} strip {width} wide and trim it to {length}.",
        "Cut {strips} strips {width} wide, join them end to end and trim them to {length}.",
        plan.strips,
    ).format(strips=plan.strips, width=width, length=length)
    return tuple(
        fractions_html(words)
        for words in (
            cut,
            _("Turn {hem} under at both ends and sew the hems down: {finished} long.").format(
                hem=hem, finished=finished
            ),
            _(
                "Fold it in half along its length, wrong sides together. Before you bind, lay its raw edges "
                "to the top edge of the back, centred, and sew it on with the binding."
            ),
            _("Sew the fold to the back by hand, through backing and batting only; leave the ends open."),
        )
    )


def _sewn_on() -> tuple[str, ...]:
    """Say how any binding is sewn on."""
    return (
        _("Press the strip in half along its length, right side out."),
        _(
            "Sew it to the front, raw edge to raw edge; leave a tail unsewn at the start. At each corner "
            "stop one seam allowance before the edge, fold the strip up and away, then down along the "
            "next edge, and go on."
        ),
        _("Join the two ends on the diagonal. Turn the fold to the back and sew it down."),
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
            *_sewn_on(),
        )
    )
