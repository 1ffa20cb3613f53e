"""What the fabric freeze fixes, as plain data, and how two such states differ.

Parts, by installment number and place: drawing (shape only), size, letters, methods, cut sizes.
Needs, by colorway, installment and fabric: letters, minimum and suggested inches, proven bound.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from bom.domain.keeping import hash_of
from patterns.engine.measure import write_inches
from patterns.engine.surds import write_number

if TYPE_CHECKING:
    from bom.domain.packets import FabricLine, Packet
    from bom.domain.work import PartWork, ProgramWork
    from patterns.engine.blocks import Block
    from patterns.engine.steps import Piece, Recipe

Data = dict[str, Any]
BACKING = " (backing)"  # ends the name of a cloth that is backing


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """One thing that a change would break: where, what, as frozen and as it would be.

    `what` is one of part, size, drawing, letters, methods, cut sizes, colorway, fabric, carried, need;
    `place` names the block, the part or the letters; before and after are words or inches ("13 1/2").
    """

    number: int
    what: str
    place: str
    colorway: str
    before: str
    after: str


def parts_data(work: ProgramWork) -> Data:
    """Give every part of the year as data, by installment number and then by place."""
    return {
        str(installment.number): {_place(part): _part_data(part) for part in installment.parts}
        for installment in work.installments
    }


def needs_data(packets: dict[str, tuple[Packet, ...]]) -> Data:
    """Give the need of every colorway (by slug), by installment number and then by fabric."""
    return {
        slug: {str(each.number): {_cloth(line): _need(line) for line in each.lines} for each in year}
        for slug, year in packets.items()
    }


def frozen_minimum(needs: Data, packet: Packet, line: FabricLine) -> Fraction | None:
    """Give the minimum inches of a packet's line as `needs_data` stored them; None where it has none."""
    need = needs.get(packet.colorway.slug, {}).get(str(packet.number), {}).get(_cloth(line))
    return Fraction(need["minimum"]) if need else None


def part_breaks(before: Data, after: Data) -> Iterator[Break]:
    """List parts that went, came or changed, installment by installment."""
    for number in _numbers(before, after):
        old, new = before.get(number, {}), after.get(number, {})
        for place in _keys(old, new):
            yield from _one_part(int(number), old.get(place), new.get(place))


def need_breaks(before: Data, after: Data) -> Iterator[Break]:
    """List colorways that went or came, letters with another fabric, and needs that rose."""
    for slug in _keys(before, after):
        old, new = before.get(slug), after.get(slug)
        if old is None or new is None:
            yield _break(
                0, "colorway", place=slug, colorway=slug, pair=("", slug) if old is None else (slug, "")
            )
            continue
        for number in _numbers(old, new):
            yield from _one_packet(old.get(number, {}), new.get(number, {}), number=int(number), slug=slug)


def _one_part(number: int, old: Data | None, new: Data | None) -> Iterator[Break]:
    if old is None or new is None:
        name = (old or new or {})["title"]
        yield _break(number, "part", place=name, colorway="", pair=(name, "") if old else ("", name))
        return
    for what in ("size", "drawing", "letters", "methods", "cut sizes"):
        if old[what] != new[what]:
            yield _break(
                number, what, place=new["title"], colorway="", pair=_difference(what, old[what], new[what])
            )


def _one_packet(old: Data, new: Data, *, number: int, slug: str) -> Iterator[Break]:
    cloth_before, cloth_after = _cloth_of_letters(old), _cloth_of_letters(new)
    for letter in _keys(cloth_before, cloth_after):
        pair = cloth_before.get(letter, ""), cloth_after.get(letter, "")
        if all(pair) and pair[0] != pair[1]:
            yield _break(number, "fabric", place=letter, colorway=slug, pair=pair)
    for cloth, need in new.items():
        kept = _kept_for(old.get(cloth)), _kept_for(need)
        if kept[0] != kept[1]:
            yield _break(number, "carried", place=", ".join(need["letters"]), colorway=slug, pair=kept)
        had = Fraction(old[cloth]["suggested"]) if cloth in old else Fraction(0)
        if Fraction(need["suggested"]) > had:
            lengths = write_inches(had), write_inches(Fraction(need["suggested"]))
            yield _break(number, "need", place=", ".join(need["letters"]), colorway=slug, pair=lengths)


