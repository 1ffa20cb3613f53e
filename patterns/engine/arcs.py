"""Quarter circles: an edge of a patch may be one, drawn and sewn through exact points of the circle.

The points lie where sine and cosine are both fractions, alike from either end, so that two patches that
share an arc share its points.  Between them the edge is straight: it lies inside the circle by less than
1/200 of the radius.  Everything that holds for polygons then holds for curved patches too.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from patterns.engine.errors import DrawingError
from patterns.engine.geometry import Corner, dot, exact, middle, minus
from patterns.engine.parts import Point

# right triangles of whole sides: angles of 9, 14, 23, 31 and 39 degrees, all parts of 1105
_TRIPLES = ((84, 13, 85), (63, 16, 65), (12, 5, 13), (56, 33, 65), (171, 140, 221))
TURNS = (
    *((Fraction(c, r), Fraction(s, r)) for c, s, r in _TRIPLES),
    *((Fraction(s, r), Fraction(c, r)) for c, s, r in reversed(_TRIPLES)),
)
POINTS = len(TURNS) + 2  # of a quarter circle, both ends counted


class BadArc(DrawingError):
    """An arc is no quarter circle: both corners beside it must lie equally far from its centre, squarely."""

    kind = "bad-arc"
    remedy = "draw-a-quarter-circle"


def arc_between(start: Point, end: Point, *, centre: Point, where: str | Point) -> tuple[Point, ...]:
    """Give the points of the quarter circle from one corner to another, without both; else BadArc."""
    first, last = minus(start, centre), minus(end, centre)
    if dot(first, last) or dot(first, first) != dot(last, last) or start == end:
        raise BadArc(where=where)
    return tuple((exact(x), exact(y)) for x, y in quarter(start, end, centre=centre))


def quarter(start: Corner, end: Corner, *, centre: Corner) -> tuple[Corner, ...]:
    """Give the points of a known quarter circle, without its ends."""
    first, last = minus(start, centre), minus(end, centre)
    return tuple(
        (
            centre[0] + first[0] * cosine + last[0] * sine,
            centre[1] + first[1] * cosine + last[1] * sine,
        )
        for cosine, sine in TURNS
    )


def holds_arc(path: Sequence[Point]) -> bool:
    """Say whether a quarter circle is part of a path."""
    return any(centre_of(path[i : i + POINTS]) for i in range(len(path) - POINTS + 1))


def arcs_in(outline: Sequence[Point]) -> dict[int, Point]:
    """Give the quarter circles of an outline: the number of the corner where each begins, and its centre."""
    if len(outline) < POINTS:
        return {}
    round_twice = (*outline, *outline)
    found = ((i, centre_of(round_twice[i : i + POINTS])) for i in range(len(outline)))
    return {i: centre for i, centre in found if centre}


def is_arc(path: Sequence[Point]) -> bool:
    """Say whether a path is one quarter circle, or several one after the other round the same centre."""
    whole = range(0, len(path) - 1, POINTS - 1)
    centres = {centre_of(path[i : i + POINTS]) for i in whole}
    return bool(whole) and len(centres) == 1 and None not in centres


def centre_of(path: Sequence[Point]) -> Point | None:
    """Give the centre of a path that is a quarter circle as `quarter` draws it, else None."""
    if len(path) != POINTS:
        return None
    start, *between, end = path
    return next(
        (c for c in _corners_over(start, end) if quarter(start, end, centre=c) == tuple(between)), None
    )


def _corners_over(start: Point, end: Point) -> Iterator[Point]:
    """Give both points that see two others squarely, from equally far."""
    (x, y), half = middle(start, end), middle((Fraction(0), Fraction(0)), minus(end, start))
    yield x - half[1], y + half[0]
    yield x + half[1], y - half[0]
