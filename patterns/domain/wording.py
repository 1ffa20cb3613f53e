"""Words for readers: sentences of the engine, lengths, sizes, money, days and hours.

Each has a plain form for mail, commands and names of pictures ("2 1/2 in"), and a form for pages and
sheets, where a fraction is built from small figures, since the book's fonts have no eighths.
"""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from django.utils.formats import date_format, number_format, time_format
from django.utils.html import conditional_escape, format_html
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext, pgettext

from patterns.engine.measure import Units, is_on_ruler, show_fabric_length, show_length
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, Surd

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Mapping, Sequence

    from patterns.engine.steps import Fact, Size
    from patterns.engine.yardage import PacketLine

TIMES = "\u00a0×\u00a0"
MINOR_UNITS: Mapping[str, int] = {  # ISO 4217, the currencies that have no hundredths or have thousandths
    "ISK": 0, "JPY": 0, "KRW": 0, "CLP": 0, "VND": 0, "BHD": 3, "JOD": 3, "KWD": 3, "OMR": 3, "TND": 3,
}  # fmt: skip

_ARROWS = re.compile("[←→↑↓↔↕](?: [←→↑↓↔↕])*")
_FRACTION = re.compile(r"(?P<space>(?<=\d) )?(?<![\d/])(?P<top>\d+)/(?P<bottom>\d+)(?![\d/])")


def say(phrase: Phrase, units: Units = Units.INCHES) -> str:
    """Say a sentence of the engine in the language in use, as plain text with its lengths in `units`."""
    return gettext(phrase.text).format_map(_Facts(phrase.facts, lambda fact: say_fact(fact, units)))


def say_html(phrase: Phrase, units: Units = Units.INCHES) -> SafeString:
    """Say a sentence of the engine for a page; the sentence and its names are escaped."""
    words = conditional_escape(gettext(phrase.text))
    facts = _Facts(phrase.facts, lambda fact: str(_fact_html(fact, units)))
    return mark_safe(str(words).format_map(facts))  # noqa: S308 -- the sentence and every fact are escaped


def say_fact(fact: Fact, units: Units = Units.INCHES) -> str:
    """Say one fact: a length with its unit, a size, a count, or a name as it stands."""
    if isinstance(fact, Phrase):
        return say(fact, units)
    if isinstance(fact, tuple):
        return size_text(fact, units)
    if isinstance(fact, Fraction | Surd):
        return length_text(fact, units)
    return _ARROWS.sub(_say_arrows, str(fact))


def length_text(length: Number | int, units: Units = Units.INCHES) -> str:
    """Say a length of inches: "2 1/2 in", "about 5 5/8 in", or "6.4 cm" (up to the millimetre)."""
    number = length if isinstance(length, Surd) else Fraction(length)
    return _about(_shown(number, units), [number], units)


def line_text(length: Number | int, units: Units = Units.INCHES) -> str:
    """Say a length beside a line of a drawing, where there is little room: "2 1/2 in", in German 2 1/2"."""
    number = length if isinstance(length, Surd) else Fraction(length)
    shown = show_length(number, _sewing(units))
    words = pgettext("beside a line", "{number} in").format(number=shown.removesuffix(" in"))
    return _about(words if shown.endswith(" in") else _in_language(shown), [number], units)


def size_text(size: Size, units: Units = Units.INCHES) -> str:
    """Say a size: "3 1/2 × 6 1/2 in"; the unit, and that it is about so large, stand once."""
    width, height = (_shown(side, units) for side in size)
    return _about(f"{width.rsplit(' ', 1)[0]}{TIMES}{height}", size, units)


def _shown(length: Number, units: Units) -> str:
    return _in_language(show_length(length, _sewing(units)))


def _about(words: str, lengths: Sequence[Number], units: Units) -> str:
    """Say where inches are not what a ruler shows; centimetres are rounded up, which is said elsewhere."""
    if _sewing(units) == Units.CENTIMETRES or all(map(is_on_ruler, lengths)):
        return words
    return gettext("about {length}").format(length=words)


def fabric_text(length: Fraction, units: Units = Units.INCHES) -> str:
    """Say a length of fabric as one asks for it: "3/8 yd", "14 in", "0.35 m" (up to 5 cm)."""
    return _in_language(show_fabric_length(Fraction(length), units))


def form_text(line: PacketLine, units: Units = Units.INCHES) -> str:
    """Say how fabric comes that is no full width: "fat quarter", or the sides of a piece."""
    return size_text((line.side, line.side), units) if line.side else gettext(line.form.value)


def names_text(names: str) -> str:
    """Say names of the engine, one or several with commas between: "flying geese, plain squares"."""
    if not names:
        return ""
    said = gettext(names)
    return said if said != names else ", ".join(gettext(name) for name in names.split(", "))


