"""Filters for measures, money, days and hours: `{% load measures %}`.

A length is inches and exact; `units` is "in", "cm" or "metric-purchase".
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django import template
from django.utils.html import format_html

from patterns.domain import wording
from patterns.engine.measure import Units

if TYPE_CHECKING:
    import datetime as dt
    from decimal import Decimal
    from fractions import Fraction

    from django.utils.safestring import SafeString

    from patterns.engine.steps import Phrase, Size
    from patterns.engine.surds import Number

register = template.Library()


@register.filter
def inches(length: Number | int) -> SafeString:
    """Set a length in inches: 2 1/2 in."""
    return wording.measure_html(wording.length_text(length))


@register.filter
def measure(length: Number | int, units: str = Units.INCHES) -> SafeString:
    """Set a sewing length in the reader's units."""
    return wording.measure_html(wording.length_text(length, Units(units)))


@register.filter
def size(sides: Size, units: str = Units.INCHES) -> SafeString:
    """Set a size in the reader's units: 12 × 12 in."""
    return wording.measure_html(wording.size_text(sides, Units(units)))


@register.filter
def yards(length: Fraction) -> SafeString:
    """Set a length of fabric as a shop sells it: 3/8 yd."""
    return wording.measure_html(wording.fabric_text(length))


@register.filter
def fabric(length: Fraction, units: str = Units.INCHES) -> SafeString:
    """Set a length of fabric in the reader's units: 3/8 yd, or 0.35 m."""
    return wording.measure_html(wording.fabric_text(length, Units(units)))


@register.filter
def hours(length: Fraction) -> SafeString:
    """Set hours of sewing: 4 1/4 h."""
    return wording.measure_html(wording.hours_text(length))


@register.filter
def fractions(words: str) -> SafeString:
    """Build the fractions that stand in a text."""
    return wording.fractions_html(words)


@register.filter
def said(phrase: Phrase | None, units: str = Units.INCHES) -> SafeString | str:
    """Say a sentence of the engine in the reader's language and units."""
    return "" if phrase is None else wording.say_html(phrase, Units(units))


@register.filter
def money(amount: Decimal | int, currency: str) -> SafeString:
    """Set money: CAD 221.00."""
    return format_html('<span class="m num">{}</span>', wording.money_text(amount, currency))


@register.filter
def amount(value: Decimal | int, currency: str) -> SafeString:
    """Set an amount without its currency, for a column whose head names it."""
    return format_html('<span class="m num">{}</span>', wording.amount_text(value, currency))


@register.filter
def day(value: dt.date | None) -> str:
    """Say a day in full: Saturday 20 March."""
    return wording.day_text(value) if value else ""


@register.filter
def day_year(value: dt.date | None) -> str:
    """Say a day in full with its year."""
    return wording.day_text(value, year=True) if value else ""


@register.filter
def short_day(value: dt.date | None) -> str:
    """Say a day for a table: Sat 20 Mar."""
    return wording.short_day_text(value) if value else ""


@register.filter
def short_day_year(value: dt.date | None) -> str:
    """Say a day for a table with its year: Sat 20 Mar 2027."""
    return wording.short_day_text(value, year=True) if value else ""


@register.filter
def in_zone(instant: dt.datetime | None, zone: str) -> str:
    """Say an instant on the clock of a zone: Sat 16 Jan, 10:00."""
    return wording.instant_text(instant, zone) if instant else ""


@register.filter
def in_zone_year(instant: dt.datetime | None, zone: str) -> str:
    """Say an instant on the clock of a zone, with the year."""
    return wording.instant_text(instant, zone, year=True) if instant else ""


@register.filter
def zone_name(zone: str) -> str:
    """Name a zone: Halifax time."""
    return wording.zone_text(zone)


@register.filter
def zone_place(zone: str) -> str:
    """Name the place of a zone: Halifax."""
    return wording.place_text(zone)
