"""Every traditional block in German: all that its recipe says has been translated."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from django.conf import settings
from django.utils.translation import override

from bom.domain.translating.files import po_file, read_po
from patterns.domain.wording import say
from patterns.engine.steps import Phrase
from tests.engine.drawings import TRADITIONAL
from tests.engine.drawn import recipe

if TYPE_CHECKING:
    from collections.abc import Iterator

    from patterns.engine.steps import Recipe

pytestmark = pytest.mark.slow
KEPT = read_po(po_file(settings.BASE_DIR, "de").read_text(encoding="utf-8"))


@pytest.mark.parametrize("slug", TRADITIONAL)
def test_all_that_a_recipe_says_has_its_german(slug: str) -> None:
    """Phrases are followed to the last one inside another: nothing is put together that nobody translated."""
    made = recipe(slug)
    said = {phrase.text for each in _said(made) for phrase in _inside(each)}
    names = {
        name for piece in made.pieces for words in (piece.then, piece.purpose) for name in words.split(", ")
    }
    assert {text for text in said | names if text and ("", text) not in KEPT} == set()


def test_a_step_is_said_in_german() -> None:
    with override("de"):
        said = [say(words) for step in recipe("churn-dash").steps for words in step.words]
    assert any(words.startswith("Auf die linke Seite von 2 ") for words in said)
    assert "Im Abstand von 1/4 Zoll zur Linie nähen, auf beiden Seiten. Auf der Linie schneiden." in said


def _said(made: Recipe) -> Iterator[Phrase]:
    yield from made.warnings
    for step in made.steps:
        yield from (step.title, *step.words)
        yield from (picture.caption for picture in step.pictures if picture.caption)


def _inside(phrase: Phrase) -> Iterator[Phrase]:
    yield phrase
    for fact in phrase.facts.values():
        if isinstance(fact, Phrase):
            yield from _inside(fact)
