"""Texts found in modules, templates, and modules of the engine."""

from __future__ import annotations

from bom.domain.translating.collecting import in_module, in_template, in_writer
from bom.domain.translating.messages import Message


def test_a_module_speaks_through_gettext_and_phrases() -> None:
    text = '''
"""A doc string with words."""
A = _("one")
B = ngettext("{n} block", "{n} blocks", n).format(n=n)
C = pgettext("unit", "in")
D = Phrase("{a} to {b}", {"a": "no text"})
E = gettext(name)
F = gettext_lazy(
    "two "
    "halves"
)
'''
    assert set(in_module(text)) == {
        Message(words="one"),
        Message(words="{n} block", plural="{n} blocks"),
        Message(words="in", context="unit"),
        Message(words="{a} to {b}"),
        Message(words="two halves"),
    }


def test_a_template_speaks_through_its_tags() -> None:
    text = (
        '{% load i18n %}<p>not this</p>{% trans \'one\' %}{% translate "in" context "unit" %}'
        "{% include 'x.html' with label=_('two') %}"
        "{% blocktrans with name=it %}of {{ name }}, 5 %{% endblocktrans %}"
        "{% blocktrans count n=many %}{{ n }} block{% plural %}{{ n }} blocks{% endblocktrans %}"
    )
    assert {each.key: each.plural for each in in_template(text)} == {
        ("", "one"): "",
        ("unit", "in"): "",
        ("", "two"): "",
        ("", "of %(name)s, 5 %%"): "",
        ("", "%(n)s block"): "%(n)s blocks",
    }


def test_a_module_of_the_engine_says_every_sentence_it_holds() -> None:
    text = '''
"""Words of rows."""
NAMES = {True: "one row", False: "{count} rows"}
KEY = "rows"

def words(part):
    """Say it."""
    if not part:
        raise ValueError(f"no {part} here")
    return Phrase("Sew."), Phrase(NAMES[part])
'''
    assert {each.words for each in in_writer(text)} == {"one row", "{count} rows", "Sew."}
