"""Trimming a work to its unfinished size, aligned on its seams and never on coordinates."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.folding import overlaps
from patterns.engine.rebuilding.plane import (
    HALF,
    ZERO,
    Line,
    Motion,
    Point,
    Polygon,
    area,
    clip,
    clip_to_rectangle,
    dot,
    hull,
    line_facing,
    meeting,
    minus,
    plus,
    rectangle,
    turn_onto,
)
from patterns.engine.rebuilding.reading import Data, number, point
from patterns.engine.rebuilding.works import Facet, Seam, Work, clip_facets, same, total_area
from patterns.engine.surds import Number, sign


def trim(work: Work, how: Data, allowance: Number, *, where: str) -> Work:
    """Trim to finished `width` x `height` plus the allowance all round, which the fabric must cover."""
    seam = number(how["allowance"])
    if not same(seam, allowance):
        raise SewingFault(Rule.SEAM, where=where, expected=str(allowance), found=str(seam))
    box = (number(how["width"]) + 2 * seam, number(how["height"]) + 2 * seam)
    align = how["align"]
    if align["how"] == "exact":
        return _measured(work, box, where)
    turned = work.moved(_turn(work, align), work.box)
    if align["how"] == "slide":
        return _slid(turned, align, box=box, seam=seam, where=where)
    spot = _feature(turned, align)
    shift = minus(plus(point(align["at"]), (seam, seam)), spot)
    return _covered(turned.moved(Motion(Fraction(1), ZERO, shift), box), box, where)


def _measured(work: Work, box: tuple[Number, Number], where: str) -> Work:
    """Take a work that should already measure its size: nothing may be missing or stick out."""
    if not (same(work.box[0], box[0]) and same(work.box[1], box[1])):
        raise SewingFault(
            Rule.EXACT, where=where, expected=f"{box[0]} x {box[1]}", found=f"{work.box[0]} x {work.box[1]}"
        )
    whole = total_area(work.facets)
    trimmed = _covered(work, box, where)
    if not same(whole, total_area(trimmed.facets)):
        raise SewingFault(
            Rule.EXACT, where=where, expected=f"{box[0]} x {box[1]}", found="fabric beyond the edge"
        )
    return trimmed


def _turn(work: Work, align: Data) -> Motion:
    """Give the turn that lays the named seam, or the middle of two, in its direction."""
    if "toward" in align:
        first, second = (_seam(work, name) for name in align["seams"])
        inward = minus((ZERO, ZERO), plus(first.line.normal, second.line.normal))
        return turn_onto(inward, point(align["toward"]))
    return turn_onto(_seam(work, align["seam"]).along, point(align["along"]))


def _seam(work: Work, name: str) -> Seam:
    if name not in work.seams:
        raise SewingFault(Rule.READABLE, where=name, expected="a seam of the unit")
    return work.seams[name]


def _feature(work: Work, align: Data) -> Point:
    """Give the point the trim is aligned on: where two seams meet, or the middle of four."""
    lines = [_seam(work, name).line for name in align["seams"]]
    if align["how"] == "middle":
        lines = [_between(lines[0], lines[2]), _between(lines[1], lines[3])]
    met = meeting(lines[0], lines[1])
    if met is None:
        raise SewingFault(Rule.READABLE, where=" and ".join(align["seams"]), expected="seams that meet")
    return met


def _between(a: Line, b: Line) -> Line:
    """Give the line midway between two parallel lines that face each other."""
    scale = dot(a.normal, b.normal) / dot(b.normal, b.normal)
    return Line(a.normal, (a.level + scale * b.level) * HALF)


def _covered(work: Work, box: tuple[Number, Number], where: str) -> Work:
    """Clip to the box; the facets must fill it exactly, none over another."""
    clipped = tuple(
        replace(f, points=points)
        for f in work.facets
        if (points := clip_to_rectangle(f.points, (ZERO, ZERO), box))
    )
    missing = sign(box[0] * box[1] - total_area(clipped))
    if missing > 0:
        raise _too_small(box, where)
    if missing < 0 or overlaps(clipped):
        raise SewingFault(Rule.OVERLAP, where=where)
    return Work(clipped, box, solid=True, seams=work.seams)


def _slid(work: Work, align: Data, *, box: tuple[Number, Number], seam: Number, where: str) -> Work:
    """Lay the seam on its line and try both ends of the free play along it; both must give one unit."""
    start = plus(point(align["at"]), (seam, seam))
    line = _seam(work, align["seam"]).line
    target = line_facing(line.normal, start)
    gap = (target.level - line.level) / dot(line.normal, line.normal)
    laid = work.moved(Motion(Fraction(1), ZERO, (line.normal[0] * gap, line.normal[1] * gap)), box)
    low, high = _free_play(laid.facets, box, target, where=where)
    along = _along(target)
    units = [
        _covered(laid.moved(Motion(Fraction(1), ZERO, (along[0] * t, along[1] * t)), box), box, where)
        for t in {low, high}
    ]
    if any(_inner(unit, seam) != _inner(units[0], seam) for unit in units):
        raise SewingFault(Rule.FREE_PLAY, where=where)
    return units[0]


def _inner(work: Work, seam: Number) -> frozenset[tuple[str, Polygon]]:
    """Give what lies within the seam line."""
    return inner_looks(work.facets, work.box, seam)


def inner_looks(
    facets: tuple[Facet, ...], box: tuple[Number, Number], seam: Number
) -> frozenset[tuple[str, Polygon]]:
    """Give letters and tidy shapes of what lies inside the finished rectangle."""
    return Work(inner_facets(facets, ((seam, seam), (box[0] - seam, box[1] - seam))), box).looks()


def inner_facets(facets: tuple[Facet, ...], corners: tuple[Point, Point]) -> tuple[Facet, ...]:
    """Clip facets to an upright rectangle, the finished edges of their part."""
    clipped = ((f, f.points if f.inner else clip_to_rectangle(f.points, *corners)) for f in facets)
    return tuple(replace(f, points=points) for f, points in clipped if points)


def _free_play(
    facets: tuple[Facet, ...], box: tuple[Number, Number], seam: Line, *, where: str
) -> tuple[Number, Number]:
    """Give how far the work may slide along its seam and still cover the box, on either side of it."""
    lows: list[Number] = []
    highs: list[Number] = []
    for side in (seam, seam.reversed()):
        near, part = clip_facets(facets, side), clip(rectangle(*box), side)
        outline = hull([p for f in near for p in f.points])
        if not near or not same(area(outline), total_area(near)):
            raise SewingFault(Rule.FREE_PLAY, where=where, expected="a straight outline on either side")
        for room, speed in _rooms(outline, part, _along(seam)):
            if sign(speed) == 0 and sign(room) < 0:
                raise _too_small(box, where)
            if sign(speed):
                (highs if sign(speed) < 0 else lows).append(-room / speed)
    if sign(min(highs) - max(lows)) < 0:
        raise _too_small(box, where)
    return max(lows), min(highs)


def _along(line: Line) -> Point:
    return (line.normal[1], -line.normal[0])


def _rooms(outline: Polygon, part: Polygon, along: Point) -> list[tuple[Number, Number]]:
    """Give, edge by edge of a convex outline, how far a part lies inside it and its speed outward."""
    rooms = []
    for i, end in enumerate(outline):
        edge = minus(end, outline[i - 1])
        normal = (edge[1], -edge[0])
        reach = max(dot(normal, corner) for corner in part)
        rooms.append((dot(normal, end) - reach, dot(normal, along)))
    return rooms


def _too_small(box: tuple[Number, Number], where: str) -> SewingFault:
    return SewingFault(Rule.COVER, where=where, expected=f"{box[0]} x {box[1]}", found="too small to trim")
