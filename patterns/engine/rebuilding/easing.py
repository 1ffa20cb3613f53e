"""Units that cannot end exact: how far they miss, and the ideal that stands for them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import isqrt

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import (
    ZERO,
    Point,
    Polygon,
    clip_to_rectangle,
    dot,
    minus,
    rectangle,
    tidy,
    unsigned,
)
from patterns.engine.rebuilding.reading import Data, number, polygon
from patterns.engine.rebuilding.works import Facet, Work
from patterns.engine.surds import Number, ceiling, sign

LIMIT = Fraction(1, 16)  # inches; more is a stop
FINE = 10_000


@dataclass(frozen=True, slots=True)
class Deviation:
    """How far a unit misses its drawing, in inches, rounded up to 1/10000."""

    step: int
    ref: str
    inches: Fraction


def inches_of(square: Number) -> Fraction:
    """Give the root of a squared distance, rounded up to 1/10000 in."""
    whole = int(ceiling(square * FINE**2, Fraction(1)))
    below = isqrt(whole)
    return Fraction(below + (below * below < whole), FINE)


def ease_piece(work: Work, operation: Data, allowance: Number) -> tuple[Work, Fraction]:
    """Let a cut rectangle stand for one of another size; give how far it is off in all."""
    box = (number(operation["width"]) + 2 * allowance, number(operation["height"]) + 2 * allowance)
    off = (unsigned(work.box[0] - box[0]), unsigned(work.box[1] - box[1]))
    _refuse(worst := max(off), operation["of"])
    facets = tuple(replace(f, points=rectangle(*box)) for f in work.facets)
    if not work.solid or len(facets) != 1:
        raise SewingFault(Rule.READABLE, where=operation["of"], expected="a cut rectangle")
    return Work(facets, box, solid=True, slack=off), inches_of(worst * worst)


def ease_unit(work: Work, ideal: Data, allowance: Number, *, where: str) -> tuple[Work, Fraction]:
    """Compare a trimmed unit with its ideal patches, corner by corner; put the ideal in its place."""
    inner = ((allowance, allowance), (work.box[0] - allowance, work.box[1] - allowance))
    patches = [(row["fabric"], _shifted(polygon(row["points"]), allowance)) for row in ideal["patches"]]
    found = [(f, clip_to_rectangle(f.points, *inner)) for f in work.facets]
    found = [(f, tidy(points)) for f, points in found if points]
    worst: Number = ZERO
    facets: list[Facet] = []
    for letter, points in patches:
        facet, distance = _nearest(letter, points, found, where=where)
        worst = max(worst, distance)
        facets.append(replace(facet, points=points, inner=True))
    if len(found) != len(patches):
        raise SewingFault(Rule.PATCH, where=where, expected=str(len(patches)), found=str(len(found)))
    off = inches_of(worst)
    _refuse(off, where)
    return replace(work, facets=tuple(facets)), off


def miss(found: Polygon, ideal: Polygon, *, where: str) -> Fraction:
    """Give how far the worst corner is off; more than 1/16 in is a fault."""
    off = inches_of(_apart(found, ideal))
    _refuse(off, where)
    return off


def _refuse(off: Number, where: str) -> None:
    if sign(off - LIMIT) > 0:
        raise SewingFault(Rule.ERROR, where=where, expected=f"at most {LIMIT}", found=str(off))


def _shifted(points: Polygon, allowance: Number) -> Polygon:
    return tidy(tuple((x + allowance, y + allowance) for x, y in points))


def _nearest(
    letter: str, points: Polygon, found: list[tuple[Facet, Polygon]], *, where: str
) -> tuple[Facet, Number]:
    """Give the facet of the letter that lies nearest, and the square of its worst corner's distance."""
    distances = [(f, _apart(points, shape)) for f, shape in found if f.letter == letter]
    if not distances:
        raise SewingFault(Rule.PATCH, where=where, expected=letter, found="no such fabric")
    return min(distances, key=lambda pair: pair[1])


def _apart(a: Polygon, b: Polygon) -> Number:
    """Give the squared distance of the worst corner of either from the nearest corner of the other."""
    return max(max(min(_square(p, q) for q in b) for p in a), max(min(_square(p, q) for q in a) for p in b))


def _square(p: Point, q: Point) -> Number:
    return dot(minus(p, q), minus(p, q))
