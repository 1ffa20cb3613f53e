"""Lines and arrows over the pictures of steps."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction
from typing import Any

from patterns.engine.parts import Point
from patterns.engine.rebuilding.cuts import LINES
from patterns.engine.rebuilding.joining import Edge
from patterns.engine.rebuilding.plane import HALF, Line, dot, inside, length, minus, plus
from patterns.engine.rebuilding.reading import point
from patterns.engine.rebuilding.works import Facet, Work
from patterns.engine.steps import Mark, MarkKind
from patterns.engine.surds import Number, sign

ARROW = Fraction(3, 8)  # inches on either side of the seam


def apart(points: tuple[Point, ...], shift: Point) -> tuple[Point, ...]:
    """Move points."""
    return tuple(plus(p, shift) for p in points) if any(shift) else points


def apart_lines(work: Work, along: str) -> list[Mark]:
    """Mark where a piece is cut apart: on its diagonals, or to a point."""
    return [Mark(MarkKind.CUT, work.place(a), work.place(b)) for a, b in LINES[along]]


def across(work: Work, *, every: Number, pieces: int) -> list[Mark]:
    """Mark the cuts across a strip set."""
    rows = [every * (k + 1) for k in range(pieces)]
    return [Mark(MarkKind.CUT, (Fraction(0), y), (work.box[0], y)) for y in rows]


def in_layers(line: Line, facets: Iterable[Facet], kind: MarkKind) -> list[Mark]:
    """Mark a line as far as it runs over some layers."""
    along = (line.normal[1], -line.normal[0])
    spots = [spot for facet in facets for spot in crossings(line, facet)]
    if not spots:
        return []
    ends = sorted(spots, key=lambda spot: dot(along, spot))
    return [Mark(kind, ends[0], ends[-1])]


def crossings(line: Line, facet: Facet) -> list[Point]:
    """Give where a line meets the outline of a facet."""
    spots: list[Point] = []
    for i, p in enumerate(facet.points):
        before = facet.points[i - 1]
        start, end = line.height(before), line.height(p)
        if sign(start) * sign(end) < 0:
            spots.append(plus(before, minus(p, before), start / (start - end)))
        elif sign(end) == 0:
            spots.append(p)
    return spots


def bordered(edge: Edge, distance: Number) -> Point:
    """Give the shift that takes what lies past an edge further away from it."""
    scale = distance / length(edge.line.normal)
    return (edge.line.normal[0] * scale, edge.line.normal[1] * scale)


def joint(edge: Edge, allowance: Number) -> list[Mark]:
    """Mark the seam along an edge of the first layer."""
    square = dot(edge.along, edge.along)
    seam = edge.line.moved(-allowance)
    foot = (seam.normal[0] * seam.level / square, seam.normal[1] * seam.level / square)
    return [
        Mark(
            MarkKind.SEAM,
            plus(foot, edge.along, edge.start / square),
            plus(foot, edge.along, edge.end / square),
        )
    ]


def press_arrows(work: Work, *, away: bool, darker: Callable[[tuple[str, ...]], str]) -> list[Mark]:
    """Mark which way each seam of a unit is pressed: to the darker fabric, or away from the first layer."""
    marks = []
    for seam in work.seams.values():
        mark = _arrow(work, seam.line, away=away, darker=darker)
        if mark is not None:
            marks.append(mark)
    return marks


def pressed_seams(seams: Iterable[Mapping[str, Any]], work: Work, *, allowance: Number) -> list[Mark]:
    """Mark how seams are pressed, as the data of a step have it: an arrow each, two where one is open."""
    marks: list[Mark] = []
    reach = arrow_reach(work)
    for seam in seams:
        x, y = point(seam["at"])
        spot = (x + allowance, y + allowance)
        toward = point(seam["toward"])
        step = reach / length(toward)
        near, far = plus(spot, toward, -step), plus(spot, toward, step)
        ends = ((spot, near), (spot, far)) if "open" in seam else ((near, far),)
        marks += [Mark(MarkKind.PRESS, start, end) for start, end in ends]
    return marks


def arrow_reach(work: Work) -> Number:
    """Give how far an arrow reaches on either side of its seam: not over the whole of the smallest patch."""
    sides = [_extent(facet, axis) for facet in work.facets for axis in (0, 1)]
    return min(ARROW, min(sides) / 3)


def _extent(facet: Facet, axis: int) -> Number:
    places = [p[axis] for p in facet.points]
    return max(places) - min(places)


def _arrow(work: Work, line: Line, *, away: bool, darker: Callable[[tuple[str, ...]], str]) -> Mark | None:
    """Set an arrow across the middle of the longest stretch of a seam."""
    run = _longest_run(work, line)
    if run is None:
        return None
    middle = plus(run[0], minus(run[1], run[0]), HALF)
    step = arrow_reach(work) / length(line.normal)
    near, far = plus(middle, line.normal, -step), plus(middle, line.normal, step)
    letters = _letter_at(work, near), _letter_at(work, far)
    if "" in letters:
        return None
    back = not away and letters[0] != letters[1] and darker(letters) == letters[0]
    return Mark(MarkKind.PRESS, far, near) if back else Mark(MarkKind.PRESS, near, far)


def _longest_run(work: Work, line: Line) -> tuple[Point, Point] | None:
    edges = [(f.points[i - 1], p) for f in work.facets for i, p in enumerate(f.points)]
    on_line = [e for e in edges if sign(line.height(e[0])) == 0 and sign(line.height(e[1])) == 0]
    return max(on_line, key=lambda e: dot(minus(e[1], e[0]), minus(e[1], e[0])), default=None)


def _letter_at(work: Work, spot: Point) -> str:
    return next((f.letter for f in work.facets if inside(f.points, spot)), "")
