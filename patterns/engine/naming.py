"""Merging the pieces that methods ask for, and giving everything its name on the sheet."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, TypeAlias

from patterns.engine.parts import Point
from patterns.engine.steps import Fact, Phrase, Piece
from patterns.engine.units.base import Need

Key: TypeAlias = tuple[str, Fraction, Fraction, str, tuple[Point, ...]]
REF_KEYS = ("of", "base", "a", "b", "id", "ref", "on")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Pieces a method asked for; `need.ref` is unique in the recipe."""

    need: Need

    @property
    def key(self) -> Key:
        """Give what is merged: fabric, shorter and longer side, further cut, a template's outline."""
        sides = sorted((self.need.width, self.need.length))
        return (self.need.fabric, sides[0], sides[1], self.need.then, self.need.outline)


def name_pieces(cuts: list[Cut]) -> tuple[tuple[Piece, ...], dict[str, str], frozenset[str]]:
    """Merge by fabric, size, further cut and template; number each fabric's pieces from the largest down.

    Gives the pieces, the new name of every old one, and the old names whose sides were exchanged.
    """
    groups: dict[Key, list[Need]] = {}
    for cut in cuts:
        groups.setdefault(cut.key, []).append(cut.need)
    pieces = tuple(numbered({key: [_as_piece(key, need) for need in needs] for key, needs in groups.items()}))
    ids = {(p.fabric, p.width, p.length, p.then, p.outline): p.id for p in pieces}
    names = {cut.need.ref: ids[cut.key] for cut in cuts}
    turned = frozenset(cut.need.ref for cut in cuts if cut.need.width > cut.need.length)
    return pieces, names, turned


def _as_piece(key: Key, need: Need) -> Piece:
    fabric, width, length, then, outline = key
    return Piece(
        id="",
        fabric=fabric,
        width=width,
        length=length,
        count=need.count,
        then=then,
        purpose=need.purpose,
        outline=outline,
    )


def numbered(groups: Mapping[Key, list[Piece]]) -> list[Piece]:
    """Merge each group, and number each fabric's pieces from the largest down; A before AA."""
    ordered = sorted(groups, key=lambda key: (len(key[0]), key[0], -key[2], -key[1], key[3]))
    numbers: Counter[str] = Counter()
    merged = []
    for key in ordered:
        numbers[key[0]] += 1
        purposes = (p for piece in groups[key] for p in piece.purpose.split(", ") if p)
        merged.append(
            replace(
                groups[key][0],
                id=f"{key[0]}{numbers[key[0]]}",
                count=sum(piece.count for piece in groups[key]),
                purpose=", ".join(dict.fromkeys(purposes)),
            )
        )
    return merged


def renamed(
    operation: Mapping[str, Any], name: Callable[[str], str], *, turned: frozenset[str] = frozenset()
) -> dict[str, Any]:
    """Give pieces and parts their new names; a turned piece gets a quarter turn where it is laid."""
    row = dict(operation)
    for key in REF_KEYS:
        if key in row:
            row[key] = name(row[key])
    if "gives" in row:
        row["gives"] = _gives(row["gives"], name)
    row |= _laid(row, name, turned)
    if operation.get("base") in turned:
        row["base_turn"] = 1
    if row["op"] in ("ease", "cut") and operation["of"] in turned:
        row["turn"] = 1
    if operation.get("on") in turned:
        row["turn"] = (row["turn"] + 1) % 4
    return row


def _laid(row: Mapping[str, Any], name: Callable[[str], str], turned: frozenset[str]) -> dict[str, Any]:
    """Rename what is laid side by side or on top; a turned piece is laid a quarter turn further."""
    changed: dict[str, Any] = {}
    if row["op"] == "rows":
        changed["rows"] = [[[name(r), (k + (r in turned)) % 4] for r, k in cells] for cells in row["rows"]]
    elif row["op"] in ("lay", "fit"):
        changed["parts"] = [[name(r), (k + (r in turned)) % 4, *rest] for r, k, *rest in row["parts"]]
    elif row["op"] == "stack":
        changed["top"] = [{**top, "ref": name(top["ref"])} for top in row["top"]]
    elif row["op"] == "applique":
        changed["shapes"] = [{**shape, "of": name(shape["of"])} for shape in row["shapes"]]
    elif row["op"] == "foundation":
        changed["patches"] = [{**patch, "of": name(patch["of"])} for patch in row["patches"]]
    return changed


def _gives(gives: Any, name: Callable[[str], str]) -> Any:
    if isinstance(gives, str):
        return name(gives)
    if isinstance(gives, list):
        return [{**row, "id": name(row["id"])} for row in gives]
    return {**gives, "id": name(gives["id"])}


def renamed_words(words: Phrase, names: Mapping[str, str]) -> Phrase:
    """Give the names in a sentence their new form; `names` also reads names local to a unit."""
    return replace(words, facts={key: _renamed_fact(fact, names) for key, fact in words.facts.items()})


def _renamed_fact(fact: Fact, names: Mapping[str, str]) -> Fact:
    if isinstance(fact, Phrase):
        return renamed_words(fact, names)
    return names.get(fact, fact) if isinstance(fact, str) else fact
