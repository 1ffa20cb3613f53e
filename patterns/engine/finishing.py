"""What finishes a top: backing, batting, binding; strips for borders; counts of sashing and triangles.

Sizes of tops are finished inches; lengths of fabric are inches of full-width cuts, as planned (minimum,
not rounded to what is sold).  A program in centimetres hands over its own allowances as exact inches.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.surds import Number, ceiling, root

ONE = Fraction(1)
BINDING_TAIL = Fraction(10)  # inches; common practice, enough to join the ends
CORNERS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Binding:
    """Strips cut across the fabric and joined; `length` is what must go round, tail included."""

    strip: Fraction  # cut width
    strips: int
    length: Number
    joined: Fraction  # what the joined strips give
    fabric_length: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class BackingWay:
    """Panels of one length sewn along their selvages; `along` says which side of the quilt they follow."""

    along: str  # "height": the seams run from top to bottom; "width": from side to side
    panels: int
    panel_length: Number
    fabric_length: Number

    @property
    def seams(self) -> int:
        """Count the seams: none where wide backing covers the quilt in one length."""
        return self.panels - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Backing:
    """The back with its overage, and both ways to piece it; `best` takes the least fabric."""

    width: Number
    height: Number
    overage: Fraction  # more than the top on every side
    ways: tuple[BackingWay, ...]

    @property
    def best(self) -> BackingWay:
        """Give the way that takes the least fabric, then the fewest seams."""
        return min(self.ways, key=lambda way: (way.fabric_length, way.panels))


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """Strips across the fabric: how many, and the length of fabric they take."""

    count: int
    fabric_length: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class SashingCounts:
    """Sashing strips between blocks and cornerstones where they meet."""

    strips: int
    cornerstones: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OnPointCounts:
    """Blocks of the rows between, and the triangles round a setting on point."""

    between: int
    side_triangles: int
    corner_triangles: int


def strips_joined(length: Number, *, strip: Fraction, usable_width: Fraction) -> int:
    """Count strips that are joined diagonally to give `length`.

    The least n with n usable widths - (n - 1) strip widths >= length: two strips crossed at a right
    angle are sewn corner to corner, so every join takes one strip width (reasoned from the join).
    PieceWiderThanFabric when nothing would be left.
    """
    return _joined(length, lost=strip, usable_width=usable_width)


def strips_end_to_end(length: Number, *, usable_width: Fraction) -> int:
    """Count strips by plain division, as many guides do: nothing is lost in the joins."""
    return _up(length / usable_width)


def binding(
    width: Number,
    height: Number,
    *,
    strip: Fraction,
    usable_width: Fraction,
    tail: Fraction = BINDING_TAIL,
) -> Binding:
    """Plan a straight double-fold binding: once round the quilt and the tail, joined diagonally."""
    return binding_round(2 * (width + height) + tail, strip=strip, usable_width=usable_width)


def binding_round(length: Number, *, strip: Fraction, usable_width: Fraction) -> Binding:
    """Plan a straight binding of that length, tail included, for an outline of any shape."""
    count = strips_joined(length, strip=strip, usable_width=usable_width)
    return Binding(
        strip=strip,
        strips=count,
        length=length,
        joined=count * usable_width - (count - 1) * strip,
        fabric_length=count * strip,
    )


def binding_strip(finished: Fraction, *, seam: Fraction) -> Fraction:
    """Give the cut width of a double-fold binding: four times the finished width and two seams."""
    return 4 * finished + 2 * seam


def bias_square(length: Fraction, *, strip: Fraction, step: Fraction = ONE) -> Fraction:
    """Give the side of a square whose area makes that length of bias strip, up to the next step."""
    return ceiling(root(length * strip), step)


def backing(
    width: Number, height: Number, *, overage: Fraction, seam: Fraction, usable_width: Fraction
) -> Backing:
    """Plan a back for a top of width x height, `overage` more on every side, selvages taken off.

    w panels give w usable widths - 2 (w - 1) seams across; both directions are given.
    """
    wide, tall = width + 2 * overage, height + 2 * overage
    ways = tuple(
        _way(along, across=across, length=length, seam=seam, usable_width=usable_width)
        for along, across, length in (("height", wide, tall), ("width", tall, wide))
    )
    return Backing(width=wide, height=tall, overage=overage, ways=ways)


def batting(width: Number, height: Number, *, overage: Fraction) -> tuple[Number, Number]:
    """Give the size of batting for a top: `overage` more on every side."""
    return width + 2 * overage, height + 2 * overage


def before_washing(size: Number, *, shrinkage: Fraction) -> Number:
    """Give the size to make so that `size` is left when a share of it is lost in the wash.

    >>> before_washing(Fraction(95), shrinkage=Fraction(1, 20))
    Fraction(100, 1)
    """
    return size / (1 - shrinkage)


def border_strips(
    width: Number, height: Number, *, border: Fraction, seam: Fraction, usable_width: Fraction
) -> Strips:
    """Count strips for a butted border round a centre of width x height, finished width `border`.

    The four sides are cut one after the other from strips joined by straight seams, which take
    two seams each; sizes grow by the seams.
    """
    strip = border + 2 * seam
    sides, ends = height + 2 * seam, width + 2 * border + 2 * seam
    count = _joined(2 * (sides + ends), lost=2 * seam, usable_width=usable_width)
    return Strips(count=count, fabric_length=count * strip)


def mitred_border_length(side: Number, *, border: Number, allowance: Fraction = ONE) -> Number:
    """Give the length to cut for a mitred border: the side, the border at both ends, the allowance."""
    return side + 2 * border + allowance


def sashing_counts(rows: int, columns: int, *, outside: bool) -> SashingCounts:
    """Count sashing strips and cornerstones of rows x columns blocks."""
    lines, posts = (rows + 1, columns + 1) if outside else (rows - 1, columns - 1)
    return SashingCounts(strips=lines * columns + posts * rows, cornerstones=lines * posts)


def on_point_counts(rows: int, columns: int) -> OnPointCounts:
    """Count what a setting on point needs beside its rows x columns blocks."""
    return OnPointCounts(
        between=(rows - 1) * (columns - 1),
        side_triangles=2 * (rows + columns - 2),
        corner_triangles=CORNERS,
    )


def on_point_size(rows: int, columns: int, *, block: Number) -> tuple[Number, Number]:
    """Give the finished width and height of a setting on point, exactly."""
    return columns * block * root(2), rows * block * root(2)


def _way(along: str, *, across: Number, length: Number, seam: Fraction, usable_width: Fraction) -> BackingWay:
    panels = _up((across - 2 * seam) / (usable_width - 2 * seam))
    return BackingWay(along=along, panels=panels, panel_length=length, fabric_length=panels * length)


def _joined(length: Number, *, lost: Fraction, usable_width: Fraction) -> int:
    """Count strips where every join takes `lost`."""
    if lost >= usable_width:
        raise PieceWiderThanFabric(label="strip", width=lost, usable_width=usable_width)
    return _up((length - lost) / (usable_width - lost))


def _up(number: Number) -> int:
    """Round a count up, at least to 1."""
    return max(1, int(ceiling(number, ONE)))
