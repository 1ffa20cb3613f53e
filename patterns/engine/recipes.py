"""From a sewing order to a recipe: pieces merged and named, steps numbered, checks, spares and warnings."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from patterns.engine.methods import draft_unit
from patterns.engine.naming import Cut, name_pieces, renamed, renamed_words
from patterns.engine.parts import Assembly, Placed, Rows, Unit, UnitKind
from patterns.engine.pictures import illustrate
from patterns.engine.pressing import press_long, press_rows, row_words
from patterns.engine.steps import Fact, Phrase, Recipe, Spare, Step, UnitRow
from patterns.engine.surds import Number, ceiling, write_number
from patterns.engine.units.base import MAKE_ONE, UNIT, Draft, Style, pair, text

UNTURNED = (Fraction(1), Fraction(0))
PLAIN = (UnitKind.SQUARE, UnitKind.RECTANGLE)
TRIANGLES = (UnitKind.SIDE_TRIANGLE, UnitKind.CORNER_TRIANGLE)
TITLES = {
    UnitKind.SQUARE: Phrase("Squares"),
    UnitKind.RECTANGLE: Phrase("Rectangles"),
    UnitKind.HALF_SQUARE: Phrase("Half-square triangles"),
    UnitKind.QUARTER_SQUARE: Phrase("Quarter-square triangles"),
    UnitKind.THREE_PATCH: Phrase("Three-patch quarter-square triangles"),
    UnitKind.FLYING_GEESE: Phrase("Flying geese"),
    UnitKind.SQUARE_IN_A_SQUARE: Phrase("Square in a square"),
    UnitKind.STRIP_SET: Phrase("Strip sets"),
    UnitKind.FOUR_PATCH: Phrase("Four-patches"),
    UnitKind.NINE_PATCH: Phrase("Nine-patches"),
    UnitKind.SIDE_TRIANGLE: Phrase("Side setting triangles"),
    UnitKind.CORNER_TRIANGLE: Phrase("Corner setting triangles"),
}


@dataclass(slots=True)
class _Writing:
    """A recipe while it is written: names are the parts' own until the pieces are merged."""

    assembly: Assembly
    style: Style
    finished: tuple[Number, Number]
    cuts: list[Cut] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    units: list[UnitRow] = field(default_factory=list)
    spares: list[Spare] = field(default_factory=list)
    warnings: list[Phrase] = field(default_factory=list)
    given: dict[str, Any] = field(default_factory=dict)
    eased: list[dict[str, Any]] = field(
        default_factory=list
    )  # pieces off the cutting step, not yet in a step
    slanted: set[str] = field(default_factory=set)  # parts with a slanting edge: no full rectangles

    def add(self, part: Unit | Rows) -> None:
        """Write what a part needs."""
        make = self.assembly.make[part.id]
        if isinstance(part, Rows):
            self.steps.append(self._rows_step(part, make))
        elif part.kind is UnitKind.FINISHED_BLOCK:
            self.given[part.id] = _given(part, make)
        else:
            self._unit(part, make)

    def _unit(self, unit: Unit, make: int) -> None:
        method, draft = draft_unit(unit, make, self.style)
        if unit.kind in TRIANGLES:
            self.slanted.add(unit.id)
        names = {need.ref: f"{unit.id}/{need.ref}" for need in draft.needs}
        self.cuts += [Cut(need=replace(need, ref=_own(unit, need.ref))) for need in draft.needs]
        self.units.append(self._row(unit, make, method.name))
        self.spares += [replace(spare, ref=_own(unit, spare.ref)) for spare in draft.spares]
        told = (*draft.warnings, *self._off_ruler(unit), *self._too_long(unit))
        self.warnings += [warning for warning in told if warning not in self.warnings]
        if unit.kind in PLAIN:
            self.eased += [renamed(operation, lambda ref: _own(unit, ref)) for operation in draft.operations]
        else:
            self.steps.append(self._unit_step(unit, make, draft, names=names))

    def _unit_step(self, unit: Unit, make: int, draft: Draft, *, names: dict[str, str]) -> Step:
        intro = [Phrase("Make {count}.", {"count": make}), *([MAKE_ONE] if make > 1 else [])]
        return Step(
            number=len(self.steps) + 1,
            title=TITLES[unit.kind],
            words=(*intro, *(renamed_words(words, names) for words in draft.words)),
            check=None if unit.id in self.slanted else self._unfinished(unit),
            operations=tuple(
                renamed(operation, lambda ref: _own(unit, ref)) for operation in draft.operations
            ),
        )

    def _row(self, unit: Unit, make: int, method: str) -> UnitRow:
        return UnitRow(
            part=unit.id,
            kind=unit.kind,
            count=make,
            fabrics=unit.fabrics,
            hand=unit.hand,
            finished=(unit.width, unit.height),
            trim_to=self._unfinished(unit),
            method=method,
        )

    def _unfinished(self, part: Unit | Rows) -> tuple[Number, Number]:
        return _raw((part.width, part.height), self.style.seam)

    def _off_ruler(self, unit: Unit) -> list[Phrase]:
        """Say where a trim-to size is not on the cutting step."""
        size = self._unfinished(unit)
        if unit.kind in PLAIN or all(_on_step(n, self.style.step) for n in size):
            return []
        return [Phrase("A unit is trimmed to {size}, which is not on the cutting step.", {"size": size})]

    def _too_long(self, unit: Unit) -> list[Phrase]:
        """Say where a strip is longer than the fabric is wide."""
        length, width = max(self._unfinished(unit)), self.style.usable_width
        if unit.kind not in PLAIN or length <= width:
            return []
        widths = int(ceiling((length - width) / (width - 2 * self.style.seam), Fraction(1))) + 1
        facts: dict[str, Fact] = {"size": self._unfinished(unit), "count": widths}
        return [
            Phrase(
                "A strip of {size} is cut along the fabric, or joined from {count} widths.",
                facts,
            )
        ]

    def _rows_step(self, part: Rows, make: int) -> Step:
        placed = [cell for row in part.rows for cell in row]
        slanted = any(cell.part in self.slanted for cell in placed)
        if slanted:
            self.slanted.add(part.id)
        last = part.id == self.assembly.parts[-1].id
        eased, self.eased = self.eased, []
        return Step(
            number=len(self.steps) + 1,
            title=self._rows_title(part, last=last),
            words=(*self._row_words(part, make), *(self._squared_up() if slanted and last else ())),
            check=None if slanted else self._unfinished(part),
            operations=(*eased, self._laid(part, make) if slanted else self._rows(part, make)),
        )

    def _row_words(self, part: Rows, make: int) -> tuple[Phrase, ...]:
        return row_words(make, press=self._press(part), long=self._press_long(part))

    def _squared_up(self) -> tuple[Phrase, ...]:
        """Say how a top set on point is trimmed."""
        seam = self.style.seam
        facts: dict[str, Fact] = {"size": _raw(self.finished, seam), "seam": seam}
        return (Phrase("Trim the edges {seam} outside the corners of the blocks, to {size}.", facts),)

    def _press(self, part: Rows) -> list[list[int]]:
        return press_rows(part, {other.id: other for other in self.assembly.parts}, self.style)

    def _press_long(self, part: Rows) -> list[int]:
        return press_long(part, {other.id: other for other in self.assembly.parts})

    def _rows_title(self, part: Rows, *, last: bool) -> Phrase:
        if not last:
            return Phrase("Join the parts")
        return Phrase("Sew the {part} together", {"part": part.name or "block"})

    def _rows(self, part: Rows, make: int) -> dict[str, Any]:
        rows = [[[placed.part, placed.turn] for placed in row] for row in part.rows]
        row = {"op": "rows", "times": make, "rows": rows, "seam": text(self.style.seam), "gives": part.id}
        return {**row, "press": self._press(part), "press_long": self._press_long(part)}

    def _laid(self, part: Rows, make: int) -> dict[str, Any]:
        parts = [[placed.part, placed.turn, pair(*placed.at)] for row in part.rows for placed in row]
        size = {"width": text(part.width), "height": text(part.height)}
        return {
            "op": "lay",
            "times": make,
            "parts": parts,
            **size,
            "seam": text(self.style.seam),
            "gives": part.id,
        }


