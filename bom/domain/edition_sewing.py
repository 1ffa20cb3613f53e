"""What two editions of a sheet sew otherwise: parts, units, steps; steps by their number on the sheet."""

from __future__ import annotations

from difflib import SequenceMatcher
from itertools import zip_longest
from typing import TYPE_CHECKING, Any, NamedTuple

from bom.domain.edition_types import ChangeKind, EditionChange
from bom.domain.keeping import hash_of
from patterns.engine.steps import Phrase
from patterns.engine.surds import parse_number

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from patterns.engine.steps import Fact, Size

Data = dict[str, Any]


def part_changes(before: Sequence[Data], after: Sequence[Data]) -> Iterator[EditionChange]:
    """Compare parts of one title, in their order; steps are numbered through the sheet."""
    old, new = _numbered(before), _numbered(after)
    for key in dict.fromkeys((*old, *new)):
        was, now = old.get(key), new.get(key)
        if was and now:
            if "units" in was[1] and "units" in now[1]:
                yield from _unit_changes(was[1]["units"], now[1]["units"])
            yield from _step_changes(was, now)
            yield from _finishing_changes(was[1], now[1])
        else:
            title = Phrase("{part}", {"part": key[1]})
            yield EditionChange(kind=ChangeKind.PART, name=title, before=was and title, after=now and title)


Numbered = tuple[int, Data]  # the number of a part's first step, and the part


def _numbered(parts: Sequence[Data]) -> dict[tuple[str, str, int], Numbered]:
    found: dict[tuple[str, str, int], Numbered] = {}
    first = 1
    for part in parts:
        place = sum(key[:2] == (part["kind"], part["title"]) for key in found)
        found[part["kind"], part["title"], place] = (first, part)
        first += len(part.get("words", ()))
    return found


def _unit_changes(before: Sequence[Data], after: Sequence[Data]) -> Iterator[EditionChange]:
    """Compare units of one kind, letters and hand in their order: how many, trim-to size, method."""
    old, new = _by_kind(before), _by_kind(after)
    for key in dict.fromkeys((*old, *new)):
        for was, now in zip_longest(old.get(key, ()), new.get(key, ())):
            if was != now:
                yield EditionChange(
                    kind=ChangeKind.UNIT,
                    name=Phrase("{kind} {letters}", {"kind": Phrase(key[0]), "letters": " ".join(key[1])}),
                    before=_unit(was) if was else None,
                    after=_unit(now) if now else None,
                    letters=tuple(dict.fromkeys(key[1])),
                )


def _by_kind(units: Sequence[Data]) -> dict[tuple[str, tuple[str, ...], str], list[Data]]:
    found: dict[tuple[str, tuple[str, ...], str], list[Data]] = {}
    for unit in units:
        found.setdefault((unit["kind"], tuple(unit["fabrics"]), unit["hand"]), []).append(unit)
    return found


def _unit(unit: Data) -> Phrase:
    facts: dict[str, Fact] = {
        "count": unit["count"],
        "finished": _size(unit["finished"]),
        "method": Phrase(unit["method"]),
    }
    if unit["trim_to"] is None:
        return Phrase("{count}, {finished} finished, {method}", facts)
    trimmed = facts | {"trim_to": _size(unit["trim_to"])}
    return Phrase("{count}, {finished} finished, trim to {trim_to}, {method}", trimmed)


class _Step(NamedTuple):
    number: int
    words: list[Any]
    data: Data

    @property
    def said(self) -> Phrase:
        """Say its title, and what it measures."""
        facts: dict[str, Any] = {"title": _restored(self.words[0])}
        if self.data["check"] is None:
            return Phrase("{title}", facts)
        return Phrase("{title}, it measures {check}", facts | {"check": _size(self.data["check"])})


def _step_changes(was: Numbered, now: Numbered) -> Iterator[EditionChange]:
    """Name steps that are new, gone, or say something else; one that only moved has not changed."""
    old, new = _steps(was), _steps(now)
    a, b = ([hash_of([step.words, step.data]) for step in steps] for steps in (old, new))
    same = SequenceMatcher(a=a, b=b, autojunk=False)
    for tag, begin, stop, start, end in same.get_opcodes():
        if tag != "equal":
            yield from (_step(*pair) for pair in zip_longest(old[begin:stop], new[start:end]))


def _steps(part: Numbered) -> list[_Step]:
    first, data = part
    steps = zip(data.get("words", ()), data.get("recipe", {}).get("steps", ()), strict=True)
    return [_Step(first + place, words, step) for place, (words, step) in enumerate(steps)]


def _step(was: _Step | None, now: _Step | None) -> EditionChange:
    """Say how a step was and is; None where its title and size are the same and something else differs."""
    pair = was and was.said, now and now.said
    shown = now or was
    return EditionChange(
        kind=ChangeKind.STEP,
        name=Phrase("step {number}", {"number": shown.number if shown else 0}),
        before=None if pair[0] == pair[1] else pair[0],
        after=None if pair[0] == pair[1] else pair[1],
    )


def _restored(words: Any) -> Phrase:
    """Give a sentence back as it was written: its names and counts; sizes stay as text."""
    text, facts = words
    return Phrase(
        text, {name: _restored(fact) if isinstance(fact, list) else fact for name, fact in facts.items()}
    )


def _finishing_changes(was: Data, now: Data) -> Iterator[EditionChange]:
    if any(was.get(name) != now.get(name) for name in ("finishing", "corners", "sleeve")):
        yield EditionChange(kind=ChangeKind.FINISHING, name=Phrase("{part}", {"part": now["title"]}))


def _size(texts: Sequence[str]) -> Size:
    width, height = map(parse_number, texts)
    return width, height
