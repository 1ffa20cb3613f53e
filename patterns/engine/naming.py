"""Merging the pieces that methods ask for, and giving everything its name on the sheet."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, TypeAlias

from patterns.engine.steps import Fact, Phrase, Piece
from patterns.engine.units.base import Need

Key: TypeAlias = tuple[str, Fraction, Fraction, str]
REF_KEYS = ("of", "base", "a", "b", "id", "ref")
PLURALS = {"squares": "square", "rectangles": "rectangle"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Pieces a method asked for; `need.ref` is unique in the recipe."""

    need: Need

    @property
    def key(self) -> Key:
        """Give what is merged: fabric, shorter and longer side, further cut."""
        sides = sorted((self.need.width, self.need.length))
        return (self.need.fabric, sides[0], sides[1], self.need.then)


def name_pieces(cuts: list[Cut]) -> tuple[tuple[Piece, ...], dict[str, str], frozenset[str]]:
    """Merge by fabric, size and further cut; number each fabric's pieces from the largest down.

    Gives the pieces, the new name of every old one, and the old names whose sides were exchanged.
    """
    groups: dict[Key, list[Need]] = {}
    for cut in cuts:
        groups.setdefault(cut.key, []).append(cut.need)
    ordered = sorted(groups, key=lambda key: (len(key[0]), key[0], -key[2], -key[1], key[3]))
    pieces: list[Piece] = []
    names: dict[str, str] = {}
    for key in ordered:
        number = 1 + sum(piece.fabric == key[0] for piece in pieces)
        pieces.append(_piece(key, groups[key], number))
        names |= {need.ref: pieces[-1].id for need in groups[key]}
    turned = frozenset(cut.need.ref for cut in cuts if cut.need.width > cut.need.length)
    return tuple(pieces), names, turned


def _piece(key: Key, needs: list[Need], number: int) -> Piece:
    fabric, width, length, then = key
    return Piece(
        id=f"{fabric}{number}",
        fabric=fabric,
        width=width,
        length=length,
        count=sum(need.count for need in needs),
        then=then,
        purpose=", ".join(dict.fromkeys(need.purpose for need in needs if need.purpose)),
    )


def renamed(
    operation: Mapping[str, Any], name: Callable[[str], str], *, turned: frozenset[str] = frozenset()
) -> dict[str, Any]:
    """Give an operation's pieces and parts their new names; a turned piece gets a quarter turn where it is laid."""
    row = dict(operation)
    for key in REF_KEYS:
        if key in row:
            row[key] = name(row[key])
    if "gives" in row:
        row["gives"] = _gives(row["gives"], name)
    if row["op"] == "rows":
        row["rows"] = [[[name(ref), (turn + (ref in turned)) % 4] for ref, turn in cells] for cells in row["rows"]]
    if row["op"] == "stack":
        row["top"] = [{**top, "ref": name(top["ref"])} for top in row["top"]]
    if turned and "base" in operation and operation["base"] in turned:
        row["base_turn"] = 1
    if row["op"] == "ease" and operation["of"] in turned:
        row["turn"] = 1
    return row


def _gives(gives: Any, name: Callable[[str], str]) -> Any:
    if isinstance(gives, str):
        return name(gives)
    if isinstance(gives, list):
        return [{**row, "id": name(row["id"])} for row in gives]
    return {**gives, "id": name(gives["id"])}


def renamed_words(words: Phrase, names: Mapping[str, str]) -> Phrase:
    """Give the names in a sentence their new form; `names` also reads names local to a unit."""
    facts: dict[str, Fact] = {key: names.get(fact, fact) if isinstance(fact, str) else fact for key, fact in words.facts.items()}
    return replace(words, facts=facts)
