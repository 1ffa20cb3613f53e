"""Setting on point: triangles cut from squares, and parts laid beside each other that are no rectangles."""

from __future__ import annotations

from dataclasses import replace

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import (
    HALF,
    Line,
    Motion,
    Point,
    Polygon,
    cross,
    dot,
    inside,
    line_facing,
    meeting,
    minus,
    plus,
    tidy,
    turn_onto,
    unsigned,
)
from patterns.engine.rebuilding.reading import Data, number, point, polygon
from patterns.engine.rebuilding.trimming import inner_facets
from patterns.engine.rebuilding.works import Facet, Work
from patterns.engine.surds import Number


def shape(work: Work, operation: Data, allowance: Number) -> Work:
    """Take a cut triangle for a finished one: its square corner, or its long side, lies true.

    What it is too large by falls on the other side and is trimmed with the quilt's edge.
    """
    outline = tidy(polygon(operation["outline"]))
    box = (number(operation["width"]) + 2 * allowance, number(operation["height"]) + 2 * allowance)
    needed = offset(outline, allowance)
    raw = tidy(work.facets[0].points)
    if len(work.facets) != 1 or len(raw) != len(outline):
        raise SewingFault(Rule.READABLE, where=operation["of"], expected="a cut triangle")
    corner, target = _right_angle(raw), _right_angle(needed)
    turn = turn_onto(_long_normal(raw, corner), _long_normal(needed, target))
    spots = (raw[corner], needed[target])
    if operation["align"] == "long side":
        spots = (_long_middle(raw, corner), _long_middle(needed, target))
    motion = replace(turn, shift=minus(spots[1], turn.apply(spots[0])))
    laid = tuple(map(motion.apply, raw))
    if not all(inside(laid, p) for p in needed):
        raise SewingFault(
            Rule.COVER, where=operation["of"], expected="the triangle with its seams", found="too small"
        )
    points = tuple((x + allowance, y + allowance) for x, y in outline)
    return Work((replace(work.facets[0], points=points, inner=True),), box, outline=points)


def offset(outline: Polygon, distance: Number) -> Polygon:
    """Move every side of a clockwise outline outward, or inward by less than nothing; the corners follow."""
    sides = [_outer(outline, i).moved(distance) for i in range(len(outline))]
    corners = [meeting(sides[i], sides[(i + 1) % len(sides)]) for i in range(len(sides))]
    return tuple(corner for corner in corners if corner is not None)


def _outer(outline: Polygon, i: int) -> Line:
    edge = minus(outline[i], outline[i - 1])
    return line_facing((edge[1], -edge[0]), outline[i])


def _right_angle(triangle: Polygon) -> int:
    """Give the corner where two sides meet square."""
    for i, p in enumerate(triangle):
        if dot(minus(triangle[i - 1], p), minus(triangle[(i + 1) % len(triangle)], p)) == 0:
            return i
    raise SewingFault(Rule.READABLE, expected="a triangle with a square corner")


def _long_normal(triangle: Polygon, corner: int) -> Point:
    """Give the outward direction of the long side, of a plain length."""
    middle = _long_middle(triangle, corner)
    across, edge = minus(middle, triangle[corner]), minus(triangle[corner - 1], triangle[(corner + 1) % 3])
    scale = max(unsigned(across[0]), unsigned(across[1]))
    if cross(across, edge) == 0:
        raise SewingFault(Rule.READABLE, expected="a triangle")
    return (across[0] / scale, across[1] / scale)


def _long_middle(triangle: Polygon, corner: int) -> Point:
    first, second = triangle[corner - 1], triangle[(corner + 1) % 3]
    return plus(first, minus(second, first), HALF)


def lay_parts(parts: list[tuple[Work, Point]], operation: Data, allowance: Number) -> Work:
    """Join parts where they lie, finished edge to finished edge; whether they fit, the drawing tells."""
    seam = number(operation["seam"])
    if seam != allowance:
        raise SewingFault(Rule.SEAM, expected=str(allowance), found=str(seam))
    box = (number(operation["width"]) + 2 * allowance, number(operation["height"]) + 2 * allowance)
    facets: list[Facet] = []
    shapes: list[Facet] = []
    for work, at in parts:
        inner = finished_facets(work, allowance)
        facets += [replace(f, points=tuple(plus(p, at) for p in f.points), inner=True) for f in inner]
        shapes += [replace(f, points=tuple(plus(p, at) for p in f.points)) for f in work.shapes]
    return Work(tuple(facets), box, shapes=tuple(shapes))


def finished_facets(work: Work, allowance: Number) -> tuple[Facet, ...]:
    """Give a part up to its seam line, still in the frame of its raw edge."""
    if not work.solid:
        return work.facets
    return inner_facets(
        work.facets, ((allowance, allowance), (work.box[0] - allowance, work.box[1] - allowance))
    )


def turned_whole(work: Work, place: Data, finished: Point, *, allowance: Number) -> Work:
    """Turn the whole further, about its finished top left corner, and move that corner to its place."""
    box = (finished[0] + 2 * allowance, finished[1] + 2 * allowance)
    return work.moved(whole_turn(place, allowance=allowance), box)


def whole_turn(place: Data, *, allowance: Number) -> Motion:
    """Give the motion that hangs a whole that is set on point."""
    cos, sin = point(place["turned_by"])
    at = point(place["at"])
    corner = (allowance, allowance)
    turn = Motion(cos, sin, (allowance * 0, allowance * 0))
    return replace(turn, shift=minus(plus(at, corner), turn.apply(corner)))
