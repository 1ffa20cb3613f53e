"""What a newer edition of a sheet says otherwise than an older one, computed from the data of both.

Reads what `editions.sheet_data` gave for two editions and nothing else.  Equal data has no change; data
that differs in any way has at least one.
"""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING, Any

from bom.domain.edition_cutting import cut_changes, packet_changes
from bom.domain.edition_sewing import part_changes
from bom.domain.edition_types import ChangeKind, EditionChange
from bom.domain.keeping import hash_of
from patterns.engine.steps import Phrase

if TYPE_CHECKING:
    from collections.abc import Iterator

Data = dict[str, Any]
SHORT = {"title": "title", "day": "opens", "due": "show it by"}  # told with both their texts
LONG = {"story": "story", "tips": "tips"}  # told by name
DAYS = ("day", "due")


def edition_changes(before: Data, after: Data) -> tuple[EditionChange, ...]:
    """List all changes, in the order of the sheet: words, parts, cutting, units, steps, packets."""
    if hash_of(before) == hash_of(after):
        return ()
    old, new = before.get("parts", []), after.get("parts", [])
    found = chain(
        _words(before, after),
        cut_changes(old, new),
        part_changes(old, new),
        packet_changes(before.get("packets", {}), after.get("packets", {})),
        _carried(before, after),
    )
    order = list(ChangeKind)
    listed = sorted(found, key=lambda change: order.index(change.kind))
    return tuple(listed) or (EditionChange(kind=ChangeKind.OTHER, name=Phrase("small print")),)


def _carried(before: Data, after: Data) -> Iterator[EditionChange]:
    if any(before.get(name) != after.get(name) for name in ("carried", "kept")):
        yield EditionChange(kind=ChangeKind.OTHER, name=Phrase("carried fabric"))


def _words(before: Data, after: Data) -> Iterator[EditionChange]:
    for name, words in (SHORT | LONG).items():
        was, now = before.get(name, ""), after.get(name, "")
        if was != now:
            fact = "day" if name in DAYS else "text"
            pair = [Phrase(f"{{{fact}}}", {fact: each}) if name in SHORT else None for each in (was, now)]
            yield EditionChange(kind=ChangeKind.WORDS, name=Phrase(words), before=pair[0], after=pair[1])
