"""The German of the tree: both files alike, every form there, the same places as in English."""

from __future__ import annotations

from string import Formatter

import pytest
from django.conf import settings
from django.utils.translation import gettext, ngettext, override

from bom.domain.translating.collecting import collect
from bom.domain.translating.files import po_file, read_po, write_mo, write_po
from bom.domain.translating.messages import faults_of

PATH = po_file(settings.BASE_DIR, "de")
KEPT = read_po(PATH.read_text(encoding="utf-8"))


def test_gettext_reads_just_what_the_text_says() -> None:
    """`manage.py translations --write` makes one from the other."""
    assert PATH.with_suffix(".mo").read_bytes() == write_mo(KEPT.values(), "de")
    assert PATH.read_text(encoding="utf-8") == write_po(KEPT.values(), "de")


def test_every_text_is_translated_surely_with_the_places_of_the_english() -> None:
    assert {each.words: faults_of(each) for each in KEPT.values() if faults_of(each)} == {}


def test_no_text_breaks_where_its_facts_are_put_in() -> None:
    for each in KEPT.values():
        for said in each.said:
            if "{" in each.words:
                list(Formatter().parse(said))
            assert said.count("%%") == each.words.count("%%"), said


def test_texts_begin_and_end_like_the_english() -> None:
    """A space at an end joins two texts; a line break at an end is one of a mail."""
    for each in KEPT.values():
        for said in each.said:
            assert said[:1].isspace() == each.words[:1].isspace(), said
            assert said[-1:].isspace() == each.words[-1:].isspace(), said


@pytest.mark.parametrize(("count", "said"), [(0, "0 Quadrate"), (1, "1 Quadrat"), (2, "2 Quadrate")])
def test_what_is_counted_has_its_plural(count: int, said: str) -> None:
    with override("de"):
        assert ngettext("{count} square", "{count} squares", count).format(count=count) == said


def test_no_german_text_is_english() -> None:
    """But for names, patterns and letters, which are the same in both."""
    same = {each.words for each in KEPT.values() if each.words in each.said and len(each.words.split()) > 2}
    assert {words for words in same if any(len(w) > 3 and w.isalpha() for w in words.split())} <= {
        "%(program)s %(number)s: %(title)s"
    }


def test_the_words_of_the_trade() -> None:
    """Common in German instructions; from memory."""
    with override("de"):
        assert gettext("Half-square triangles") == "Halbquadrat-Dreiecke"
        assert gettext("Quarter-square triangles") == "Viertelquadrat-Dreiecke"
        assert gettext("Flying geese") == "Fliegende Gänse"
        assert gettext("Squares") == "Quadrate"
        assert gettext("sashing") == "Zwischenstreifen"
        assert gettext("cornerstones") == "Ecksteine"
        assert gettext("Backing") == "Rückseite"
        assert gettext("Batting") == "Vlies"


def test_every_text_of_participants_and_sheets_has_its_german() -> None:
    """`manage.py translations --write` adds what lacks; fill it in and write again."""
    wanted = collect(settings.BASE_DIR)
    assert sorted(wanted.keys() - KEPT.keys()) == []
    assert sorted(KEPT.keys() - wanted.keys()) == []
    assert [key for key, each in wanted.items() if each.plural != KEPT[key].plural] == []
