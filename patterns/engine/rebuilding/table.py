"""The sewing table: takes pieces and parts out of stock by name, sews, and puts the results back."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from patterns.engine.rebuilding.applique import lay_shapes
from patterns.engine.rebuilding.cuts import cut_across, cut_diagonally
from patterns.engine.rebuilding.easing import Deviation, ease_piece, ease_unit
from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.fitting import fit
from patterns.engine.rebuilding.folding import Opened, lay, open_all
from patterns.engine.rebuilding.foundation import piece_on_foundation
from patterns.engine.rebuilding.joining import join, join_rows, within_play
from patterns.engine.rebuilding.plane import Point
from patterns.engine.rebuilding.reading import Data, point
from patterns.engine.rebuilding.setting import lay_parts, shape
from patterns.engine.rebuilding.shaping import take_template
from patterns.engine.rebuilding.slicing import slice_strip
from patterns.engine.rebuilding.trimming import inner_looks, trim
from patterns.engine.rebuilding.works import Work
from patterns.engine.surds import Number

KEPT = 512  # results of sewing kept: alike units are sewn once, however often they are looked at
THEN = {
    "one diagonal": "cut once diagonally",
    "both diagonals": "cut twice diagonally",
    "falling diagonal": "cut once diagonally",
    "rising diagonal": "cut once diagonally",
    "to a point": "cut to a point",
}
TEMPLATE = "cut with a template"
SLICED = "cut into slanting pieces"


@dataclass(slots=True)
class Table:
    """What lies on the table while a recipe is sewn; `step` is the one being sewn."""

    allowance: Number
    step: int = 0
    stock: dict[str, tuple[Work, int]] = field(default_factory=dict)
    made: Counter[str] = field(default_factory=Counter)  # all that were ever put down, by name
    made_in: dict[str, int] = field(default_factory=dict)
    to_cut: dict[str, str] = field(default_factory=dict)  # pieces by what the cutting table says of them
    deviations: list[Deviation] = field(default_factory=list)

    def put(self, ref: str, work: Work, count: int) -> None:
        """Lay `count` copies of a part on the table; parts of one name must be alike."""
        if count < 1:
            raise SewingFault(Rule.COUNT, where=ref, expected="1", found=str(count))
        there, number = self.stock.get(ref, (work, 0))
        if there is not work and self.looks(there) != self.looks(work):
            raise SewingFault(Rule.ALIKE, where=ref)
        self.stock[ref] = (there, number + count)
        self.made[ref] += count
        self.made_in.setdefault(ref, self.step)

    def looks(self, work: Work) -> object:
        """Compare trimmed parts within the seam line, others as they are."""
        if work.solid:
            return (work.box, inner_looks(work.facets, work.box, self.allowance))
        return work.looks()

    def take(self, ref: str, count: int, then: str = "") -> Work:
        """Take `count` copies of a part off the table."""
        if ref not in self.stock:
            raise SewingFault(Rule.COUNT, where=ref, expected=str(count), found="0")
        if self.to_cut.get(ref, then if ref in self.to_cut else "") != then:
            raise SewingFault(
                Rule.THEN, where=ref, expected=self.to_cut[ref] or "whole", found=then or "whole"
            )
        work, number = self.stock[ref]
        if number < count or count < 1:
            raise SewingFault(Rule.COUNT, where=ref, expected=str(count), found=str(number))
        self.stock[ref] = (work, number - count)
        return work

    def sew(self, operation: Data) -> None:
        """Carry out one operation as often as it says."""
        name = operation["op"]
        if name not in OPERATIONS:
            raise SewingFault(Rule.READABLE, expected="a known operation", found=str(name))
        OPERATIONS[name](self, operation, int(operation.get("times", 1)))

    def finish(self, work: Work, how: Data | None, ref: str) -> Work:
        """Trim a part where it says so, compare it with its ideal where it cannot be exact."""
        if how is None:
            return work
        pieces = ", ".join(sorted({facet.piece for facet in work.facets}))
        trimmed = _trimmed(work, json.dumps(how), self.allowance, where=f"{ref} ({pieces})")
        if "ideal" in how:
            trimmed, off = ease_unit(trimmed, how["ideal"], self.allowance, where=ref)
            self.deviations.append(Deviation(self.step, ref, off))
        return trimmed


@lru_cache(maxsize=KEPT)
def _trimmed(work: Work, how: str, allowance: Number, *, where: str) -> Work:
    return trim(work, json.loads(how), allowance, where=where)


@lru_cache(maxsize=KEPT)
def _stacked(
    operation: str, base: Work, tops: tuple[Work, ...], *, allowance: Number
) -> tuple[list[Opened], int]:
    row = json.loads(operation)
    return open_all(lay(row, base, list(tops), allowance=allowance), row["seam"])


@lru_cache(maxsize=KEPT)
def _joined(operation: str, first: Work, second: Work, *, allowance: Number) -> Work:
    return join(first, second, json.loads(operation), allowance=allowance)


@lru_cache(maxsize=KEPT)
def _fitted(operation: str, parts: tuple[tuple[Work, Point, Point], ...], *, allowance: Number) -> Work:
    return fit(list(parts), json.loads(operation), allowance)


@lru_cache(maxsize=KEPT)
def _in_rows(operation: str, rows: tuple[tuple[tuple[Work, str], ...], ...], *, allowance: Number) -> Work:
    return join_rows([list(row) for row in rows], json.loads(operation), allowance)


@lru_cache(maxsize=KEPT)
def _sliced(operation: str, strip: Work, *, allowance: Number) -> tuple[Work, Fraction]:
    return slice_strip(strip, json.loads(operation), allowance)


def _key(operation: Data) -> str:
    """Write an operation without how often it is done."""
    return json.dumps({**operation, "times": 1}, sort_keys=True)


def _cut(table: Table, operation: Data, times: int) -> None:
    piece = table.take(operation["of"], times, THEN[operation["along"]])
    part, count = cut_diagonally(piece.turned(int(operation.get("turn", 0))), operation)
    table.put(operation["gives"], part, count * times)


def _across(table: Table, operation: Data, times: int) -> None:
    part, count = cut_across(table.take(operation["of"], times), operation)
    table.put(operation["gives"], part.stamped(table.step), count * times)


def _stack(table: Table, operation: Data, times: int) -> None:
    base = table.take(operation["base"], times).turned(int(operation.get("base_turn", 0)))
    tops = [table.take(row["ref"], times) for row in operation["top"]]
    parts, loose = _stacked(_key(operation), base, tuple(tops), allowance=table.allowance)
    if loose != int(operation.get("loose", 0)):
        raise SewingFault(
            Rule.OPEN,
            where=operation["base"],
            expected=f"{operation.get('loose', 0)} loose",
            found=f"{loose} loose",
        )
    left = list(parts)
    for row in operation["gives"]:
        for part in _named(left, row["at"], base):
            left.remove(part)
            work = table.finish(_alike(part.work, row, table), row.get("trim"), row["id"])
            table.put(row["id"], work.stamped(table.step), times)
    if left:
        raise SewingFault(
            Rule.COUNT, where=operation["base"], expected=str(len(parts) - len(left)), found=str(len(parts))
        )


def _named(parts: list[Opened], place: str, base: Work) -> list[Opened]:
    """Give the parts that a place of the base lies in, or all."""
    if place == "each":
        return list(parts)
    spot = base.place(place)
    found = [p for p in parts if all(side.height(spot) <= 0 for side in p.region.sides)]
    if len(found) != 1:
        raise SewingFault(Rule.READABLE, where=place, expected="1 part there", found=str(len(found)))
    return found


def _alike(work: Work, row: Data, table: Table) -> Work:
    """Turn an untrimmed part by quarter turns onto one that has its name already."""
    if row.get("trim") or row["id"] not in table.stock:
        return work
    looks = table.stock[row["id"]][0].looks()
    return next((t for k in range(4) if (t := work.turned(k)).stamped(table.step).looks() == looks), work)


def _join(table: Table, operation: Data, times: int) -> None:
    first, second = table.take(operation["a"], times), table.take(operation["b"], times)
    row = operation["gives"]
    works = [
        table.finish(
            _joined(_key(each), first, second, allowance=table.allowance), row.get("trim"), row["id"]
        )
        for each in within_play(operation)
    ]
    if any(table.looks(work) != table.looks(works[0]) for work in works):
        raise SewingFault(Rule.FREE_PLAY, where=row["id"])
    table.put(row["id"], works[0].stamped(table.step), times)


def _rows(table: Table, operation: Data, times: int) -> None:
    rows = tuple(
        tuple((table.take(ref, times).turned(int(turn)), ref) for ref, turn in row)
        for row in operation["rows"]
    )
    work = _in_rows(_key(operation), rows, allowance=table.allowance)
    table.put(operation["gives"], work.stamped(table.step), times)


def _ease(table: Table, operation: Data, times: int) -> None:
    piece = table.take(operation["of"], times).turned(int(operation.get("turn", 0)))
    work, off = ease_piece(piece, operation, table.allowance)
    table.deviations.append(Deviation(table.step, operation["of"], off))
    table.put(operation["gives"], work.stamped(table.step), times)


def _shape(table: Table, operation: Data, times: int) -> None:
    work = shape(table.take(operation["of"], times), operation, table.allowance)
    table.put(operation["gives"], work.stamped(table.step), times)


def _lay(table: Table, operation: Data, times: int) -> None:
    parts = [(table.take(ref, times).turned(int(turn)), point(at)) for ref, turn, at in operation["parts"]]
    work = lay_parts(parts, operation, table.allowance)
    table.put(operation["gives"], work.stamped(table.step), times)


def _template(table: Table, operation: Data, times: int) -> None:
    work = take_template(table.take(operation["of"], times, TEMPLATE), operation, table.allowance)
    table.put(operation["gives"], work.stamped(table.step), times)


def _slice(table: Table, operation: Data, times: int) -> None:
    work, off = _sliced(
        _key(operation), table.take(operation["of"], times, SLICED), allowance=table.allowance
    )
    if off:
        table.deviations.append(Deviation(table.step, operation["of"], off))
    table.put(operation["gives"], work.stamped(table.step), times * int(operation["pieces"]))


def _fit(table: Table, operation: Data, times: int) -> None:
    parts = tuple(
        (table.take(ref, times).turned(int(turn)), point(at), point(turned_by))
        for ref, turn, at, turned_by in operation["parts"]
    )
    work = _fitted(_key(operation), parts, allowance=table.allowance)
    table.put(operation["gives"], work.stamped(table.step), times)


def _foundation(table: Table, operation: Data, times: int) -> None:
    works = [table.take(row["of"], times) for row in operation["patches"]]
    work = piece_on_foundation(works, operation, table.allowance)
    table.put(operation["gives"], work.stamped(table.step), times)


def _applique(table: Table, operation: Data, times: int) -> None:
    ground = table.take(operation["on"], times).turned(int(operation["turn"]))
    templates = [table.take(row["of"], times, TEMPLATE) for row in operation["shapes"]]
    work = lay_shapes(ground, templates, operation, allowance=table.allowance)
    table.put(operation["gives"], work.stamped(table.step), times)


OPERATIONS = {
    "cut": _cut,
    "across": _across,
    "stack": _stack,
    "join": _join,
    "rows": _rows,
    "ease": _ease,
    "shape": _shape,
    "lay": _lay,
    "template": _template,
    "slice": _slice,
    "fit": _fit,
    "foundation": _foundation,
    "applique": _applique,
}
