"""Outlines that are alike: by a turn, or only as mirror images."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patterns.engine.geometry import cross, dot, exact, tidied
from patterns.engine.parts import Point
from patterns.engine.surds import Number
from patterns.engine.templates import clockwise, edges_of, way


def are_mirrored(first: Sequence[Point], second: Sequence[Point]) -> bool:
    """Say whether two outlines are mirror images that no turn makes alike."""
    ours, theirs = _corners(clockwise(first)), _corners(clockwise(second))
    mirrored = [(after, before, turn, along) for before, after, turn, along in reversed(ours)]
    return _is_rotation(theirs, mirrored) and not _is_rotation(theirs, ours)


def turns_between(first: Sequence[Point], second: Sequence[Point]) -> Iterator[Point]:
    """Give the turns, as unit vectors, that bring an outline into the other's directions; none if unlike."""
    ours, theirs = (clockwise(_exact_corners(outline)) for outline in (first, second))
    wanted, found = _corners(ours), _corners(theirs)
    start = way(*edges_of(ours)[0])
    square = exact(dot(start, start))
    for i in range(len(found)):
        if [*found[i:], *found[:i]] == wanted:
            end = way(*edges_of(theirs)[i])
            yield exact(dot(start, end)) / square, exact(cross(start, end)) / square


def _exact_corners(outline: Sequence[Point]) -> list[Point]:
    return [(exact(x), exact(y)) for x, y in tidied(outline)]


def _corners(outline: Sequence[Point]) -> list[tuple[Number, Number, Number, Number]]:
    """Describe every corner by its edges: both squared lengths, their cross and their dot product."""
    ways = [way(*edge) for edge in edges_of(outline)]
    pairs = [(ways[i - 1], after) for i, after in enumerate(ways)]
    return [(exact(dot(a, a)), exact(dot(b, b)), exact(cross(a, b)), exact(dot(a, b))) for a, b in pairs]


def _is_rotation(corners: Sequence[tuple[Number, ...]], others: Sequence[tuple[Number, ...]]) -> bool:
    return len(corners) == len(others) and any(
        list(corners) == [*others[i:], *others[:i]] for i in range(len(others))
    )
