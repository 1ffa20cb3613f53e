"""Binding round an outline of any shape: how long it is, and the mark and fold at every corner.

Finished inches.  Sewn `seam` inside the edge, the seam lines of two edges meet at a point that lies
seam x cot(angle / 2) from the corner along either edge: there the sewing stops and begins again.  The
strip left free between, for a binding that finishes `finished` wide, is 2 x finished x cot(angle / 2):
it becomes the mitre (derived geometry; at a square corner the seam and twice the finished width, as every
guide has it).  An inner corner has both backwards: the point lies beyond the corner, the surplus is a pleat.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from math import isqrt

from patterns.engine.geometry import Corner, cross, dot, edges, exact, minus, tidied
from patterns.engine.parts import Point
from patterns.engine.steps import Fact, Phrase
from patterns.engine.surds import Number, Surd, ceiling, root, sign

ONE, THOUSAND = Fraction(1), 1000


class CornerKind(StrEnum):
    """Corners of an outline by their inner angle."""

    SQUARE = "square"
    SHARP = "sharp"  # under 90 degrees
    BLUNT = "blunt"  # over 90 degrees
    INNER = "inner"  # over 180 degrees


@dataclass(frozen=True, slots=True, kw_only=True)
class BindingCorner:
    """One corner: `stop` before it (beyond it where it is an inner one), `fold` of strip for the mitre."""

    at: Point
    kind: CornerKind
    stop: Number
    fold: Number
    words: tuple[Phrase, ...]


def outline_length(outline: Sequence[Point]) -> Number:
    """Add up the edges of an outline; one that is no root of a rational is rounded up, by a thousandth."""
    return sum((_length(minus(end, start)) for start, end in edges(outline)), start=Fraction(0))


def binding_corners(
    outline: Sequence[Point], *, seam: Fraction, finished: Fraction
) -> tuple[BindingCorner, ...]:
    """Give every corner of an outline, clockwise from the least point; straight ones are left out."""
    points = tidied(outline)
    count = len(points)
    return tuple(
        _corner(
            (points[i - 1], points[i], points[(i + 1) % count]),
            seam=seam,
            finished=finished,
        )
        for i in range(count)
    )


def finished_binding(strip: Fraction, *, seam: Fraction) -> Fraction:
    """Give the finished width of a double-fold binding: the folded strip less its seam, on both sides."""
    return (strip - 2 * seam) / 4


def _corner(points: tuple[Corner, Corner, Corner], *, seam: Fraction, finished: Fraction) -> BindingCorner:
    before, at, after = points
    back, ahead = minus(before, at), minus(after, at)
    cotangent = (_length(back) * _length(ahead) + exact(dot(back, ahead))) / exact(cross(ahead, back))
    kind = _kind(back, ahead)
    size = -cotangent if kind is CornerKind.INNER else cotangent
    stop, fold = seam * size, 2 * finished * size
    return BindingCorner(
        at=(exact(at[0]), exact(at[1])), kind=kind, stop=stop, fold=fold, words=_words(kind, stop, fold)
    )


def _kind(back: Corner, ahead: Corner) -> CornerKind:
    if sign(exact(cross(ahead, back))) < 0:
        return CornerKind.INNER
    turn = sign(exact(dot(back, ahead)))
    return (CornerKind.SQUARE, CornerKind.SHARP, CornerKind.BLUNT)[turn]


def _length(vector: Corner) -> Number:
    square = exact(dot(vector, vector))
    if not isinstance(square, Surd):
        return root(square)
    return Fraction(isqrt(int(ceiling(square * THOUSAND**2, ONE))) + 1, THOUSAND)


def _words(kind: CornerKind, stop: Number, fold: Number) -> tuple[Phrase, ...]:
    """Say where to stop, how to fold and where to go on."""
    facts: dict[str, Fact] = {"stop": stop, "fold": fold, "half": fold / 2}
    if kind is CornerKind.INNER:
        return (
            Phrase(
                "Mark the seam line {stop} beyond the inner corner. Clip the quilt's edge to the mark.", facts
            ),
            Phrase(
                "Sew to the mark and stop with the needle down. Pull the next edge straight and sew on: no "
                "fold on the front yet."
            ),
            Phrase("When the binding is turned to the back, fold a pleat of {fold} into the corner.", facts),
        )
    turned = {
        CornerKind.SQUARE: "then down along the next edge, the fold level with the edge just sewn",
        CornerKind.SHARP: "then back along the next edge, the fold at the tip of the corner and square to it",
        CornerKind.BLUNT: "then back along the next edge, the fold at the corner and square to that edge",
    }[kind]
    return (
        Phrase("Mark the edge {stop} before the corner. Sew to the mark and take the quilt out.", facts),
        Phrase(
            "Fold the strip away from the quilt, its raw edge in one line with the next edge; {turned}. The "
            "fold takes {fold} of the strip.",
            {**facts, "turned": Phrase(turned)},
        ),
        Phrase("Begin again {stop} after the corner.", facts),
    )
