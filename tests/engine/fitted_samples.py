"""Sewing orders with fitted parts, written by hand for the tests: a star, a windmill, a window."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from patterns.engine.geometry import EIGHTH_TURN
from patterns.engine.laying import units_in_whole
from patterns.engine.parts import (
    Assembly,
    Fitted,
    Hand,
    Order,
    Part,
    Patch,
    Placed,
    Point,
    Seam,
    SeamKind,
    Unit,
    UnitKind,
)
from patterns.engine.surds import Number, root, write_number

NO_TURN: Point = (Fraction(1), Fraction(0))


def eighths(count: int) -> Point:
    """Turn clockwise by eighths of a whole turn."""
    vector = NO_TURN
    for _ in range(count % 8):
        cos, sin = EIGHTH_TURN
        vector = (vector[0] * cos - vector[1] * sin, vector[0] * sin + vector[1] * cos)
    return vector


def points(*corners: tuple[Any, Any]) -> tuple[Point, ...]:
    return tuple((exact(x), exact(y)) for x, y in corners)


def exact(number: Any) -> Number:
    return Fraction(number) if isinstance(number, int | str) else number


def one_patch(ref: str, kind: UnitKind, *, letter: str, outline: tuple[Point, ...]) -> Unit:
    """Write a unit of one patch; a square or rectangle has no outline of its own."""
    width, height = max(x for x, _ in outline), max(y for _, y in outline)
    upright = kind in (UnitKind.SQUARE, UnitKind.RECTANGLE)
    return Unit(
        id=ref,
        kind=kind,
        width=width,
        height=height,
        fabrics=(letter,),
        hand=Hand.EITHER,
        patches=(Patch(letter, outline),),
        outline=() if upright else outline,
    )


def rectangle(ref: str, letter: str, *, width: Any, height: Any) -> Unit:
    kind = UnitKind.SQUARE if width == height else UnitKind.RECTANGLE
    corners = points((0, 0), (width, 0), (width, height), (0, height))
    return one_patch(ref, kind, letter=letter, outline=corners)


def placed(part: str, x: Any, y: Any, *, turned_by: Point = NO_TURN) -> Placed:
    return Placed(part=part, at=(exact(x), exact(y)), turn=0, turned_by=turned_by)


def seam(part: int, *path: tuple[Any, Any], kind: SeamKind = SeamKind.STRAIGHT) -> Seam:
    return Seam(part=part, path=points(*path), kind=kind)


def fitted(ref: str, outline: tuple[Point, ...], *, placed: list[Placed], seams: list[Seam]) -> Fitted:
    width, height = max(x for x, _ in outline), max(y for _, y in outline)
    return Fitted(
        id=ref,
        width=width,
        height=height,
        outline=outline,
        placed=tuple(placed),
        seams=tuple(seams),
    )


def assembly(order: Order, *parts: Part, make: dict[str, int]) -> Assembly:
    return Assembly(order=order, parts=parts, make=make, whole=placed(parts[-1].id, 0, 0))


def eight_point_star(size: int = 12) -> Assembly:
    """Sew a diamond, a triangle and another diamond four times; two halves; the corner squares set in."""
    edge = Fraction(size, 2) * (2 - root(2))  # of a diamond, and of a corner square
    d = edge / root(2)
    slanted = points((0, 0), (edge, 0), (edge + d, d), (d, d))
    return assembly(
        Order.SET_IN_SEAM,
        one_patch("diamond", UnitKind.DIAMOND, letter="A", outline=slanted),
        one_patch("triangle", UnitKind.TRIANGLE, letter="B", outline=points((0, d), (d, 0), (d, 2 * d))),
        rectangle("square", "C", width=edge, height=edge),
        _quarter_star(edge),
        _half_star(edge),
        _whole_star(size, edge),
        make={"diamond": 8, "triangle": 4, "square": 4, "quarter": 4, "half": 2, "whole": 1},
    )


def _quarter_star(edge: Number) -> Fitted:
    d = edge / root(2)
    half = edge + d
    return fitted(
        "quarter",
        points((0, d), (d, 0), (half, 0), (half, 2 * d), (d, 2 * d)),
        placed=[
            placed("diamond", 0, d),
            placed("triangle", edge, 0),
            placed("diamond", 0, d, turned_by=eighths(-1)),
        ],
        seams=[
            seam(1, (edge, d), (half, 2 * d)),
            seam(2, (0, d), (edge, d), (half, 0), kind=SeamKind.SET_IN),
        ],
    )


def _half_star(edge: Number) -> Fitted:
    d = edge / root(2)
    half = edge + d
    return fitted(
        "half",
        points(
            (2 * d, 0),
            (half + d, 0),
            (half + d, 2 * d),
            (2 * d, 2 * d),
            (2 * d, half + d),
            (0, half + d),
            (0, 2 * d),
        ),
        placed=[placed("quarter", d, 0), placed("quarter", 2 * d, d, turned_by=eighths(2))],
        seams=[seam(1, (d, d), (2 * d, 2 * d))],
    )


def _whole_star(size: int, edge: Number) -> Fitted:
    d = edge / root(2)
    half = edge + d
    return fitted(
        "whole",
        points((0, 0), (size, 0), (size, size), (0, size)),
        placed=[
            placed("half", half - d, half - d),
            placed("half", half + d, half + d, turned_by=eighths(4)),
            placed("square", size - edge, 0),
            placed("square", size - edge, size - edge),
            placed("square", 0, size - edge),
            placed("square", 0, 0),
        ],
        seams=[
            seam(1, (half - d, half + d), (half + d, half - d)),
            *(seam(2 + k, *_corner_path(size, d, k), kind=SeamKind.SET_IN) for k in range(4)),
        ],
    )


def _corner_path(size: int, d: Number, turns: int) -> list[tuple[Number, Number]]:
    """Go round the inner sides of a corner square: top right, bottom right, bottom left, top left."""
    half = Fraction(size, 2)
    path = [(d, -half), (d, -d), (half, -d)]
    for _ in range(turns):
        path = [(-y, x) for x, y in path]
    return [(half + x, half + y) for x, y in path]


def windmill() -> Assembly:
    """Sew four rectangles round a square: the first seam is partial, and closed at last."""
    square = rectangle("square", "A", width=3, height=3)
    sail = rectangle("sail", "B", width=6, height=3)
    whole = fitted(
        "whole",
        points((0, 0), (9, 0), (9, 9), (0, 9)),
        placed=[
            placed("square", 3, 3),
            placed("sail", 0, 0),
            placed("sail", 9, 0, turned_by=eighths(2)),
            placed("sail", 3, 6),
            placed("sail", 3, 3, turned_by=eighths(2)),
        ],
        seams=[
            seam(1, (6, 3), ("9/2", 3), (3, 3), kind=SeamKind.PARTIAL),
            seam(2, (6, 0), (6, 6)),
            seam(3, (3, 6), (9, 6)),
            seam(4, (3, 3), (3, 9)),
            seam(1, ("9/2", 3), (0, 3), kind=SeamKind.CLOSING),
        ],
    )
    make = {"square": 1, "sail": 4, "whole": 1}
    return assembly(Order.PARTIAL_SEAM, square, sail, whole, make=make)


def attic_window(size: int = 6) -> Assembly:
    """Set a square into two mitred sashes."""
    pane = rectangle("pane", "A", width=size - 2, height=size - 2)
    sill = one_patch(
        "sill", UnitKind.TEMPLATE, letter="B", outline=points((0, 2), (2, 0), (size, 0), (size, 2))
    )
    side = one_patch(
        "side", UnitKind.TEMPLATE, letter="C", outline=points((0, 0), (2, 0), (2, size - 2), (0, size))
    )
    whole = fitted(
        "whole",
        points((0, 0), (size, 0), (size, size), (0, size)),
        placed=[placed("sill", 0, size - 2), placed("side", 0, 0), placed("pane", 2, 0)],
        seams=[
            seam(1, (0, size), (2, size - 2)),
            seam(2, (2, 0), (2, size - 2), (size, size - 2), kind=SeamKind.SET_IN),
        ],
    )
    make = {"pane": 1, "sill": 1, "side": 1, "whole": 1}
    return assembly(Order.SET_IN_SEAM, pane, sill, side, whole, make=make)


def drawing_of(order: Assembly) -> dict[str, Any]:
    """Write the drawing that a hand-written order should end as, in finished inches."""
    whole = order.parts[-1]
    patches = [patch for lying in units_in_whole(order) for patch in lying.patches]
    return {
        "grid": [write_number(whole.width), write_number(whole.height)],
        "patches": [
            {"fabric": patch.fabric, "points": [list(map(write_number, p)) for p in patch.points]}
            for patch in patches
        ],
    }
