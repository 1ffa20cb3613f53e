"""What can be wrong with what the engine is given: kinds of error that carry facts, not sentences.

Forms and commands word them for readers; the text of an exception is for developers.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any, TypeAlias

from patterns.engine.surds import Number, write_number

Place: TypeAlias = tuple[Number, Number]


class PatternError(ValueError):
    """The base of all errors of the engine."""


class LengthNotRead(PatternError):
    """A text is no length: forms are 2 1/2, 5/2, 2.5 and 2½."""

    def __init__(self, *, text: str) -> None:
        """Keep the text as it was given."""
        super().__init__(f"no length: {text!r}; write 2 1/2, 5/2 or 2.5")
        self.text = text


class PieceWiderThanFabric(PatternError):
    """A piece does not fit across the usable width, however it may be turned.  Inches."""

    def __init__(self, *, label: str, width: Fraction, usable_width: Fraction) -> None:
        """Keep the piece's label, its smallest width across, and the usable width."""
        super().__init__(f"piece {label} is {width} in across, usable width is {usable_width} in")
        self.label = label
        self.width = width
        self.usable_width = usable_width


class CutLongerThanBolt(PatternError):
    """A cut of fabric is longer than the longest bolt gives.  Inches."""

    def __init__(self, *, length: Fraction, longest: Fraction) -> None:
        """Keep the cut's length and what the longest bolt gives after its end loss."""
        super().__init__(f"a cut of {length} in needs a longer bolt; the longest gives {longest} in")
        self.length = length
        self.longest = longest


class DrawingError(PatternError):
    """A drawing file or a drawing is not what it should be.

    `kind` is the slug of the fault, `remedy` the key of the advice, `where` the field
    ("patches[2].points[0]") or, for a fault of the picture, the place in the drawing's own numbers.
    """

    kind = "drawing"
    remedy = "check-the-drawing"

    def __init__(self, *, where: str | Place, patches: tuple[int, ...] = ()) -> None:
        """Keep the place, and the numbers (from 0) of the patches that take part."""
        super().__init__(f"{self.kind} at {self.where_as_data(where)}, patches {patches}: {self.remedy}")
        self.where = where
        self.patches = patches

    @staticmethod
    def where_as_data(where: str | Place) -> str | list[str]:
        """Give the place as plain data: the field, or both numbers as text."""
        return where if isinstance(where, str) else [write_number(number) for number in where]

    def as_data(self) -> dict[str, Any]:
        """Give the fault as a command prints it: error, where, remedy, patches."""
        return {
            "error": self.kind,
            "where": self.where_as_data(self.where),
            "remedy": self.remedy,
            "patches": list(self.patches),
        }


class BadField(DrawingError):
    """A field is missing, or is not of the kind it should be."""

    kind = "bad-field"
    remedy = "see-the-drawing-file"


class UnknownField(DrawingError):
    """A field of that name is not known."""

    kind = "unknown-field"
    remedy = "remove-the-field"


class BadNumber(DrawingError):
    """A coordinate is no exact number: 3, "3/2" and "1+1/2r2" are."""

    kind = "bad-number"
    remedy = "write-a-fraction-as-text"


class BadSize(DrawingError):
    """A width or height is not above zero, or sizes do not agree."""

    kind = "bad-size"
    remedy = "give-a-size-above-zero"


class BorderDoesNotFit(DrawingError):
    """A pieced border is shorter than the side it goes along; no coping strip can help."""

    kind = "border-too-short"
    remedy = "add-blocks-to-the-border"

    def __init__(self, *, where: str, side: Number, needed: Number) -> None:
        """Keep the finished length of the side, and that of the border between its corners."""
        super().__init__(where=where)
        self.side, self.needed = side, needed


class RowTooNarrow(DrawingError):
    """A row of a quilt is narrower than the widest, and nothing fills it."""

    kind = "row-too-narrow"
    remedy = "fill-the-row"

    def __init__(self, *, where: str, width: Number, needed: Number) -> None:
        """Keep the finished width of the row, and that of the quilt."""
        super().__init__(where=where)
        self.width, self.needed = width, needed


class BadLetter(DrawingError):
    """A fabric letter is not one of A to Z, AA and so on."""

    kind = "bad-letter"
    remedy = "use-letters-a-to-z"


