"""A whole sheet in German: no English is left but the designer's own words, and those are marked."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bom.domain.sheets.content import sheet_html
from bom.enums import PrintSize, UnitsChoice

if TYPE_CHECKING:
    from bom.domain.sheets.variants import Variant
    from bom.models import Installment, SheetEdition

pytestmark = pytest.mark.slow
ENGLISH = re.compile(
    r"\b(the|of|and|to|with|from|each|cut|sew|seam|press|fabric|sheet|packet|your|you|is|are|this|for|by|left|right)\b"
)  # nearly every English sentence has one of them, and no German one


def german(edition: SheetEdition, variant: Variant) -> str:
    return sheet_html(edition, replace(variant, language="de"))


def ours(html: str) -> str:
    """Give what is read and read aloud of a sheet without the designer's words and roles."""
    html = re.sub(r'<(style|head).*?</\1>|<div class="words-of".*?</div>', " ", html, flags=re.DOTALL)
    aloud = " ".join(re.findall(r'(?:alt|aria-label)="([^"]*)"', html))
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html) + aloud)


@pytest.mark.parametrize("units", list(UnitsChoice))
def test_no_english_is_left_on_a_sheet(edition: SheetEdition, variant: Variant, units: UnitsChoice) -> None:
    text = ours(german(edition, replace(variant, units=units)))
    assert ENGLISH.findall(text) == []
    assert "Zuschneiden" in text


def test_a_large_sheet_has_no_english_either(edition: SheetEdition, variant: Variant) -> None:
    assert ENGLISH.findall(ours(german(edition, replace(variant, print_size=PrintSize.LARGE)))) == []


def test_inches_keep_their_fractions_and_centimetres_have_a_comma(
    edition: SheetEdition, variant: Variant
) -> None:
    assert "Zoll" in ours(german(edition, variant))
    metric = ours(german(edition, replace(variant, units=UnitsChoice.CENTIMETRES)))
    assert re.search(r"\d,\d cm", metric)
    assert not re.search(r"\d\.\d+ (cm|m)\b", metric)


def test_words_in_another_language_are_marked(
    stars: Installment, edition: SheetEdition, variant: Variant
) -> None:
    html = german(edition, variant)
    assert '<html lang="de">' in html
    assert html.count('<div class="words-of" lang="en">') == html.count("Im Original, auf Englisch.")
    assert "In the original" not in sheet_html(edition, variant)
