"""Drawings by chance that straight seams divide at any angle: a rectangle cut again and again."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import TypeAlias

from patterns.engine import geometry
from patterns.engine.blocks import Block, block_from_data
from patterns.engine.parts import Point
from patterns.engine.surds import write_number

Shape: TypeAlias = tuple[Point, ...]

GRID = 12
PARTS = (2, 2, 2, 3, 4)  # an edge is cut at halves, thirds or quarters
LEAST_AREA = Fraction(1, 2)  # of GRID x GRID
STRAIGHT = Fraction(2, 5)  # share of cuts that are square to the sides


def slanted_block(chance: Random, *, most: int) -> Block:
    """Draw a block of up to `most` patches, in up to five letters."""
    side = Fraction(GRID)
    shapes: list[Shape] = [((0, 0), (side, 0), (side, side), (0, side))]
    for _ in range(4 * most):
        if len(shapes) >= most:
            break
        shape = max(chance.sample(shapes, min(3, len(shapes))), key=geometry.area)
        halves = _halves(shape, chance)
        if all(half and geometry.area(half) >= LEAST_AREA for half in halves):
            shapes.remove(shape)
            shapes += halves
    letters = "ABCDE"[: chance.randrange(1, 6)]
    return block_from_data(_data(shapes, letters, chance))


def _data(shapes: list[Shape], letters: str, chance: Random) -> dict[str, object]:
    patches = [
        {
            "fabric": chance.choice(letters),
            "points": [[write_number(Fraction(n)) for n in corner] for corner in shape],
        }
        for shape in shapes
    ]
    return {"name": "by chance", "grid": [GRID, GRID], "patches": patches}


def _halves(shape: Shape, chance: Random) -> tuple[Shape, Shape]:
    """Cut a convex shape from one edge, or corner, to another."""
    if chance.random() < STRAIGHT and _upright(shape):
        return _straight_halves(shape, chance)
    first, second = sorted(chance.sample(range(len(shape)), 2))
    start, end = _spot(shape, first, chance), _spot(shape, second, chance)
    one = geometry.tidied((start, *shape[first + 1 : second + 1], end))
    other = geometry.tidied((end, *shape[second + 1 :], *shape[: first + 1], start))
    return one, other


def _upright(shape: Shape) -> bool:
    return len(shape) == 4 and all(a[0] == b[0] or a[1] == b[1] for a, b in geometry.edges(shape))


def _straight_halves(shape: Shape, chance: Random) -> tuple[Shape, Shape]:
    left, top, right, bottom = (Fraction(n) for n in geometry.bounds(shape))
    share = Fraction(1, chance.choice(PARTS))
    if chance.random() < STRAIGHT:
        x = left + (right - left) * share
        return _box(left, top, right=x, bottom=bottom), _box(x, top, right=right, bottom=bottom)
    y = top + (bottom - top) * share
    return _box(left, top, right=right, bottom=y), _box(left, y, right=right, bottom=bottom)


def _box(left: Fraction, top: Fraction, *, right: Fraction, bottom: Fraction) -> Shape:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _spot(shape: Shape, edge: int, chance: Random) -> Point:
    """Give the start of an edge, or a point that divides it."""
    start, end = shape[edge], shape[(edge + 1) % len(shape)]
    share = Fraction(chance.choice((0, 1)), chance.choice(PARTS))
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
