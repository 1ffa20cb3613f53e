"""What changed between two editions, in the reader's language and units, for page, sheet and mail."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from bom.domain.edition_types import ChangeKind
from patterns.domain.wording import day_text, fabric_text, fractions_html, length_text, say

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from django.utils.safestring import SafeString

    from bom.domain.edition_types import EditionChange
    from patterns.engine.measure import Units
    from patterns.engine.steps import Fact, Phrase
    from patterns.models import Colorway

HEADINGS = {
    ChangeKind.WORDS: gettext_lazy("Words"),
    ChangeKind.PART: gettext_lazy("Parts"),
    ChangeKind.CUT: gettext_lazy("Cut sizes"),
    ChangeKind.UNIT: gettext_lazy("Units"),
    ChangeKind.STEP: gettext_lazy("Steps"),
    ChangeKind.FINISHING: gettext_lazy("Finishing"),
    ChangeKind.FABRIC: gettext_lazy("Fabrics"),
    ChangeKind.PACKET: gettext_lazy("Packets"),
    ChangeKind.STRIPS: gettext_lazy("Strips"),
    ChangeKind.OTHER: gettext_lazy("Other"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeRows:
    """All changes of one kind, each as plain text."""

    heading: str
    lines: tuple[str, ...]

    @property
    def html(self) -> tuple[SafeString, ...]:
        """Give the lines with built fractions, escaped."""
        return tuple(fractions_html(line) for line in self.lines)


def change_rows(
    changes: Iterable[EditionChange], *, colorways: Mapping[str, str], units: Units
) -> tuple[ChangeRows, ...]:
    """Say the changes, kind by kind; of packets those of the colorways given, slug -> name.

    What is alike in all colorways shown is said once.
    """
    shown = [each for each in changes if not each.colorway or each.colorway in colorways]
    return tuple(
        ChangeRows(heading=str(HEADINGS[kind]), lines=tuple(_lines(group, colorways, units)))
        for kind, group in groupby(shown, key=lambda change: change.kind)
    )


def names_of(colorways: Iterable[Colorway]) -> dict[str, str]:
    """Name colorways by their slugs."""
    return {each.slug: each.name for each in colorways}


def first_rows(rows: Iterable[ChangeRows], most: int) -> tuple[tuple[ChangeRows, ...], int]:
    """Give the first so many lines under their headings, and how many lines are left out."""
    kept: list[ChangeRows] = []
    room, left = most, 0
    for row in rows:
        lines = row.lines[:room]
        room, left = room - len(lines), left + len(row.lines) - len(lines)
        if lines:
            kept.append(replace(row, lines=lines))
    return tuple(kept), left


def change_line(change: EditionChange, units: Units) -> str:
    """Say one change in a line: what it is, how it is now, how it was."""
    name, was, now = (_said(each, units) for each in (change.name, change.before, change.after))
    if change.before and change.after:
        return _("{name}: {now} (it was {was})").format(name=name, now=now, was=was)
    if change.after:
        return name if now == name else _("{name}: {now}, which is new").format(name=name, now=now)
    if change.before:
        return _("{name}: no longer {was}").format(name=name, was=was)
    return _("{name}: changed").format(name=name)


def _lines(group: Iterable[EditionChange], colorways: Mapping[str, str], units: Units) -> list[str]:
    found: dict[str, list[str]] = {}
    for change in group:
        found.setdefault(change_line(change, units), []).append(colorways.get(change.colorway, ""))
    return [_of_colorways(line, names, len(colorways)) for line, names in found.items()]


def _of_colorways(line: str, names: list[str], count: int) -> str:
    return f"{', '.join(names)}. {line}" if all(names) and len(names) < count else line


def _said(phrase: Phrase | None, units: Units) -> str:
    """Say a phrase; lengths of a packet as fabric is asked for, days in full."""
    if phrase is None:
        return ""
    facts = {name: _fact(name, fact, units) for name, fact in phrase.facts.items()}
    return say(replace(phrase, facts=facts), units)


def _fact(name: str, fact: Fact, units: Units) -> Fact:
    if name == "suggested" and isinstance(fact, Fraction):
        asked, length = fabric_text(fact, units), length_text(fact, units)
        return asked if asked == length else f"{asked}, {length}"
    if name == "day":
        return day_text(date.fromisoformat(str(fact)), year=True) if fact not in ("", "None") else _("no day")
    return fact
