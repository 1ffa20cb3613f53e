"""A designer's words as a reader sees them: numbers filled in, in the reader's measures and cloth."""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING

from django.conf.locale import LANG_INFO
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import get_language, get_language_info
from django.utils.translation import gettext as _

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

    written, language = words_html(settable(text), fill), installment.program.language
    return format_html('<div class="words-of" lang="{}">{}</div>{}', language, written, _original(language))


def _original(language: str) -> SafeString:
    """Say in which language words are, where it is another than the page's or the sheet's."""
    if language == (get_language() or language) or language not in LANG_INFO:
        return SafeString()
    name = get_language_info(language)["name_translated"]
    return format_html('<p class="note">{}</p>', _("In the original, in {language}.").format(language=name))


def settable(text: str) -> str:
    """Give the text in letters that our fonts have: fractions as figures, what they lack left out."""
    plain = re.sub("(?<=[0-9])[ \u00a0]?(?=[\u00bc-\u00be\u2150-\u215e])", " ", text)
    return "".join(_set(letter) for letter in unicodedata.normalize("NFC", plain))


def _set(letter: str) -> str:
    spelt = unicodedata.normalize("NFKC", letter)
    if "\N{FRACTION SLASH}" in spelt:
        return spelt.replace("\N{FRACTION SLASH}", "/")
    return letter if letter.isspace() or has_letters(letter, Face.BOOK) else ""
