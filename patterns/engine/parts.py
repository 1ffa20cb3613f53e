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


@dataclass(frozen=True, slots=True)
class Shape(Patch):
    """An appliqué shape: it lies on the patches, and on the shapes before it."""


class UnitKind(StrEnum):
    """Kinds of unit, in the words of the trade."""

    SQUARE = "square"
    RECTANGLE = "rectangle"
    HALF_SQUARE = "half-square triangle"
    QUARTER_SQUARE = "quarter-square triangle"
    THREE_PATCH = "three-patch quarter-square triangle"
    FLYING_GEESE = "flying geese"
    SQUARE_IN_A_SQUARE = "square in a square"
    HALF_RECTANGLE = "half-rectangle triangle"
    CORNER_FLIP = "corner-flip square"
    TRIANGLE_IN_A_SQUARE = "triangle in a square"
    DRUNKARDS_PATH = "drunkard's path"
    STRIP_SET = "strip set"
    FOUR_PATCH = "four-patch"
    NINE_PATCH = "nine-patch"
    SIDE_TRIANGLE = "side setting triangle"
    CORNER_TRIANGLE = "corner setting triangle"
    TRIANGLE = "triangle"
    DIAMOND = "diamond"
    HEXAGON = "hexagon"
    KITE = "kite"
    TEMPLATE = "template"
    FOUNDATION = "foundation section"
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
    half-rectangle (standing upright): left and right of the seam, which falls from top left to bottom right
    in a left one and rises from bottom left to top right in a right one.  corner-flip square: the body, then
    its corners clockwise from the top left one.  triangle in a square (point up): triangle, left side, right
    side.
    drunkard's path: the quarter circle, then the rest.  foundation section: in the order of sewing.
    one patch of any other shape: its fabric.
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
    outline: tuple[Point, ...] = ()  # finished corners of a unit that is no upright rectangle
    applique: tuple[Shape, ...] = ()  # on a finished block
    name: str = ""  # of a finished block, or of a strip, square or triangle that joins blocks to a quilt


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A part laid into its parent: turned clockwise by quarter turns, its top left corner at `at`.

    The whole of a quilt set on point and the parts of a `Fitted` are turned further: about that corner,
    clockwise, by the unit vector `turned_by` (cosine, sine).
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

    @property
    def placed(self) -> tuple[Placed, ...]:
        """Give what it is joined from, row by row."""
        return tuple(placed for row in self.rows for placed in row)


class SeamKind(StrEnum):
    """How one seam is sewn."""

    STRAIGHT = "straight"
    SET_IN = "set in"  # bends at every inner point of its path, with a stop there
    CURVED = "curved"  # runs along a circle, through exact points of it
    PARTIAL = "partial"  # the last stretch of its path stays open
    CLOSING = "closing"  # sews the open stretch of a partial seam, and what came beyond it


@dataclass(frozen=True, slots=True, kw_only=True)
class Seam:
    """One seam of a `Fitted`: part number `part` is sewn to all parts before it, along `path`.

    `path` runs over finished points of the Fitted's frame: two where it is straight.  A partial seam's
    path has three points on one line: sewn from the first to the second, open from there to the last.  A
    closing seam names the part whose partial seam it ends, and starts where that one stopped.
    """

    part: int
    path: tuple[Point, ...]
    kind: SeamKind = SeamKind.STRAIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A larger part of any outline: its parts are laid by rigid motions and sewn seam after seam.

    Parts lie unturned by quarters (`turn` 0): moved and turned by `at` and `turned_by` only, never
    mirrored.  The seams are in the order of sewing; every part but the first is added by one of them.
    """

    id: str
    width: Number
    height: Number
    outline: tuple[Point, ...]  # finished corners, in order
    placed: tuple[Placed, ...]
    seams: tuple[Seam, ...]
    name: str = ""


Part: TypeAlias = Unit | Rows | Fitted


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
    applique: tuple[Shape, ...] = ()  # on the whole, in the order of laying, as the drawing has them