def measure_html(words: str) -> SafeString:
    """Set a measure for a page: it never breaks over lines, and its fractions are built."""
    return format_html('<span class="m">{}</span>', fractions_html(words))


def fractions_html(words: str) -> SafeString:
    """Escape words and build every fraction in them: "2 1/2" gets a small 1, a slash and a small 2.

    >>> fractions_html("1/2 in")
    '<span class="fr"><i>1</i>⁄<b>2</b></span> in'
    """
    built = _FRACTION.sub(_build_fraction, str(conditional_escape(words)))
    return mark_safe(built)  # noqa: S308 -- escaped above; the tags added hold only digits


def _fact_html(fact: Fact, units: Units) -> SafeString | str:
    return say_html(fact, units) if isinstance(fact, Phrase) else measured_html(say_fact(fact, units), fact)


def measured_html(words: str, fact: Fact) -> SafeString | str:
    """Set a fact that has been put into words: measures with fractions, anything else only escaped."""
    return conditional_escape(words) if isinstance(fact, str | int) else measure_html(words)


def money_text(amount: Decimal | int, currency: str) -> str:
    """Say money with its currency and the currency's minor units: "CAD 2,991.00"."""
    return f"{currency}\u00a0{amount_text(amount, currency)}"


def amount_text(amount: Decimal | int, currency: str) -> str:
    """Say an amount alone, for a column whose head names the currency."""
    places = MINOR_UNITS.get(currency, 2)
    return str(number_format(Decimal(amount), decimal_pos=places, use_l10n=True, force_grouping=True))


def hours_text(hours: Fraction) -> str:
    """Say hours of sewing, to quarters: "4 1/4 h"."""
    return gettext("{hours} h").format(hours=show_length(Fraction(hours), Units.INCHES).removesuffix(" in"))


def day_text(day: dt.date, *, year: bool = False) -> str:
    """Say a day in full: "Saturday 20 March", with the year when asked."""
    return date_format(day, pgettext("day in full", "l j F Y") if year else pgettext("day in full", "l j F"))


def short_day_text(day: dt.date, *, year: bool = False) -> str:
    """Say a day for a table: "Sat 20 Mar", with the year when asked."""
    return date_format(day, pgettext("short day", "D j M Y") if year else pgettext("short day", "D j M"))


def instant_text(instant: dt.datetime, zone: str, *, year: bool = False) -> str:
    """Say an instant on the clock of a zone: "Sat 16 Jan, 10:00"."""
    there = instant.astimezone(ZoneInfo(zone))
    return f"{short_day_text(there, year=year)}, {time_format(there, 'H:i')}"


def place_text(zone: str) -> str:
    """Name the place of a zone: "Halifax" for America/Halifax."""
    return zone.rsplit("/", 1)[-1].replace("_", " ")


def zone_text(zone: str) -> str:
    """Name a zone for a reader: "Halifax time"."""
    return gettext("{place} time").format(place=place_text(zone))


class _Facts(dict[str, str]):
    """Facts of a phrase, put into words; a named place without a fact stays visible."""

    def __init__(self, facts: Mapping[str, Fact], word: Callable[[Fact], str]) -> None:
        super().__init__({name: word(fact) for name, fact in facts.items()})

    def __missing__(self, name: str) -> str:
        return f"{{{name}}}"


def _build_fraction(found: re.Match[str]) -> str:
    space = "\u00a0" if found["space"] else ""
    return f'{space}<span class="fr"><i>{found["top"]}</i>⁄<b>{found["bottom"]}</b></span>'


def _say_arrows(found: re.Match[str]) -> str:
    """Say arrows in words: the book's fonts have none, and words need no picture."""
    ways = {"←": gettext("left"), "→": gettext("right"), "↑": gettext("up"), "↓": gettext("down")}
    ways |= {"↔": pgettext("pressed", "open"), "↕": pgettext("pressed", "open")}
    arrows = found[0].split()
    if len(arrows) > 1 and len(set(arrows)) == 1:
        return gettext("all {way}").format(way=ways[arrows[0]])
    return ", ".join(ways[arrow] for arrow in arrows)


def _sewing(units: Units) -> Units:
    """Give the units for sewing sizes: who buys by the metre still sews in inches."""
    return Units.CENTIMETRES if units == Units.CENTIMETRES else Units.INCHES


def _in_language(words: str) -> str:
    """Write the decimal point and the inches of the language in use."""
    point = str(number_format(Decimal("0.1"), 1))[1]
    said = re.sub(r"(?<=\d)\.(?=\d)", lambda _: point, words)
    return f"{said.removesuffix(' in')} {pgettext('unit', 'in')}" if said.endswith(" in") else said
