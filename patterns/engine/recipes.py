"""From a sewing order to a recipe: pieces merged and named, steps numbered, checks, spares and warnings."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from patterns.engine.applique import lay_shapes
from patterns.engine.border_words import edge_words
from patterns.engine.fit_data import Fitting, fit_operation, given_block, is_rectangle, press_fit
from patterns.engine.fit_words import fit_words
from patterns.engine.methods import draft_unit, triangle_methods
from patterns.engine.naming import Cut, name_pieces, renamed, renamed_words
from patterns.engine.nesting import Nesting, nest
from patterns.engine.nesting_data import press_by_rows, pressed_operations, pressed_part
from patterns.engine.nesting_words import joined_words, unit_words
from patterns.engine.parts import Assembly, Fitted, Part, Placed, Rows, Unit, UnitKind
from patterns.engine.pictures import illustrate
from patterns.engine.pressing import press_words
from patterns.engine.print_directions import direction_warnings
from patterns.engine.row_words import Joint, laid_part, laid_words, rows_title, sewn_on_words, unit_title
from patterns.engine.sharing import share_triangles
from patterns.engine.step_checks import first_words, slanted_row_checks, slanted_unit_checks
from patterns.engine.steps import Fact, Phrase, Recipe, Spare, Step, UnitRow
from patterns.engine.surds import Number, ceiling
from patterns.engine.units.base import UNIT, Draft, Style, on_step, pair, text
from patterns.engine.units.foundations import told_once
from patterns.engine.units.templates import is_cut_piece

UNTURNED = (Fraction(1), Fraction(0))
PLAIN = (UnitKind.SQUARE, UnitKind.RECTANGLE)
CUT_ONLY = ("ease", "template")  # what a piece needs that is sewn as it is cut
TRIANGLES = (UnitKind.SIDE_TRIANGLE, UnitKind.CORNER_TRIANGLE)


@dataclass(slots=True)
class _Writing:
    """A recipe while it is written: names are the parts' own until the pieces are merged."""

    assembly: Assembly
    style: Style
    finished: tuple[Number, Number]
    nesting: Nesting
    cuts: list[Cut] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    units: list[UnitRow] = field(default_factory=list)
    spares: list[Spare] = field(default_factory=list)
    warnings: list[Phrase] = field(default_factory=list)
    given: dict[str, Any] = field(default_factory=dict)
    eased: list[dict[str, Any]] = field(default_factory=list)  # of pieces off the step, in no step yet
    called: dict[str, str] = field(default_factory=dict)  # parts that are one eased piece -> the piece
    slanted: set[str] = field(default_factory=set)  # parts with a slanting edge: no full rectangles

    @property
    def _parts(self) -> dict[str, Part]:
        return {part.id: part for part in self.assembly.parts}

    def add(self, part: Part) -> None:
        """Write what a part needs."""
        make = self.assembly.make[part.id]
        if isinstance(part, Rows):
            self.steps.append(self._rows_step(part, make))
        elif isinstance(part, Fitted):
            self.steps.append(self._fitted_step(part, make))
        elif isinstance(part, Unit) and part.kind is UnitKind.FINISHED_BLOCK:
            self.given[part.id] = given_block(part, make)
        elif isinstance(part, Unit):
            self._unit(part, make)

    def _unit(self, unit: Unit, make: int) -> None:
        method, draft = draft_unit(unit, make, self.style)
        if unit.kind in TRIANGLES or (unit.outline and unit.kind not in PLAIN):
            self.slanted.add(unit.id)
        names = {need.ref: f"{unit.id}/{need.ref}" for need in draft.needs}
        self.cuts += [Cut(need=replace(need, ref=_own(unit, need.ref))) for need in draft.needs]
        self.units.append(self._row(unit, make, method.name))
        self.spares += [replace(spare, ref=_own(unit, spare.ref)) for spare in draft.spares]
        self.warnings += [*draft.warnings, *self._off_ruler(unit), *self._too_long(unit)]
        alone = bool(draft.operations) and unit.id == self.assembly.whole.part
        if not alone and all(operation["op"] in CUT_ONLY for operation in draft.operations):
            self.called[unit.id] = _own(unit, draft.needs[0].ref)
            self.eased += [renamed(operation, lambda ref: _own(unit, ref)) for operation in draft.operations]
        else:
            pressed = self._pressed(unit, draft, method.name)
            self.steps.append(self._unit_step(unit, make, pressed, names=names))

    def _pressed(self, unit: Unit, draft: Draft, method: str) -> Draft:
        """Let a unit's words and operations say how its seams are pressed."""
        words = told_once(unit, draft.words, self.units)
        return replace(
            draft,
            words=unit_words(words, unit, nesting=self.nesting, style=self.style),
            operations=tuple(pressed_operations(self.nesting, unit, draft.operations, method=method)),
        )

    def _unit_step(self, unit: Unit, make: int, draft: Draft, *, names: dict[str, str]) -> Step:
        intro = [Phrase("Make {count}.", {"count": make}), *first_words(draft)]
        return Step(
            number=len(self.steps) + 1,
            title=unit_title(unit, self._parts),
            words=(
                *intro,
                *(renamed_words(words, names) for words in draft.words),
                *(slanted_unit_checks(unit, draft) if unit.id in self.slanted else ()),
            ),
            check=None if unit.id in self.slanted else self._unfinished(unit),
            operations=tuple(renamed(row, lambda ref: _own(unit, ref)) for row in draft.operations),
        )

    def _row(self, unit: Unit, make: int, method: str) -> UnitRow:
        as_cut = unit.outline or (is_cut_piece(unit) and self._is_off_step(unit))
        return UnitRow(
            part=unit.id,
            kind=unit.kind,
            count=make,
            fabrics=unit.fabrics,
            hand=unit.hand,
            finished=(unit.width, unit.height),
            trim_to=None if as_cut else self._unfinished(unit),
            method=method,
        )

    def _unfinished(self, part: Part) -> tuple[Number, Number]:
        return _raw((part.width, part.height), self.style.seam)

    def _off_ruler(self, unit: Unit) -> list[Phrase]:
        """Say where a trim-to size is not on the cutting step."""
        if is_cut_piece(unit) or unit.outline or not self._is_off_step(unit):
            return []
        words = "Units are trimmed to {size}, which is not on the cutting step: measure between the marks."
        return [Phrase(words, {"size": self._unfinished(unit)})]

    def _is_off_step(self, unit: Unit) -> bool:
        return not all(on_step(side, self.style.step) for side in self._unfinished(unit))

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
        joint = Joint(part=part, parts=self._parts, style=self.style)
        eased, self.eased = self.eased, []
        return Step(
            number=len(self.steps) + 1,
            title=rows_title(joint),
            words=(
                *self._row_words(joint, make),
                *(self._slanted_words(joint, part) if slanted else ()),
            ),
            check=None if slanted else self._unfinished(part),
            operations=(*eased, self._laid(part, make) if slanted else self._rows(part, make)),
        )

    def _fitted_step(self, part: Fitted, make: int) -> Step:
        rectangle = is_rectangle(part)
        if not rectangle:
            self.slanted.add(part.id)
        fitting = Fitting(part=part, parts=self._parts, style=self.style)
        press = press_fit(fitting)
        many = (Phrase("Make {count}.", {"count": make}),) if make > 1 else ()
        eased, self.eased = self.eased, []
        return Step(
            number=len(self.steps) + 1,
            title=rows_title(Joint(part=part, parts=self._parts, style=self.style)),
            words=(*many, *fit_words(fitting, press)),
            check=self._unfinished(part) if rectangle else None,
            operations=(*eased, fit_operation(fitting, make, press=press)),
        )

    def _row_words(self, joint: Joint, make: int) -> tuple[Phrase, ...]:
        form, classes = self.nesting.forms[joint.part.id], self.nesting.classes[joint.part.id]
        press, long = press_by_rows(form, classes[0])
        many = (Phrase("Make {count}.", {"count": make}),) if make > 1 else ()
        ways = [way for row in (*press, long) for way in row]
        said = sewn_on_words(joint, ways) or (
            *laid_words(joint),
            *press_words(press, long, parts=joint.joined),
        )
        return (*many, *said, *self._nested_words(joint))

    def _nested_words(self, joint: Joint) -> tuple[Phrase, ...]:
        if not isinstance(joint.part, Rows):
            return ()
        return joined_words(joint.part, nesting=self.nesting, name=lambda ref: laid_part(joint, ref))

    def _slanted_words(self, joint: Joint, part: Rows) -> tuple[Phrase, ...]:
        return self._squared_up() if joint.is_last else slanted_row_checks(part, self.style.seam)

    def _squared_up(self) -> tuple[Phrase, ...]:
        """Say how a top set on point is trimmed."""
        seam = self.style.seam
        facts: dict[str, Fact] = {"size": _raw(self.finished, seam), "seam": seam}
        return (Phrase(edge_words(self._parts.values()), facts),)

    def _rows(self, part: Rows, make: int) -> dict[str, Any]:
        rows = [[[placed.part, placed.turn] for placed in row] for row in part.rows]
        row = {"op": "rows", "times": make, "rows": rows, "seam": text(self.style.seam), "gives": part.id}
        return {**row, **pressed_part(self.nesting, part.id)}

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
            **pressed_part(self.nesting, part.id),
        }