def write_recipe(
    assembly: Assembly, *, name: str, style: Style, finished: tuple[Number, Number] | None = None
) -> Recipe:
    """Write everything needed to make the whole once; `finished` is the size of a whole that is set on point.

    Pieces of one fabric, size and further cut are merged and named A1, A2 ... from the largest down;
    steps follow the sewing order.  Raises NoMethod when a unit has no method in this style.
    """
    size = finished or _turned_size(assembly.parts[-1], assembly.whole)
    writing = _Writing(assembly, style, size)
    for part in assembly.parts:
        writing.add(part)
    pieces, names, turned = name_pieces(writing.cuts)
    recipe = Recipe(
        name=name,
        finished=size,
        seam=style.seam,
        order=assembly.order.value,
        units=tuple(writing.units),
        pieces=pieces,
        steps=tuple(_named(step, names, turned) for step in writing.steps),
        spares=tuple(replace(spare, ref=names.get(spare.ref, spare.ref)) for spare in writing.spares),
        warnings=tuple(writing.warnings),
        given=writing.given,
        place=_place(assembly.whole, names, turned),
    )
    return illustrate(recipe, style)


def _raw(size: tuple[Number, Number], seam: Fraction) -> tuple[Number, Number]:
    return (size[0] + 2 * seam, size[1] + 2 * seam)


def _own(unit: Unit, ref: str) -> str:
    return unit.id if ref == UNIT else f"{unit.id}/{ref}"


def _on_step(length: Number, step: Fraction) -> bool:
    return isinstance(length, Fraction) and (length / step).denominator == 1


def _named(step: Step, names: dict[str, str], turned: frozenset[str]) -> Step:
    operations = tuple(renamed(o, lambda ref: names.get(ref, ref), turned=turned) for o in step.operations)
    return replace(step, words=tuple(renamed_words(w, names) for w in step.words), operations=operations)


def _turned_size(part: Unit | Rows, whole: Placed) -> tuple[Number, Number]:
    return (part.height, part.width) if whole.turn % 2 else (part.width, part.height)


def _place(whole: Placed, names: dict[str, str], turned: frozenset[str]) -> dict[str, Any]:
    place = {"ref": names.get(whole.part, whole.part), "turn": (whole.turn + (whole.part in turned)) % 4}
    if whole.turned_by == UNTURNED:
        return place
    return {**place, "turned_by": pair(*whole.turned_by), "at": pair(*whole.at)}


def _given(unit: Unit, make: int) -> dict[str, Any]:
    """Bring a finished block: its patches stand as they are."""
    patches = [{"fabric": p.fabric, "points": [pair(*q) for q in p.points]} for p in unit.patches]
    return {"count": make, "size": [write_number(unit.width), write_number(unit.height)], "patches": patches}