class UnknownLetter(DrawingError):
    """A letter of the drawing is not in the list of letters it is translated by."""

    kind = "unknown-letter"
    remedy = "give-the-letter-a-fabric"


class ZeroArea(DrawingError):
    """A patch has no area."""

    kind = "zero-area"
    remedy = "remove-the-patch"


class CrossesItself(DrawingError):
    """The outline of a patch crosses or touches itself, or runs back on itself."""

    kind = "crosses-itself"
    remedy = "order-the-corners-round-the-patch"


class OutsidePatch(DrawingError):
    """A corner of a patch lies outside the grid."""

    kind = "outside"
    remedy = "move-the-corner-inside-the-grid"


class Overlap(DrawingError):
    """Two patches lie over each other."""

    kind = "overlap"
    remedy = "move-the-shared-edge"


class Gap(DrawingError):
    """A part of the grid is covered by no patch."""

    kind = "gap"
    remedy = "close-the-gap"


class OtherSeamsNeeded(DrawingError):
    """Straight seams square to the sides cannot divide a part of the block, and it is no known unit.

    `needs` names what it would take: "partial seam", "set-in seam" or "template".  `where` is the top
    left corner of that part.
    """

    kind = "other-seams-needed"
    remedy = "redraw-with-straight-seams"

    def __init__(self, *, where: Place, patches: tuple[int, ...], needs: str) -> None:
        """Keep the place, the patches of that part, and what they need."""
        super().__init__(where=where, patches=patches)
        self.needs = needs

    def as_data(self) -> dict[str, Any]:
        """Add what it needs."""
        return super().as_data() | {"needs": self.needs}


class TooManySeams(DrawingError):
    """The seams of a drawing follow each other too far: more than some hundred, one after the other."""

    kind = "too-many-seams"
    remedy = "draw-it-as-several-blocks"


class TooManyPatches(DrawingError):
    """A drawing has more patches than one block can have: `count` of them, `most` are taken."""

    kind = "too-many-patches"
    remedy = "draw-fewer-patches"

    def __init__(self, *, where: str, count: int, most: int) -> None:
        """Keep both numbers."""
        super().__init__(where=where)
        self.count = count
        self.most = most

    def as_data(self) -> dict[str, Any]:
        """Add both numbers."""
        return super().as_data() | {"count": self.count, "most": self.most}


class BadSvg(DrawingError):
    """An SVG file cannot be read; `where` names the line, element or attribute."""

    kind = "bad-svg"
    remedy = "save-as-plain-svg"


class UnsafeSvg(BadSvg):
    """An SVG file holds what is no drawing: a document type, entities, a script or an animation."""

    kind = "unsafe-svg"


class OutsideReference(BadSvg):
    """An SVG file refers to something outside itself, or holds an embedded picture."""

    kind = "outside-reference"
    remedy = "remove-the-reference"


class TooLarge(DrawingError):
    """A drawing file has more corners, or an SVG is longer, deeper or richer, than a block can be."""

    kind = "too-large"
    remedy = "draw-it-as-several-blocks"


class Curve(DrawingError):
    """A shape of an SVG file has a curved edge other than a quarter or half circle."""

    kind = "curve"
    remedy = "draw-straight-or-quarter-circles"


class BadTransform(DrawingError):
    """A shape of an SVG file is moved otherwise than by translate, scale, matrix or known turns."""

    kind = "bad-transform"
    remedy = "turn-by-30-or-45-degrees"


class NoPatches(DrawingError):
    """An SVG file has no filled shape."""

    kind = "no-patches"
    remedy = "fill-the-patches"


class OffGrid(DrawingError):
    """A corner of an SVG file lies on no grid that the others lie on; `where` names shape and point."""

    kind = "off-grid"
    remedy = "move-the-corner-onto-a-grid"


class SeamOutside(DrawingError):
    """An end of a seam lies outside the grid."""

    kind = "seam-outside"
    remedy = "end-the-seam-inside-the-grid"


class PointSeam(DrawingError):
    """A seam begins and ends at one point."""

    kind = "point-seam"
    remedy = "give-two-different-ends"


class TooManyLines(DrawingError):
    """More seams are drawn than one block can hold."""

    kind = "too-many-lines"
    remedy = "draw-it-as-several-blocks"