def write_recipe(
    assembly: Assembly,
    *,
    name: str,
    style: Style,
    finished: tuple[Number, Number] | None = None,
    draw: Callable[[Recipe, Style], Recipe] = illustrate,
) -> Recipe:
    """Write everything needed to make the whole once; `finished` is the size of a whole that is set on point.

    Pieces of one fabric, size and further cut are merged and named A1, A2 ... from the largest down;
    steps follow the sewing order; `draw` gives them pictures.  NoMethod when a unit has none in this style.
    """
    size = finished or _turned_size(assembly.parts[-1], assembly.whole)
    style = replace(style, overrides=triangle_methods(assembly) | dict(style.overrides))
    writing = _Writing(assembly, style, size, nest(assembly, style))
    for part in assembly.parts:
        writing.add(part)
    written = share_triangles(writing.cuts, writing.steps, writing.spares, style=style)
    laying = lay_shapes(assembly, style, number=len(writing.steps) + 1, finished=size)
    directed = direction_warnings(assembly, style, writing.units)
    pieces, names, turned = name_pieces([*written.cuts, *laying.cuts])
    called = names | {part: names[piece] for part, piece in writing.called.items()}
    recipe = Recipe(
        name=name,
        finished=size,
        seam=style.seam,
        order=assembly.order.value,
        units=tuple(writing.units),
        pieces=pieces,
        steps=tuple(_named(step, names, turned, called=called) for step in (*written.steps, *laying.steps)),
        spares=tuple(replace(spare, ref=names.get(spare.ref, spare.ref)) for spare in written.spares),
        warnings=tuple(dict.fromkeys((*writing.warnings, *directed, *laying.warnings))),
        given=writing.given,
        applique=assembly.applique,
        place=laying.place or _place(assembly.whole, names, turned),
    )
    return draw(recipe, style)


def _raw(size: tuple[Number, Number], seam: Fraction) -> tuple[Number, Number]:
    return (size[0] + 2 * seam, size[1] + 2 * seam)


def _own(unit: Unit, ref: str) -> str:
    return unit.id if ref == UNIT else f"{unit.id}/{ref}"


def _named(step: Step, names: dict[str, str], turned: frozenset[str], *, called: dict[str, str]) -> Step:
    operations = tuple(renamed(o, lambda ref: names.get(ref, ref), turned=turned) for o in step.operations)
    return replace(
        step,
        title=renamed_words(step.title, called),
        words=tuple(renamed_words(words, called) for words in step.words),
        operations=operations,
    )


def _turned_size(part: Part, whole: Placed) -> tuple[Number, Number]:
    return (part.height, part.width) if whole.turn % 2 else (part.width, part.height)


def _place(whole: Placed, names: dict[str, str], turned: frozenset[str]) -> dict[str, Any]:
    place = {"ref": names.get(whole.part, whole.part), "turn": (whole.turn + (whole.part in turned)) % 4}
    if whole.turned_by == UNTURNED:
        return place
    return {**place, "turned_by": pair(*whole.turned_by), "at": pair(*whole.at)}