def _part_data(part: PartWork) -> Data:
    """Give what is fixed of a part; finished blocks that are brought to it are fixed in their own month."""
    own = part.drawing if part.place else None
    return {
        "title": part.name or part.kind.value,
        "size": _size(part),
        "drawing": _shape(own) if own else "",
        "letters": [patch.fabric for patch in own.cloth] if own else [],
        "methods": _methods(part.recipe) if part.recipe else [],
        "cut sizes": [_cut(piece) for piece in part.pieces],
    }


def _size(part: PartWork) -> list[str]:
    if part.own_size is not None:
        return [write_number(part.own_size)]
    return [write_number(part.drawing.width), write_number(part.drawing.height)] if part.drawing else []


def _shape(drawing: Block) -> str:
    """Hash all outlines, as shares of the width, so that another size is the same shape."""
    outlines = [
        [(write_number(x / drawing.width), write_number(y / drawing.width)) for x, y in patch.points]
        for patch in drawing.cloth
    ]
    return hash_of(outlines)


def _methods(recipe: Recipe) -> list[str]:
    return [f"{row.kind}, {' '.join(row.fabrics)}: {row.method}" for row in recipe.units]


def _cut(piece: Piece) -> str:
    size = f"{write_inches(piece.width)} x {write_inches(piece.length)}"
    then = "with a template" if piece.outline else piece.then
    return f"{piece.fabric}: {piece.count} of {size}{', ' if then else ''}{then}"


def _need(line: FabricLine) -> Data:
    kept = {"kept for": list(line.kept_for)} if line.kept_for else {}
    return {
        **kept,
        "letters": list(line.letters),
        "minimum": str(line.line.minimum),
        "suggested": str(line.line.suggested),
        "bound": str(line.line.plan.lower_bound if line.line.plan else line.line.minimum),
    }


def _place(part: PartWork) -> str:
    return f"block {part.place[0]}, {part.place[1]}" if part.place else str(part.kind)


def _cloth(line: FabricLine) -> str:
    return f"{line.fabric.number} {line.fabric.name}{BACKING if line.is_backing else ''}"


def _kept_for(need: Data | None) -> str:
    """Name the installments that a line keeps pieces for."""
    return ", ".join(map(str, (need or {}).get("kept for", [])))


def _cloth_of_letters(needs: Data) -> dict[str, str]:
    return {letter: cloth for cloth, need in needs.items() for letter in need["letters"]}


def _difference(what: str, old: Any, new: Any) -> tuple[str, str]:
    """Say what differs, shortly: entries that only one has, letters by their number of patches."""
    if what == "drawing":
        return "as frozen", "another drawing"
    if what == "letters":
        old, new = _counted(old, new), _counted(new, old)
    went, came = ([each for each in one if each not in other] for one, other in ((old, new), (new, old)))
    return "; ".join(went), "; ".join(came)


def _counted(letters: list[str], others: list[str]) -> list[str]:
    """Count patches by letter, or name those that changed places where the counts are the same."""
    counts = Counter(letters)
    if counts != Counter(others):
        return [f"{count} of {letter}" for letter, count in sorted(counts.items())]
    return [
        f"patch {number}: {letter}"
        for number, (letter, other) in enumerate(zip(letters, others, strict=True), start=1)
        if letter != other
    ]


def _break(number: int, what: str, *, place: str, colorway: str, pair: tuple[str, str]) -> Break:
    return Break(number=number, what=what, place=place, colorway=colorway, before=pair[0], after=pair[1])


def _numbers(before: Data, after: Data) -> list[str]:
    return sorted({*before, *after}, key=int)


def _keys(before: Data, after: Data) -> list[str]:
    return sorted({*before, *after})
