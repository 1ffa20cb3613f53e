"""Random drawings that straight seams can divide: rectangles cut in two, squares filled with a unit."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import TypeAlias

from patterns.engine.blocks import Block, block_from_data
from tests.engine.drawings import drawing, patch

Corners: TypeAlias = list[tuple[Fraction, Fraction]]


def random_block(number: int) -> Block:
    """Draw a block of up to six by six squares, in three letters."""
    rng = Random(number)
    size = Fraction(rng.randrange(2, 7))
    shapes = _divided((Fraction(0), Fraction(0), size, size), rng, depth=rng.randrange(1, 7))
    patches = [patch(rng.choice("ABC"), *((str(x), str(y)) for x, y in shape)) for shape in shapes]
    return block_from_data(drawing((int(size), int(size)), *patches))


def _divided(box: tuple[Fraction, ...], rng: Random, *, depth: int) -> list[Corners]:
    left, top, right, bottom = box
    whole = [axis for axis, length in enumerate((right - left, bottom - top)) if length >= 2]
    if not depth or not whole or rng.random() < 0.15:
        return _unit(box, rng)
    if rng.choice(whole) == 0:
        at = left + rng.randrange(1, int(right - left))
        halves = ((left, top, at, bottom), (at, top, right, bottom))
    else:
        at = top + rng.randrange(1, int(bottom - top))
        halves = ((left, top, right, at), (left, at, right, bottom))
    return [shape for half in halves for shape in _divided(half, rng, depth=depth - 1)]


def _unit(box: tuple[Fraction, ...], rng: Random) -> list[Corners]:
    left, top, right, bottom = box
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    if right - left != bottom - top:
        return [corners]
    centre = ((left + right) / 2, (top + bottom) / 2)
    pairs = list(zip(corners, corners[1:] + corners[:1], strict=True))
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairs]
    choices = (
        [corners],
        [corners[:3], [corners[0], corners[2], corners[3]]],
        [corners[1:], [corners[0], corners[1], corners[3]]],
        [[a, b, centre] for a, b in pairs],
        [middles, *([corners[i], middles[i], middles[i - 1]] for i in range(4))],
    )
    return rng.choice(choices)
