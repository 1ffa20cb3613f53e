"""What two editions of a sheet cut otherwise: pieces by fabric letter, packets by colorway and fabric."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from bom.domain.edition_types import ChangeKind, EditionChange
from patterns.engine.measure import inches
from patterns.engine.steps import Phrase, listed
from patterns.engine.surds import parse_number

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from patterns.engine.steps import Fact

Data = dict[str, Any]
Packets = Mapping[str, Sequence[Data]]  # colorway's slug -> lines


class _Cut(NamedTuple):
    """A cut size of one fabric letter: all that makes a piece another piece, numbers as text."""

    size: tuple[str, ...]
    then: str
    outline: tuple[tuple[str, ...], ...]

    def said(self, count: int) -> Phrase:
        """Say so many pieces of this size."""
        width, length = (parse_number(side) for side in self.size)
        facts: dict[str, Fact] = {"count": count, "size": (width, length)}
        if self.outline:
            return Phrase("{count} with a template, from {size}", facts)
        if self.then:
            return Phrase("{count} of {size}, {then}", facts | {"then": Phrase(self.then)})
        return Phrase("{count} of {size}", facts)


Cuts = Counter[_Cut]


def cut_changes(before: Iterable[Data], after: Iterable[Data]) -> Iterator[EditionChange]:
    """Compare the pieces of all parts together, fabric letter by fabric letter, largest first.

    A size that went and one that came are told as one change where the pieces are cut on alike, those of
    equal count first.
    """
    old, new = _cuts(before), _cuts(after)
    for letter in sorted({*old, *new}, key=lambda each: (len(each), each)):
        for was, now in _pairs(old.get(letter, Cuts()), new.get(letter, Cuts())):
            yield EditionChange(
                kind=ChangeKind.CUT,
                name=Phrase("{letter}", {"letter": letter}),
                before=was and was[0].said(was[1]),
                after=now and now[0].said(now[1]),
                letters=(letter,),
            )


def packet_changes(
    before: Mapping[str, Sequence[Data]], after: Mapping[str, Sequence[Data]]
) -> Iterator[EditionChange]:
    """Compare the packets, colorway by colorway and fabric by fabric: cloth, amount, strips."""
    for colorway in dict.fromkeys((*before, *after)):
        old, new = _lines(before.get(colorway, ())), _lines(after.get(colorway, ()))
        for key in dict.fromkeys((*old, *new)):
            yield from _line_changes(old.get(key), new.get(key), colorway)


def _cuts(parts: Iterable[Data]) -> dict[str, Cuts]:
    found: dict[str, Cuts] = {}
    for piece in (piece for part in parts for piece in _pieces(part)):
        outline = tuple(tuple(corner) for corner in piece.get("outline", ()))
        key = _Cut(size=(piece["width"], piece["length"]), then=piece["then"], outline=outline)
        found.setdefault(piece["fabric"], Cuts())[key] += piece["count"]
    return found


def _pieces(part: Data) -> list[Data]:
    """Give the pieces of a part: of its recipe, else its own (which the first editions wrote as text)."""
    own = [piece for piece in part["pieces"] if isinstance(piece, dict)]
    recipe: Data = part.get("recipe", {"pieces": own})
    return list(recipe["pieces"])


Counted = tuple[_Cut, int]


def _pairs(old: Cuts, new: Cuts) -> Iterator[tuple[Counted | None, Counted | None]]:
    same = [cut for cut in old if cut in new]
    yield from (((cut, old[cut]), (cut, new[cut])) for cut in same if old[cut] != new[cut])
    went, came = ([*_sorted(one, without=same)] for one in (old, new))
    alike: tuple[Callable[[Counted, Counted], bool], ...] = (
        lambda one, other: _way(one) == _way(other) and one[1] == other[1],
        lambda one, other: _way(one) == _way(other),
    )
    for test in alike:
        for was in tuple(went):
            now = next((each for each in came if test(was, each)), None)
            if now:
                went.remove(was)
                came.remove(now)
                yield was, now
    yield from ((was, None) for was in went)
    yield from ((None, now) for now in came)


def _sorted(cuts: Cuts, *, without: Iterable[_Cut]) -> list[Counted]:
    left = [(cut, count) for cut, count in cuts.items() if cut not in without]
    return sorted(left, key=lambda each: [-parse_number(side) for side in each[0].size])


def _way(counted: Counted) -> tuple[str, bool]:
    return counted[0].then, bool(counted[0].outline)


def _lines(packet: Iterable[Data]) -> dict[tuple[str, bool], Data]:
    """Give the lines by their first letter, lengths of backing apart."""
    return {(line["letters"][0], line["plan"] is None): line for line in packet}


def _line_changes(old: Data | None, new: Data | None, colorway: str) -> Iterator[EditionChange]:
    line = new or old or {}
    facts = {"letters": ", ".join(line["letters"]), "fabric": line["fabric"]}
    for kind, pair in _differences(old, new):
        yield EditionChange(
            kind=kind,
            name=Phrase("{letters}, {fabric}", facts),
            before=pair[0],
            after=pair[1],
            letters=tuple(dict.fromkeys(letter for each in (old, new) if each for letter in each["letters"])),
            colorway=colorway,
        )


Pair = tuple[Phrase | None, Phrase | None]


def _differences(old: Data | None, new: Data | None) -> Iterator[tuple[ChangeKind, Pair]]:
    """Compare two lines; a line that came or went is told by its amount alone."""
    amounts = old and _amount(old), new and _amount(new)
    if amounts[0] != amounts[1]:
        yield ChangeKind.PACKET, (amounts[0] or None, amounts[1] or None)
    if old and new:
        cloths, strips = (_fabric(old), _fabric(new)), (_strips(old), _strips(new))
        if cloths[0] != cloths[1]:
            yield ChangeKind.FABRIC, cloths
        if strips[0] != strips[1]:
            yield ChangeKind.STRIPS, strips
        elif _across(old) != _across(new):
            yield ChangeKind.STRIPS, (None, None)


def _fabric(line: Data) -> Phrase:
    return Phrase(
        "{fabric}, for {letters}", {"fabric": line["fabric"], "letters": ", ".join(line["letters"])}
    )


def _amount(line: Data) -> Phrase:
    """Say what is in the packet and what the plan takes at least; inches of fabric."""
    least = inches(line["minimum"])
    if line["form"] == "length":
        return Phrase(
            "{suggested}, at least {least}", {"suggested": inches(line["suggested"]), "least": least}
        )
    return Phrase("{form}, at least {least}", {"form": Phrase(line["bought"]), "least": least})


def _strips(line: Data) -> Phrase | None:
    """Say how many strips of which width; None for lengths that are not cut into strips."""
    widths: Counter[str] = Counter()
    for strip in line["plan"]["strips"] if line["plan"] else ():
        widths[strip["height"]] += strip["repeat"]
    said = [
        Phrase("{count} of {width}", {"count": count, "width": inches(width)})
        for width, count in sorted(widths.items(), key=lambda each: -inches(each[0]))
    ]
    return listed(said) if said else None


def _across(line: Data) -> Any:
    return line["plan"] and line["plan"]["strips"]
