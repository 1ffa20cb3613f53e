"""A designer's words as a reader sees them: numbers filled in, in the reader's measures and cloth."""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING

from django.utils.html import format_html
from django.utils.safestring import SafeString

from bom.domain.markup import words_html
from bom.domain.sheets.fitting import Face, has_letters
from bom.domain.word_places import key_of, places_by_key

if TYPE_CHECKING:
    from bom.domain.work import ProgramWork
    from bom.models import Installment
    from patterns.engine.measure import Units
    from patterns.models import Colorway


def said_words(
    installment: Installment, text: str, *, work: ProgramWork | None, colorway: Colorway | None, units: Units
) -> SafeString:
    """Write words as HTML, marked with their language; an unknown place stays as it was typed.

    Without `work`, where the quilt cannot be worked out, every place does.
    """
    if not text.strip():
        return SafeString()
    places = places_by_key(installment, work, colorway) if work and "{" in text else {}

    def fill(name: str) -> SafeString | None:
        place = places.get(key_of(name))
        return place.html(units) if place else None

    written = words_html(settable(text), fill)
    return format_html('<div class="words-of" lang="{}">{}</div>', installment.program.language, written)


def settable(text: str) -> str:
    """Give the text in letters that our fonts have: fractions as figures, what they lack left out."""
    plain = re.sub("(?<=[0-9])[ \u00a0]?(?=[\u00bc-\u00be\u2150-\u215e])", " ", text)
    return "".join(_set(letter) for letter in unicodedata.normalize("NFC", plain))


def _set(letter: str) -> str:
    spelt = unicodedata.normalize("NFKC", letter)
    if "\N{FRACTION SLASH}" in spelt:
        return spelt.replace("\N{FRACTION SLASH}", "/")
    return letter if letter.isspace() or has_letters(letter, Face.BOOK) else ""
