"""Small drawings for templates: `{% load drawings %}`.

Pictures that need an engine value are made in views with `patterns.domain.pictures`; here are the
marks and swatches that a template sets by itself.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django import template
from django.utils.html import format_html, format_html_join
from django.utils.translation import gettext

from patterns.domain import pictures
from patterns.engine.steps import MarkKind

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from patterns.engine.hatches import Cloth

register = template.Library()


@register.simple_tag
def tick() -> SafeString:
    """Draw a tick: done."""
    return format_html(
        '<svg width="20" height="20" viewBox="0 0 20 20" role="img" aria-label="{}">'
        '<path d="M3 11l5 5L17 4" fill="none" stroke="currentColor" stroke-width="2.4"/></svg>',
        gettext("done"),
    )


@register.simple_tag
def open_box() -> SafeString:
    """Draw a dashed square: not yet, or look at this."""
    return format_html(
        '<svg width="20" height="20" viewBox="0 0 20 20" role="img" aria-label="{}">'
        '<rect x="2" y="2" width="16" height="16" fill="none" stroke="currentColor" stroke-width="1.6" '
        'stroke-dasharray="3 2.4"/></svg>',
        gettext("not yet"),
    )


@register.simple_tag
def swatch(cloth: Cloth, width_px: int = 34, height_px: int = 26) -> SafeString:
    """Draw a swatch with its letter."""
    return pictures.swatch_svg(cloth, width_px=width_px, height_px=height_px)


@register.simple_tag
def cloth_name(cloth: Cloth) -> SafeString:
    """Set a swatch and the name beside it, as the first cell of a row."""
    return format_html('<span class="lt">{}{}</span>', pictures.swatch_svg(cloth), cloth.name)


@register.simple_tag
def tally(done: int, total: int, width_px: int = 340) -> SafeString:
    """Draw tally marks of five."""
    return pictures.tally_svg(done=done, total=total, width_px=width_px)


@register.simple_tag
def legend() -> SafeString:
    """Draw the line that explains the marks of sewing; it stands on every page of steps."""
    rows = ((pictures.legend_svg(kind), pictures.mark_words(kind)) for kind in MarkKind)
    items = format_html_join("", '<li class="lt">{}{}</li>', rows)
    return format_html('<ul class="legend">{}</ul>', items)


@register.filter
def data_uri(svg: str) -> str:
    """Give a picture as an address for <img>."""
    return pictures.data_uri(svg)
