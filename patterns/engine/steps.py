"""The instructions of a block as data: what to cut, and how to sew, press, trim and check it.

A `Recipe` is written by the methods (`patterns.engine.units`) and read by everybody else: the cut
list, the sheet, the pictures, and virtual sewing (`rebuild`), which trusts nothing but
`Recipe.as_data()`.  Lengths are inches; cut and trim-to sizes include the seams, finished sizes do not.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from typing import Any, TypeAlias

from patterns.engine.parts import Hand, Patch, Point, Shape, UnitKind
from patterns.engine.surds import Number, write_number
from patterns.engine.templates import cut_outline

Size: TypeAlias = tuple[Number, Number]
Fact: TypeAlias = "Number | int | str | Size | Phrase"
Operation: TypeAlias = Mapping[str, Any]  # one row of virtual sewing; see rebuild.py


@dataclass(frozen=True, slots=True)
class Phrase:
    """A sentence with its numbers apart: wording, units and language are the reader's matter.

    `text` is an English sentence with named places, e.g. "Cut {piece} once diagonally."; `facts`
    fills them.  A length is a Fraction, a size a pair, a count an int, a name a str, and a phrase of
    its own a Phrase.
    """

    text: str
    facts: Mapping[str, Fact] = field(default_factory=dict, hash=False)


def listed(items: Sequence[Phrase]) -> Phrase:
    """Put one or more phrases into one: "4 A2, 1 E1 and 4 flying geese"."""
    if len(items) == 1:
        return items[0]
    found = items[0]
    for item in items[1:-1]:
        found = Phrase("{items}, {next}", {"items": found, "next": item})
    return Phrase("{items} and {last}", {"items": found, "last": items[-1]})


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Cut pieces of one fabric, size and purpose: `count` of them, each width across x length along."""

    id: str  # "A1": fabric letter and number of the cut size
    fabric: str
    width: Fraction
    length: Fraction
    count: int
    then: str = ""  # "", "cut once diagonally", "cut twice diagonally"
    purpose: str = ""  # words for the cutting table: "half-square triangles"
    outline: tuple[Point, ...] = ()  # of a template: finished corners; width and length hold its seams too

    @property
    def shape(self) -> str:
        """Say square, rectangle or template."""
        if self.outline:
            return "template"
        return "square" if self.width == self.length else "rectangle"


class MarkKind(StrEnum):
    """Lines drawn over a picture of sewing."""

    PENCIL = "pencil"
    SEAM = "seam"
    CUT = "cut"
    PRESS = "press"  # an arrow from the first point to the second
    MEASURE = "measure"
    DOT = "dot"  # sewing stops here; start and end are one point
    STOP = "stop"  # a bar across a seam: the rest stays open


@dataclass(frozen=True, slots=True)
class Mark:
    """A line or arrow of a picture, in the picture's inches; `label` numbers a seam."""

    kind: MarkKind
    start: Point
    end: Point
    label: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facet:
    """What is seen of one piece: raw edges included, right side up unless `wrong_side`."""

    fabric: str
    points: tuple[Point, ...]
    label: str = ""  # "A1" on cut pieces, "A" on sewn patches
    wrong_side: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """One drawing of a step, to scale, y downward; `size` adds dimension lines with that text."""

    facets: tuple[Facet, ...]
    marks: tuple[Mark, ...] = ()
    caption: Phrase | None = None
    size: Size | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One numbered step as a quilter reads it."""

    number: int
    title: Phrase
    words: tuple[Phrase, ...]
    check: Size | None  # unfinished size to measure at the end
    pictures: tuple[Picture, ...] = ()
    operations: tuple[Operation, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitRow:
    """One line of the table of units."""

    part: str
    kind: UnitKind
    count: int
    fabrics: tuple[str, ...]
    hand: Hand
    finished: Size
    trim_to: Size | None  # None for what is sewn as it is cut: other outlines, pieces off the ruler's marks
    method: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """A unit or piece left over on purpose, and what it is."""

    ref: str
    count: int
    fabrics: tuple[str, ...]
    size: Size  # unfinished
    patches: tuple[Patch, ...] = ()  # of a trimmed unit: finished inches


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """Everything needed to make one block or one part of a quilt, once."""

    name: str
    finished: Size
    seam: Fraction
    order: str
    units: tuple[UnitRow, ...]
    pieces: tuple[Piece, ...]
    steps: tuple[Step, ...]
    spares: tuple[Spare, ...]
    warnings: tuple[Phrase, ...]
    given: Mapping[str, Any] = field(default_factory=dict)  # finished blocks brought from other months
    applique: tuple[Shape, ...] = ()  # on the whole, in the order of laying
    place: Mapping[str, Any] = field(default_factory=dict)  # the last part and how the drawing has it

    def as_data(self) -> dict[str, Any]:
        """Give plain JSON data, numbers as text ("39/8", "1+1/2r2"): all that virtual sewing reads."""
        return {
            "name": self.name,
            "finished": _texts(self.finished),
            "seam": write_number(self.seam),
            "order": self.order,
            "pieces": [_piece(piece, self.seam) for piece in self.pieces],
            "steps": [_step(step) for step in self.steps],
            "spares": [_spare(spare) for spare in self.spares],
            "given": dict(self.given),
            "place": dict(self.place),
        }


def _texts(numbers: Iterable[Number]) -> list[str]:
    return [write_number(number) for number in numbers]


def _piece(piece: Piece, seam: Fraction) -> dict[str, Any]:
    row = {
        "id": piece.id,
        "fabric": piece.fabric,
        "width": write_number(piece.width),
        "length": write_number(piece.length),
        "count": piece.count,
        "then": piece.then,
    }
    if piece.outline:
        row["outline"] = [_texts(corner) for corner in piece.outline]
        row["polygon"] = [_texts(corner) for corner in cut_outline(piece.outline, seam)]
    return row


def _step(step: Step) -> dict[str, Any]:
    return {
        "number": step.number,
        "check": _texts(step.check) if step.check else None,
        "operations": [dict(operation) for operation in step.operations],
    }


def _spare(spare: Spare) -> dict[str, Any]:
    row = {"ref": spare.ref, "count": spare.count, "fabrics": list(spare.fabrics), "size": _texts(spare.size)}
    if spare.patches:
        row["patches"] = [
            {"fabric": patch.fabric, "points": [_texts(point) for point in patch.points]}
            for patch in spare.patches
        ]
    return row
