"""One text with its translations."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from string import Formatter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

Key = tuple[str, str]  # context ("" where there is none) and the English words

_PERCENT = re.compile(r"%\((\w+)\)s")


@dataclass(frozen=True, slots=True, kw_only=True)
class Message:
    """English words, their plural form where they count something, and what they are in the language."""

    words: str
    context: str = ""
    plural: str = ""
    said: tuple[str, ...] = ()  # translations: one, or one for each plural form
    places: tuple[str, ...] = field(default=(), compare=False)  # files that say it
    is_fuzzy: bool = False

    @property
    def key(self) -> Key:
        """Give what gettext looks a message up by."""
        return self.context, self.words

    @property
    def is_said(self) -> bool:
        """Whether every form is translated, and surely."""
        return bool(self.said) and all(self.said) and not self.is_fuzzy


def merged(wanted: Mapping[Key, Message], kept: Mapping[Key, Message]) -> dict[Key, Message]:
    """Give what is wanted, in the order of its words, with the translations that are kept already."""
    found = {}
    for key, message in sorted(wanted.items(), key=lambda row: (row[1].words.casefold(), row[0])):
        old = kept.get(key)
        fits = old is not None and bool(old.plural) == bool(message.plural)
        found[key] = replace(message, said=old.said, is_fuzzy=old.is_fuzzy) if old and fits else message
    return found


def places_in(words: str) -> frozenset[str]:
    """Give the places that facts fill: {name}, and %(name)s as templates write them."""
    named = {name for _, name, _, _ in Formatter().parse(words) if name} if "{" in words else set()
    return frozenset(named) | frozenset(_PERCENT.findall(words))


def faults_of(message: Message) -> list[str]:
    """Name what is wrong with a translation: missing, unsure, or with other places than the English has."""
    if not message.is_said:
        return ["unsure" if message.is_fuzzy else "missing"]
    if len(message.said) != (2 if message.plural else 1):
        return ["plural forms"]
    forms = [places_in(words) for words in (message.words, message.plural) if words]
    most, least = frozenset.union(*forms), frozenset.intersection(*forms)
    wrong = [words for words in message.said if not least <= places_in(words) <= most]
    return [f"other places in {words!r}" for words in wrong]
