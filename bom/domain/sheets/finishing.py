"""Binding and sleeve in words, with the numbers of the chain."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.html import format_html_join
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.sheets.finishing_layers import layer_notes, layer_steps
from patterns.domain.wording import fractions_html, length_text, say_html
from patterns.engine.binding_bias import BiasBinding
from patterns.engine.binding_corners import CornerKind
from patterns.engine.finishing import Backing, Binding

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import PartWork
    from patterns.engine.hanging import Sleeve
    from patterns.engine.steps import Phrase


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishingRows:
    """A finishing part: its name and what to do, in order."""

    title: str
    words: tuple[SafeString, ...]
    notes: tuple[SafeString, ...] = ()


def finishing_rows(parts: tuple[PartWork, ...], variant: Variant) -> list[FinishingRows]:
    """Say how backing, binding and sleeve are made; nothing for other parts."""
    rows: list[FinishingRows] = []
    for part in parts:
        if isinstance(part.finishing, Backing):
            rows.append(_layers(part.finishing, variant))
        elif isinstance(part.finishing, Binding):
            rows.append(FinishingRows(title=_("Binding"), words=_binding(part, part.finishing, variant)))
        elif isinstance(part.finishing, BiasBinding):
            rows.append(FinishingRows(title=_("Bias binding"), words=_bias(part, part.finishing, variant)))
        if part.sleeve:
            rows.append(FinishingRows(title=_("Hanging sleeve"), words=_sleeve(part.sleeve, variant)))
    return rows


def _bias(part: PartWork, plan: BiasBinding, variant: Variant) -> tuple[SafeString, ...]:
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
        )
    ) + _sewn_on(part, variant)


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


def _sewn_on(part: PartWork, variant: Variant) -> tuple[SafeString, ...]:
    """Say how any binding is sewn on, corner by corner; corners that are alike are told once."""
    first = (
        _("Press the strip in half along its length, right side out."),
        _(
            "Sew it to the front, raw edge to raw edge, beginning along a straight edge; leave a tail "
            "unsewn at the start."
        ),
    )
    last = (
        _("Join the two ends on the diagonal."),
        _("Turn the fold to the back and sew it down, the mitre of every corner folded the other way."),
    )
    corners = Counter((corner.kind, corner.words) for corner in part.corners)
    turned = [_corner(kind, words, count, variant) for (kind, words), count in corners.items()]
    return (*map(fractions_html, first), *turned, *map(fractions_html, last))


def _corner(kind: CornerKind, words: tuple[Phrase, ...], count: int, variant: Variant) -> SafeString:  # noqa: PLR0917 -- which corners, and how they are shown
    """Say which corners these are, and mark and fold of them."""
    heads = {
        CornerKind.SQUARE: ngettext("At {count} square corner:", "At {count} square corners:", count),
        CornerKind.SHARP: ngettext("At {count} sharp corner:", "At {count} sharp corners:", count),
        CornerKind.BLUNT: ngettext("At {count} blunt corner:", "At {count} blunt corners:", count),
        CornerKind.INNER: ngettext("At {count} inner corner:", "At {count} inner corners:", count),
    }
    said = (say_html(each, variant.measures) for each in words)
    return format_html_join(" ", "{}", ((each,) for each in (heads[kind].format(count=count), *said)))


def _layers(back: Backing, variant: Variant) -> FinishingRows:
    return FinishingRows(
        title=_("Backing and layers"), words=layer_steps(back, variant), notes=layer_notes(back, variant)
    )


def _binding(part: PartWork, plan: Binding, variant: Variant) -> tuple[SafeString, ...]:
    strip, around, made = (
        length_text(length, variant.measures) for length in (plan.strip, plan.length, plan.joined)
    )
    cut = ngettext(
        "Cut {strips} strip {strip} wide across the fabric: {made}; you need {around}.",
        "Cut {strips} strips {strip} wide across the fabric.",
        plan.strips,
    ).format(strips=plan.strips, strip=strip, made=made, around=around)
    joined = ngettext(
        "Join them end to end: right sides together, crossed at a right angle, sewn corner to corner. "
        "Trim beside the seam and press it open. {count} join gives {made}; you need {around}.",
        "Join them end to end: right sides together, crossed at a right angle, sewn corner to corner. "
        "Trim beside the seams and press them open. {count} joins give {made}; you need {around}.",
        plan.strips - 1,
    ).format(count=plan.strips - 1, made=made, around=around)
    words = (cut, joined) if plan.strips > 1 else (cut,)
    return tuple(map(fractions_html, words)) + _sewn_on(part, variant)
