"""Random drawings that rows do not divide: slanted seams, interlocked rectangles, any outline."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import TypeAlias

from patterns.engine.blocks import Block
from patterns.engine.geometry import tidied
from patterns.engine.partition import check_partition
from patterns.engine.parts import Patch

Corners: TypeAlias = tuple[tuple[Fraction, Fraction], ...]
Cell: TypeAlias = tuple[int, int]


def slanted(number: int, count: int) -> Block:
    """Divide a square by straight seams at any angle, mostly the largest piece, into `count` patches."""
    rng = Random(number)
    side = Fraction(12)
    zero = Fraction(0)
    pieces: list[Corners] = [((zero, zero), (side, zero), (side, side), (zero, side))]
    while len(pieces) < count:
        pieces.sort(key=_twice_area)
        pieces += _halved(pieces.pop(-1 if rng.random() < 0.7 else rng.randrange(len(pieces))), rng)
    return _drawn(12, pieces, rng)


def interlocked(number: int, *, side: int = 6) -> Block:
    """Tile a square with rectangles of whole sides, as they happen to fit."""
    rng = Random(number)
    free = {(x, y) for x in range(side) for y in range(side)}
    pieces: list[Corners] = []
    while free:
        x, y = min(free, key=lambda cell: (cell[1], cell[0]))
        widths = [w for w in range(1, 5) if all((x + i, y) in free for i in range(w))]
        width = rng.choice(widths)
        heights = [h for h in range(1, 5) if _fits(free, (x, y), width=width, height=h)]
        height = rng.choice(heights)
        free -= {(x + i, y + j) for i in range(width) for j in range(height)}
        left, top, right, bottom = Fraction(x), Fraction(y), Fraction(x + width), Fraction(y + height)
        pieces.append(((left, top), (right, top), (right, bottom), (left, bottom)))
    return _drawn(side, pieces, rng)


def merged(number: int, *, side: int = 4) -> Block:
    """Halve the squares of a grid, and join neighbours at random to patches with inward corners, too."""
    rng = Random(number)
    triangles: list[Corners] = []
    for x in range(side):
        for y in range(side):
            square = [(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)]
            first = rng.randrange(2)
            turned = square[first:] + square[:first]
            for three in ((0, 1, 2), (0, 2, 3)):
                triangles.append(tuple((Fraction(turned[i][0]), Fraction(turned[i][1])) for i in three))
    pieces = triangles
    for _ in range(rng.randrange(4 * side * side)):
        if len(pieces) == 2:
            break
        one, other = rng.sample(range(len(pieces)), 2)
        joined = _joined(pieces[one], pieces[other])
        if joined is not None:
            pieces = [piece for i, piece in enumerate(pieces) if i not in {one, other}] + [joined]
    return _drawn(side, pieces, rng)


def _joined(one: Corners, other: Corners) -> Corners | None:
    """Join two pieces along their common edges where these are one run; None where they are not."""
    edges = [*_edges(one), *_edges(other)]
    left = {a: b for a, b in edges if (b, a) not in edges}
    if len(left) == len(edges) or len(left) != sum((b, a) not in edges for a, b in edges):
        return None
    first = min(left)
    corners = [first]
    while left[corners[-1]] != first:
        corners.append(left[corners[-1]])
    return tuple(corners) if len(corners) == len(left) else None


def _edges(piece: Corners) -> list[tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]]:
    return list(zip(piece, (*piece[1:], piece[0]), strict=True))


def _fits(free: set[Cell], at: Cell, *, width: int, height: int) -> bool:
    return all((at[0] + i, at[1] + j) in free for i in range(width) for j in range(height))


def _halved(piece: Corners, rng: Random) -> list[Corners]:
    """Cut a convex piece from one edge to another, at a corner or between."""
    count = len(piece)
    first = rng.randrange(count)
    second = (first + rng.randrange(1, count)) % count
    first, second = sorted((first, second))
    a, b = _on_edge(piece, first, rng), _on_edge(piece, second, rng)
    one = (a, *piece[first + 1 : second + 1], b)
    other = (b, *piece[second + 1 :], *piece[: first + 1], a)
    return [_tidy(one), _tidy(other)]


def _on_edge(piece: Corners, number: int, rng: Random) -> tuple[Fraction, Fraction]:
    share = Fraction(rng.randrange(1, 8), 8)
    (x, y), (u, v) = piece[number], piece[(number + 1) % len(piece)]
    return x + (u - x) * share, y + (v - y) * share


def _tidy(piece: Corners) -> Corners:
    return tuple(dict.fromkeys(piece))


def _twice_area(piece: Corners) -> Fraction:
    return sum((a[0] * b[1] - a[1] * b[0] for a, b in _edges(piece)), start=Fraction(0))


def _drawn(side: int, pieces: list[Corners], rng: Random) -> Block:
    patches = tuple(Patch(rng.choice("ABC"), tidied(piece)) for piece in pieces)
    check_partition(Fraction(side), Fraction(side), patches)
    return Block(name="Trial", width=Fraction(side), height=Fraction(side), patches=patches)
