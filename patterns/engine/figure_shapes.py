"""What a patch of any shape is called, and which hand it is."""

from __future__ import annotations

from itertools import pairwise

from patterns.engine.figure_forms import least_turns, sides, signature
from patterns.engine.figure_numbers import Spot, Whole, cross, dot
from patterns.engine.figures import Mask, Sheet
from patterns.engine.parts import Hand, UnitKind

_THREE, _FOUR, _SIX = 3, 4, 6
_LONG = 2  # times as long as wide: a row


def kind_of(sheet: Sheet, patch: int) -> UnitKind:
    """Name a patch that is no upright rectangle; whatever has no name of its own is a template."""
    if not sheet.is_convex(1 << patch):
        return UnitKind.TEMPLATE
    vectors = sides(sheet, sheet.polygons[patch])
    squares = [dot(vector, vector) for vector in vectors]
    dots = [dot(a, b) for a, b in pairwise((*vectors, vectors[0]))]
    kinds = {_THREE: _kind_of_three, _FOUR: _kind_of_four, _SIX: _kind_of_six}
    return kinds[len(vectors)](squares, dots) if len(vectors) in kinds else UnitKind.TEMPLATE


def _kind_of_three(squares: list[Whole], dots: list[Whole]) -> UnitKind:
    is_half_square = 0 in dots and len(set(squares)) < _THREE
    return UnitKind.TRIANGLE if is_half_square else UnitKind.TEMPLATE


def _kind_of_four(squares: list[Whole], dots: list[Whole]) -> UnitKind:
    if len(set(squares)) == 1:
        square, slant = squares[0] * squares[0], dots[0] * dots[0]
        return UnitKind.DIAMOND if square in (2 * slant, 4 * slant) else UnitKind.TEMPLATE
    a, b, c, d = squares
    return UnitKind.KITE if (a, c) == (b, d) or (b, d) == (c, a) else UnitKind.TEMPLATE


def _kind_of_six(squares: list[Whole], dots: list[Whole]) -> UnitKind:
    regular = len(set(squares)) == 1 and all(2 * each == squares[0] for each in dots)
    return UnitKind.HEXAGON if regular else UnitKind.TEMPLATE


def hand_of(sheet: Sheet, patch: int) -> Hand:
    """Say which of two mirror images a patch is: LEFT reads less, side by side, than RIGHT."""
    vectors = sides(sheet, sheet.polygons[patch])
    own, mirrored = _least(signature(vectors)), _least(_mirrored(vectors))
    if own == mirrored:
        return Hand.EITHER
    return Hand.LEFT if own < mirrored else Hand.RIGHT


def _least(rows: list[tuple[Whole, Whole, Whole]]) -> list[tuple[Whole, Whole, Whole]]:
    first = least_turns(rows)[0]
    return rows[first:] + rows[:first]


def _mirrored(vectors: list[Spot]) -> list[tuple[Whole, Whole, Whole]]:
    """Write the mirror image's outline, which goes round the other way."""
    back = vectors[::-1]
    pairs = pairwise((*back, back[0]))
    return [(dot(a, a), dot(a, b), cross(b, a)) for a, b in pairs]


def shape_word(sheet: Sheet, mask: Mask) -> str:
    """Say what a sewn part is called by its outline."""
    vectors = sides(sheet, sheet.round(mask).corners)
    squares = [dot(vector, vector) for vector in vectors]
    if len(vectors) == _THREE:
        return "triangle"
    if sheet.is_rectangle(mask):
        low, high = sorted(squares[:2])
        return "row" if high >= _LONG * _LONG * low else "part"
    is_diamond = len(vectors) == _FOUR and len(set(squares)) == 1
    return "diamond" if is_diamond else "part"
