"""Pictures of the steps, taken at the sewing table: what is laid, marked, sewn, cut, and what comes out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from patterns.engine.parts import Point, UnitKind
from patterns.engine.picture_fits import fit_picture, raw
from patterns.engine.picture_marks import (
    across,
    apart,
    apart_lines,
    bordered,
    in_layers,
    joint,
    press_arrows,
    pressed_seams,
)
from patterns.engine.rebuild import table_for
from patterns.engine.rebuilding.applique import lay_shapes
from patterns.engine.rebuilding.faults import SewingFault
from patterns.engine.rebuilding.folding import lay
from patterns.engine.rebuilding.joining import edge_facing, motion_onto
from patterns.engine.rebuilding.reading import number, point, polygon
from patterns.engine.rebuilding.setting import turned_whole, whole_turn
from patterns.engine.rebuilding.slicing import slanting_cuts
from patterns.engine.rebuilding.table import Table
from patterns.engine.rebuilding.works import Facet as SewnFacet
from patterns.engine.rebuilding.works import Work
from patterns.engine.steps import Facet, Mark, MarkKind, Phrase, Picture, Recipe, Step
from patterns.engine.surds import Number, ceiling
from patterns.engine.units.base import Style

FINE = Fraction(1, 1000)  # inches; pictures need no roots
SPREAD = Fraction(21, 20)  # parts are drawn this much apart
AWAY = (  # pressed away from the middle
    UnitKind.FLYING_GEESE,
    UnitKind.SQUARE_IN_A_SQUARE,
    UnitKind.CORNER_FLIP,
    UnitKind.TRIANGLE_IN_A_SQUARE,
)


def illustrate(recipe: Recipe, style: Style) -> Recipe:
    """Give every step its pictures: each operation before it is done, and what comes out, with its size."""
    artist = _Artist(recipe=recipe, style=style, table=table_for(recipe.as_data()))
    steps = list(recipe.steps)
    for i, step in enumerate(recipe.steps):
        try:
            pictures = dict.fromkeys(artist.pictures(step))
        except SewingFault:  # the proof names it; from here on there is nothing to draw
            break
        steps[i] = replace(step, pictures=tuple(pictures))
    return replace(recipe, steps=tuple(steps))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Artist:
    """Sews a recipe and draws what lies on the table."""

    recipe: Recipe
    style: Style
    table: Table

    def pictures(self, step: Step) -> Iterator[Picture]:
        """Draw each operation of a step before it is done, then what the step makes."""
        for operation in step.operations:
            if operation["op"] in BEFORE:
                yield BEFORE[operation["op"]](self.table, operation)
            self.table.sew(operation)
            if operation is step.operations[-1]:
                yield from self._ready(step, operation)

    def _ready(self, step: Step, operation: Mapping[str, Any]) -> Iterator[Picture]:
        """Draw what a step makes, once for each way in which it is pressed."""
        part = made(operation)
        work = raw(self._as_drawn(part), part, self.table.allowance)
        shapes = self._as_drawn(part).shapes
        facets = tuple(_facet(f, label=f.letter) for f in (*work.facets, *shapes))
        caption = Phrase("Ready: measure it.") if step.check else Phrase("Ready.")
        yield _picture(facets, self._arrows(part, operation), caption, size=step.check)
        if "press_other" in operation:
            other = operation["press_other"]
            said = Phrase("{count} of them are pressed this way.", {"count": other["count"]})
            yield _picture(facets, self._arrows(part, other), said, size=step.check)

    def _arrows(self, part: str, operation: Mapping[str, Any]) -> list[Mark]:
        work = self.table.stock[part][0]
        if operation.get("op") == "applique":
            return []
        if "pressed" not in operation:
            away = any(row.part == part and row.kind in AWAY for row in self.recipe.units)
            return press_arrows(self._as_drawn(part), away=away, darker=self.style.darker)
        marks = pressed_seams(operation["pressed"], work, allowance=self.table.allowance)
        if not self._is_turned(part):
            return marks
        turn = whole_turn(self.recipe.place, allowance=self.table.allowance)
        return [Mark(mark.kind, turn.apply(mark.start), turn.apply(mark.end)) for mark in marks]

    def _is_turned(self, part: str) -> bool:
        return part == self.recipe.place["ref"] and "turned_by" in self.recipe.place

    def _as_drawn(self, part: str) -> Work:
        """Give a part as it lies; a whole that is set on point is turned as the quilt hangs."""
        work = self.table.stock[part][0]
        if not self._is_turned(part):
            return work
        return turned_whole(work, self.recipe.place, self.recipe.finished, allowance=self.table.allowance)


def made(operation: Mapping[str, Any]) -> str:
    """Give the name of what an operation makes."""
    gives = operation["gives"]
    if isinstance(gives, str):
        return gives
    return str((gives[0] if isinstance(gives, list) else gives)["id"])


def _facet(facet: SewnFacet, *, label: str, wrong_side: bool = False) -> Facet:
    return Facet(fabric=facet.letter, points=facet.points, label=label, wrong_side=wrong_side)


def _facets(work: Work, shift: Point = (Fraction(0), Fraction(0))) -> tuple[Facet, ...]:
    """Draw a work; a single piece is labelled with its name, patches with their letters."""
    single = len(work.facets) == 1 and not work.shapes
    return tuple(
        Facet(fabric=f.letter, points=apart(f.points, shift), label=f.piece if single else f.letter)
        for f in (*work.facets, *work.shapes)
    )


def _picture(
    facets: tuple[Facet, ...],
    marks: Iterable[Mark],
    caption: Phrase,
    *,
    size: tuple[Number, Number] | None = None,
) -> Picture:
    """Round everything to a thousandth of an inch: a picture needs no roots."""
    plain = tuple(replace(f, points=tuple(map(_plain, f.points))) for f in facets)
    lines = tuple(replace(m, start=_plain(m.start), end=_plain(m.end)) for m in marks)
    return Picture(facets=plain, marks=lines, caption=caption, size=size)


def _plain(spot: Point) -> Point:
    x, y = (n if isinstance(n, Fraction) else ceiling(n, FINE) for n in spot)
    return (x, y)


def _cut(table: Table, operation: Mapping[str, Any]) -> Picture:
    work = table.stock[operation["of"]][0].turned(int(operation.get("turn", 0)))
    return _picture(_facets(work), apart_lines(work, operation["along"]), Phrase("Cut apart."))


def _across(table: Table, operation: Mapping[str, Any]) -> Picture:
    work = table.stock[operation["of"]][0]
    marks = across(work, every=number(operation["every"]), pieces=int(operation["pieces"]))
    return _picture(_facets(work), marks, Phrase("Cut across."))


def _slice(table: Table, operation: Mapping[str, Any]) -> Picture:
    """Draw the strip across, its right side up."""
    strip = table.stock[operation["of"]][0]
    laid = strip.turned(1)
    marks = [
        mark
        for line in slanting_cuts(strip, operation)
        for mark in in_layers(line, laid.facets, MarkKind.CUT)
    ]
    return _picture(_facets(laid), marks, Phrase("Cut apart."))


def _stack(table: Table, operation: Mapping[str, Any]) -> Picture:
    base = table.stock[operation["base"]][0].turned(int(operation.get("base_turn", 0)))
    tops = [table.stock[row["ref"]][0] for row in operation["top"]]
    layers = lay(operation, base, tops, allowance=table.allowance)
    cut = all(len(top.facets) == 1 for top in tops)
    upper = tuple(_facet(f, label=f.piece if cut else f.letter, wrong_side=True) for f in layers.tops)
    marks = [m for line in layers.sewn for m in in_layers(line, layers.tops, MarkKind.SEAM)]
    marks += [m for line in layers.cuts for m in in_layers(line, layers.base.facets, MarkKind.CUT)]
    return _picture((*_facets(base), *upper), marks, Phrase("Right sides together: sew, then cut."))


def _join(table: Table, operation: Mapping[str, Any]) -> Picture:
    first, second = table.stock[operation["a"]][0], table.stock[operation["b"]][0]
    edges = (edge_facing(first, point(operation["a_edge"])), edge_facing(second, point(operation["b_edge"])))
    laid = second.moved(
        motion_onto(first, second, edges=edges, operation=operation, allowance=table.allowance), second.box
    )
    gap = bordered(edges[0], 3 * table.allowance)
    facets = (*_facets(first), *_facets(laid, gap))
    return _picture(
        facets, joint(edges[0], table.allowance), Phrase("Lay right sides together along this edge and sew.")
    )


def _rows(table: Table, operation: Mapping[str, Any]) -> Picture:
    gap = 2 * table.allowance
    facets: list[Facet] = []
    marks: list[Mark] = []
    top: Number = Fraction(0)
    laid = dict.fromkeys((ref, turn) for row in operation["rows"] for ref, turn in row)
    works = {key: raw(table.stock[key[0]][0].turned(int(key[1])), key[0], table.allowance) for key in laid}
    for i, row in enumerate(operation["rows"]):
        left: Number = Fraction(0)
        for j, (ref, turn) in enumerate(row):
            work = works[ref, turn]
            facets += _facets(work, (left, top))
            if j:
                x = left + table.allowance
                marks.append(Mark(MarkKind.SEAM, (x, top), (x, top + work.box[1])))
            left = left + work.box[0] + gap
        if i:
            y = top + table.allowance
            marks.append(Mark(MarkKind.SEAM, (Fraction(0), y), (left - gap, y)))
        top = top + work.box[1] + gap
    return _picture(tuple(facets), marks, Phrase("Lay out as drawn, and sew."))


def _shape(table: Table, operation: Mapping[str, Any]) -> Picture:
    return _picture(_facets(table.stock[operation["of"]][0]), (), Phrase("The triangle as it is cut."))


def _lay(table: Table, operation: Mapping[str, Any]) -> Picture:
    """Lay parts a little apart, from the middle outward."""
    facets: list[Facet] = []
    for ref, turn, at in operation["parts"]:
        x, y = point(at)
        facets += _facets(table.stock[ref][0].turned(int(turn)), (x * SPREAD, y * SPREAD))
    return _picture(tuple(facets), (), Phrase("Lay out as drawn, and sew."))


def _fit(table: Table, operation: Mapping[str, Any]) -> Picture:
    laid = fit_picture(table, operation)
    seams = "Sew the seams in this order." if len(operation["seams"]) > 1 else "Lay out as drawn, and sew."
    return _picture(laid.facets(), laid.marks(), Phrase(seams))


def _foundation(table: Table, operation: Mapping[str, Any]) -> Picture:
    """Draw the printed side: in mirror image, each patch with its number in the order of sewing."""
    width = max(x for x, _ in polygon(operation["outline"]))
    facets = tuple(
        Facet(
            fabric=table.stock[row["of"]][0].facets[0].letter,
            points=tuple((width - x, y) for x, y in polygon(row["points"])),
            label=str(number),
        )
        for number, row in enumerate(operation["patches"], start=1)
    )
    return _picture(facets, (), Phrase("The printed side, in mirror image, with the order of sewing."))


def _applique(table: Table, operation: Mapping[str, Any]) -> Picture:
    """Draw the block with its shapes, numbered in the order of laying."""
    ground = table.stock[operation["on"]][0].turned(int(operation["turn"]))
    templates = [table.stock[row["of"]][0] for row in operation["shapes"]]
    shapes = lay_shapes(ground, templates, operation, allowance=table.allowance).shapes
    facets = [_facet(f, label="") for f in ground.facets]
    facets += [_facet(shape, label=str(number)) for number, shape in enumerate(shapes, start=1)]
    return _picture(tuple(facets), (), Phrase("The shapes, numbered in the order of laying."))


BEFORE: dict[str, Callable[[Table, Mapping[str, Any]], Picture]] = {
    "cut": _cut,
    "across": _across,
    "slice": _slice,
    "stack": _stack,
    "join": _join,
    "rows": _rows,
    "shape": _shape,
    "lay": _lay,
    "fit": _fit,
    "foundation": _foundation,
    "applique": _applique,
}
