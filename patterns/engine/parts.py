"""What a sewing order is made of: units, and larger parts joined from them in rows.

All sizes and points are *finished* inches (seams not included), y grows downward, and every part
lies in a frame of its own with its top left corner at (0, 0).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.surds import Number

Point: TypeAlias = tuple[Number, Number]


@dataclass(frozen=True, slots=True)
class Patch:
    """One shape of one fabric after sewing; corners in order round the shape."""

    fabric: str
    points: tuple[Point, ...]


class UnitKind(StrEnum):
    """Kinds of unit, in the words of the trade."""

    SQUARE = "square"
    RECTANGLE = "rectangle"
    HALF_SQUARE = "half-square triangle"
    QUARTER_SQUARE = "quarter-square triangle"
    THREE_PATCH = "three-patch quarter-square triangle"
    FLYING_GEESE = "flying geese"
    SQUARE_IN_A_SQUARE = "square in a square"
    STRIP_SET = "strip set"
    FOUR_PATCH = "four-patch"
    NINE_PATCH = "nine-patch"
    SIDE_TRIANGLE = "side setting triangle"
    CORNER_TRIANGLE = "corner setting triangle"
    FINISHED_BLOCK = "finished block"


class Hand(StrEnum):
    """Which of two mirror images a unit is; EITHER when it equals its own mirror image."""

    LEFT = "left"
    RIGHT = "right"
    EITHER = "either"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit that is made by a method, never taken apart further.

    `patches` tile width x height (a setting triangle tiles its triangle).  `fabrics` lists the
    letters by role, in this order for each kind:
    square, rectangle: the one fabric.  half-square: below-left, above-right of the seam that falls
    from top left to bottom right.  quarter-square: top, right, bottom, left.  three-patch: the half
    (below-left), then top, right.  flying geese (point up): goose, left wing, right wing.
    square in a square: centre, then corners top left, top right, bottom right, bottom left.
    strip set (strips side by side): from left to right.  four- and nine-patch: row by row.
    setting triangles: the one fabric.  finished block: its letters, each once.
    """

    id: str
    kind: UnitKind
    width: Number
    height: Number
    fabrics: tuple[str, ...]
    hand: Hand
    patches: tuple[Patch, ...]
    name: str = ""  # of a finished block, or of a strip, square or triangle that joins blocks to a quilt


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A part laid into its parent: turned clockwise by quarter turns, its top left corner at `at`.

    Only the whole of a quilt set on point is turned further: about that corner, clockwise, by the
    unit vector `turned_by` (cosine, sine).
    """

    part: str
    at: Point
    turn: int  # 0, 1, 2 or 3 quarter turns clockwise
    turned_by: Point = (Fraction(1), Fraction(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """A larger part: the parts of each row are joined, then the rows are joined from the top."""

    id: str
    width: Number
    height: Number
    rows: tuple[tuple[Placed, ...], ...]
    name: str = ""  # "block", "row", "half" ... for the reader


Part: TypeAlias = Unit | Rows


class Order(StrEnum):
    """What holds the whole together, from the plainest to the most careful."""

    STRAIGHT = "straight"
    PARTIAL_SEAM = "partial seam"
    SET_IN_SEAM = "set-in seam"
    FOUNDATION = "foundation"
    TEMPLATE = "template"


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """A sewing order: every distinct part once, those that others need first, the whole last."""

    order: Order
    parts: tuple[Part, ...]
    make: dict[str, int]  # part id -> how many of it the whole needs
    whole: Placed  # the last part, turned as the drawing has it
