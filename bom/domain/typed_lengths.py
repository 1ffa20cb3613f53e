"""Lengths that somebody typed into words: a number with a unit behind it, found with its place.

`2 1/2 in`, `2½"`, `2-1/2 inch`, `6.4 cm`, `3 x 4 in` (two lengths), `1/2 yd`.  What only looks like one is
left alone: "4 in each corner", a closing quotation mark after a number.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from patterns.engine.errors import LengthNotRead
from patterns.engine.measure import (
    CENTIMETRE,
    MILLIMETRE,
    SIXTEENTH,
    YARD,
    inches,
    up_to_5_cm,
    up_to_millimetre,
)
from patterns.engine.surds import Surd, ceiling

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from patterns.engine.surds import Number

FOOT = Fraction(12)
_UNITS = {
    "in": Fraction(1), "inch": Fraction(1), "inches": Fraction(1), "zoll": Fraction(1), '"': Fraction(1),
    "″": Fraction(1), "”": Fraction(1), "“": Fraction(1), "''": Fraction(1), "ft": FOOT, "foot": FOOT,
    "feet": FOOT, "′": FOOT, "yd": YARD, "yds": YARD, "yard": YARD, "yards": YARD, "mm": MILLIMETRE,
    "millimetre": MILLIMETRE, "millimetres": MILLIMETRE, "millimeter": MILLIMETRE, "millimeters": MILLIMETRE,
    "cm": CENTIMETRE, "centimetre": CENTIMETRE, "centimetres": CENTIMETRE, "centimeter": CENTIMETRE,
    "centimeters": CENTIMETRE, "zentimeter": CENTIMETRE, "m": 100 * CENTIMETRE, "metre": 100 * CENTIMETRE,
    "metres": 100 * CENTIMETRE, "meter": 100 * CENTIMETRE, "meters": 100 * CENTIMETRE,
}  # fmt: skip
_VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_NUMBER = (
    rf"(?:[0-9]{{1,6}}(?:[ \u00a0]|-)[0-9]{{1,4}}[/⁄][0-9]{{1,4}}|[0-9]{{1,4}}[/⁄][0-9]{{1,4}}"
    rf"|[0-9]{{0,6}}[ \u00a0]?[{_VULGAR}]|[0-9]{{0,6}}[.,][0-9]{{1,6}}|[0-9]{{1,6}})"
)
_WORDS = "|".join(sorted((name for name in _UNITS if name.isalpha()), key=len, reverse=True))
_SIGNS = "|".join(name for name in _UNITS if not name.isalpha())
_UNIT = rf"(?:[ \u00a0]?-?(?:(?P<word>{_WORDS})(?![^\W\d_])|(?P<sign>{_SIGNS})))"
_TYPED = re.compile(
    rf"(?<![\w.,/⁄])(?:(?P<first>{_NUMBER})[ \u00a0]?(?:{_SIGNS}|{_WORDS})?[ \u00a0]?(?:[×xX]|by)[ \u00a0]?)?"
    rf"(?P<number>{_NUMBER}){_UNIT}",
    re.IGNORECASE,
)
_NO_UNIT = re.compile(
    r"[ \u00a0](?:the|a|an|each|every|all|any|this|that|these|those|your|our|their|its|one|two|three|four|"
    r"both|order|turn|total|half|front|pairs?|rows?|and|between|place|which)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedLength:
    """What was typed, where it begins (from 0), and its exact inches; none where it is no number."""

    text: str
    start: int
    lengths: tuple[Fraction, ...]


def typed_lengths(text: str) -> Iterator[TypedLength]:
    """Find the lengths in a text, in order."""
    for found in _TYPED.finditer(text):
        if not _is_no_length(found):
            unit = _UNITS[(found["word"] or found["sign"]).lower()]
            numbers = [found["first"], found["number"]] if found["first"] else [found["number"]]
            yield TypedLength(text=found[0], start=found.start(), lengths=tuple(_read(numbers, unit)))


def is_one_of(length: Fraction, known: Iterable[Number]) -> bool:
    """Whether a length is a known one, exactly or as a sheet shows it: up to 1 mm, 5 cm, or 1/16 in."""
    return any(length == each or length in _shown(each) for each in known)


def _shown(length: Number) -> tuple[Fraction, ...]:
    shown = (up_to_millimetre(length), up_to_5_cm(length))
    return (*shown, ceiling(length, SIXTEENTH)) if isinstance(length, Surd) else shown


def _read(numbers: Iterable[str], unit: Fraction) -> Iterator[Fraction]:
    for number in numbers:
        plain = number.replace(",", ".").replace("-", " ").replace("\u00a0", " ").replace("⁄", "/")
        try:
            yield inches(plain) * unit
        except LengthNotRead:
            return


def _is_no_length(found: re.Match[str]) -> bool:
    """Whether a whole number stands before "in each corner", or closes a quotation."""
    if not found["number"].isdecimal() or found["first"]:
        return False
    if (found["word"] or "").lower() == "in":
        return _NO_UNIT.match(found.string, found.end()) is not None
    line = found.string[found.string.rfind("\n", 0, found.start()) + 1 : found.start()]
    return found["sign"] in ('"', "”", "“") and _opened(line) % 2 == 1


def _opened(line: str) -> int:
    """Count the quotation marks of a line that follow no figure."""
    return len(re.findall(r"(?<![0-9])[\"“”„]", line))
