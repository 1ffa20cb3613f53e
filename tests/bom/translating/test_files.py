"""Translations as files: the same words come back, as .po and as gettext reads them."""

from __future__ import annotations

import gettext
import io

import pytest

from bom.domain.translating.files import read_po, write_mo, write_po
from bom.domain.translating.messages import Message, faults_of, merged, places_in

LINES = Message(
    words='Say "yes"\nor no.\n',
    said=("»Ja« sagen\noder nein.\n",),
    places=("templates/a.html", "templates/b.txt"),
)
COUNTED = Message(
    words="{count} square", plural="{count} squares", said=("{count} Quadrat", "{count} Quadrate")
)
IN_A_PLACE = Message(words="open", context="pressed", said=("auseinander",))
UNSURE = Message(words="seam", said=("Saum",), is_fuzzy=True)
ALL = (LINES, COUNTED, IN_A_PLACE, Message(words="open", said=("offen",)), UNSURE, Message(words="new"))


def test_what_is_written_is_read_again() -> None:
    text = write_po(ALL, "de")
    found = read_po(text)
    assert list(found.values()) == [
        *ALL[:-1],
        Message(words="new", said=("",)),  # an empty place for the translator
    ]
    assert found[LINES.key].places == LINES.places
    assert write_po(found.values(), "de") == text


def test_gettext_reads_what_is_surely_translated() -> None:
    spoken = gettext.GNUTranslations(io.BytesIO(write_mo(ALL, "de")))
    assert spoken.gettext(LINES.words) == LINES.said[0]
    assert spoken.ngettext("{count} square", "{count} squares", 1) == "{count} Quadrat"
    assert spoken.ngettext("{count} square", "{count} squares", 0) == "{count} Quadrate"
    assert spoken.pgettext("pressed", "open") == "auseinander"
    assert spoken.gettext("open") == "offen"
    assert spoken.gettext("seam") == "seam"  # unsure
    assert spoken.gettext("new") == "new"


def test_the_order_of_messages_does_not_change_what_gettext_reads() -> None:
    assert write_mo(ALL, "de") == write_mo(reversed(ALL), "de")


def test_merging_keeps_what_is_said_and_leaves_out_what_nobody_says() -> None:
    wanted = {each.key: each for each in (Message(words="new"), Message(words="open", context="pressed"))}
    kept = {each.key: each for each in (IN_A_PLACE, LINES)}
    assert list(merged(wanted, kept).values()) == [Message(words="new"), IN_A_PLACE]


def test_a_text_that_begins_to_count_is_to_be_translated_anew() -> None:
    old = Message(words="{count} square", said=("{count} Quadrat",))
    assert (
        merged({COUNTED.key: Message(words="{count} square", plural="{count} squares")}, {old.key: old})[
            COUNTED.key
        ].said
        == ()
    )


@pytest.mark.parametrize(
    ("message", "faults"),
    [
        (COUNTED, []),
        (IN_A_PLACE, []),
        (UNSURE, ["unsure"]),
        (Message(words="new"), ["missing"]),
        (Message(words="{a} of {b}", said=("{b}",)), ["other places in '{b}'"]),
        (Message(words="of %(a)s", said=("von %(b)s",)), ["other places in 'von %(b)s'"]),
        (Message(words="one", plural="{count} things", said=("eins", "{count} Dinge")), []),
        (Message(words="one", plural="more", said=("eins",)), ["plural forms"]),
    ],
)
def test_what_is_wrong_with_a_translation_is_named(message: Message, faults: list[str]) -> None:
    assert faults_of(message) == faults


def test_places_are_those_of_phrases_and_of_templates() -> None:
    assert places_in("{a}, %(b)s and 100 %%") == {"a", "b"}
    assert places_in("100 % of it") == frozenset()
