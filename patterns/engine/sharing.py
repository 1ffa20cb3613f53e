"""Triangles of one size and fabric that several units are made from: a square cut for one serves the next.

Each unit is drafted by itself and rounds its squares up; four units that want one quarter triangle each
would cut four squares and leave twelve triangles.  Here what is left of one unit's squares goes to the next,
in the order of the steps, so that over the whole recipe less than one square is left.  Squares cut once or
twice give triangles without a hand, and those of one further cut lie alike on the grain; prints with a
direction are left alone, since which way each triangle lies is then said unit by unit.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from patterns.engine.naming import Cut, Key, renamed, renamed_words
from patterns.engine.steps import Phrase, Spare, Step
from patterns.engine.units.base import Style, share
from patterns.engine.units.triangles import ALONG

GIVEN = {"one diagonal": 2, "both diagonals": 4}  # triangles of a square, by how it is cut
TAKE = "Take {count} of the triangles that are left of {piece}."
KEEP = "Keep {count} of these triangles for later."


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """Pieces, steps and spares of a recipe, by the parts' own names."""

    cuts: tuple[Cut, ...]
    steps: tuple[Step, ...]
    spares: tuple[Spare, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wish:
    """A step that wants triangles, and how many; `times` squares are cut for it alone."""

    step: int
    of: str
    gives: str
    given: int
    times: int
    wanted: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Deal:
    """What a step takes of what is left, how many squares it cuts, and what it keeps for later."""

    taken: int
    times: int
    kept: int


def share_triangles(
    cuts: Iterable[Cut], steps: Iterable[Step], spares: Iterable[Spare], *, style: Style
) -> Written:
    """Cut squares for several units together wherever that saves one."""
    written = Written(cuts=tuple(cuts), steps=tuple(steps), spares=tuple(spares))
    for wishes in _pools(written, style):
        written = _shared(written, wishes)
    return written


def _pools(written: Written, style: Style) -> Iterator[list[_Wish]]:
    found: dict[Key, list[_Wish]] = {}
    needs = {cut.need.ref: cut for cut in written.cuts}
    left = {spare.ref: spare.count for spare in written.spares}
    for number, step in enumerate(written.steps):
        for row in step.operations:
            if row["op"] != "cut" or row["along"] not in GIVEN or "/" not in row["gives"]:
                continue
            cut = needs[row["of"]]
            if cut.need.fabric not in style.directions:
                found.setdefault(cut.key, []).append(_wish(row, number, left.get(row["gives"], 0)))
    for wishes in found.values():
        if sum(each.given * each.times - each.wanted for each in wishes) >= wishes[0].given:
            yield wishes


def _wish(row: Mapping[str, Any], step: int, left: int) -> _Wish:
    given, times = GIVEN[row["along"]], row["times"]
    return _Wish(
        step=step, of=row["of"], gives=row["gives"], given=given, times=times, wanted=given * times - left
    )


def _shared(written: Written, wishes: list[_Wish]) -> Written:
    deals, left = _dealt(wishes)
    of = {each.of: each.of if deals[each.of].times else wishes[0].of for each in wishes}
    names = of | {each.gives: wishes[0].gives for each in wishes}
    gone = {each.gives for each in wishes}
    spare = next(each for each in written.spares if each.ref in gone)
    rest = (replace(spare, ref=wishes[0].gives, count=left),) if left else ()
    touched = {each.step for each in wishes}
    return Written(
        cuts=tuple(cut for each in written.cuts if (cut := _fewer(each, deals)).need.count),
        steps=tuple(
            _step(step, deals, names) if number in touched else step
            for number, step in enumerate(written.steps)
        ),
        spares=(*(each for each in written.spares if each.ref not in gone), *rest),
    )


def _dealt(wishes: list[_Wish]) -> tuple[dict[str, _Deal], int]:
    """Deal step after step, a further square only where too few are left; gives what is left in the end."""
    deals, left = {}, 0
    for wish in wishes:
        taken = min(left, wish.wanted)
        times = share(wish.wanted - taken, wish.given)
        left += times * wish.given - wish.wanted
        deals[wish.of] = _Deal(taken=taken, times=times, kept=0 if wish is wishes[-1] else left)
    return deals, left


def _fewer(cut: Cut, deals: Mapping[str, _Deal]) -> Cut:
    deal = deals.get(cut.need.ref)
    return replace(cut, need=replace(cut.need, count=deal.times)) if deal else cut


def _step(step: Step, deals: Mapping[str, _Deal], names: Mapping[str, str]) -> Step:
    rows = (_row(row, deals) for row in step.operations)
    return replace(
        step,
        words=tuple(words for each in step.words for words in _words(each, deals, names)),
        operations=tuple(renamed(row, lambda ref: names.get(ref, ref)) for row in rows if row["times"]),
    )


def _row(row: Mapping[str, Any], deals: Mapping[str, _Deal]) -> Mapping[str, Any]:
    deal = deals.get(row["of"]) if row["op"] == "cut" else None
    return {**row, "times": deal.times} if deal else row


def _words(words: Phrase, deals: Mapping[str, _Deal], names: Mapping[str, str]) -> Iterator[Phrase]:
    """Say what is taken, cut and kept in place of what was cut for one unit alone."""
    piece = str(words.facts.get("piece"))
    deal = deals.get(piece) if words.text in ALONG.values() else None
    if deal is None:
        yield words
        return
    if deal.taken:
        yield renamed_words(Phrase(TAKE, {"count": deal.taken, "piece": piece}), names)
    if deal.times:
        yield Phrase(words.text, {"count": deal.times, "piece": piece})
    if deal.kept and deal.times:
        yield Phrase(KEEP, {"count": deal.kept})
