"""Slanting pieces cut from a strip: cuts at a ruler's angle, each as far from the last as the sheet says."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patterns.engine.rebuilding.easing import miss
from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import (
    HALF,
    ZERO,
    Line,
    Motion,
    Point,
    Polygon,
    inside,
    line_facing,
    middle,
    minus,
    plus,
    tidy,
)
from patterns.engine.rebuilding.reading import Data, number, point, polygon
from patterns.engine.rebuilding.setting import offset
from patterns.engine.rebuilding.works import Facet, Work, clip_facets, same
from patterns.engine.surds import Number, root, sign

ANGLES = {"45": (root(2) * HALF, root(2) * HALF), "60": (HALF, root(3) * HALF)}  # cosine, sine
RIGHT, LEFT = "right", "left"


def slice_strip(work: Work, operation: Data, allowance: Number) -> tuple[Work, Fraction]:
    """Cut a strip into slanting pieces; give one as its finished patch, and how far its corners are off."""
    piece = tidy(_first_piece(work, operation))
    return _as_patch(replace(work.facets[0], points=piece), operation, allowance, where=operation["of"])


def slanting_cuts(work: Work, operation: Data) -> list[Line]:
    """Give the cuts over a strip that lies across, the first through its lower or upper left corner."""
    if not work.solid or len(work.facets) != 1 or int(operation["pieces"]) < 1:
        raise SewingFault(Rule.READABLE, where=operation["of"], expected="a strip cut into pieces")
    cos, sin = ANGLES[operation["angle"]]
    wide = work.box[0]
    start, across = {RIGHT: ((ZERO, wide), (sin, cos)), LEFT: ((ZERO, ZERO), (sin, -cos))}[operation["lean"]]
    first, apart = line_facing(across, start), number(operation["apart"])
    return [first.moved(apart * count) for count in range(int(operation["pieces"]) + 1)]


def _first_piece(work: Work, operation: Data) -> Polygon:
    """Give the first piece; the last cut must still run from edge to edge of the strip."""
    first, second, *others = slanting_cuts(work, operation)
    strip = work.turned(1)
    long, wide = strip.box
    last = others[-1] if others else second
    end = max((last.level - last.normal[1] * y) / last.normal[0] for y in (ZERO, wide))
    if sign(end - long) > 0:
        raise SewingFault(Rule.COVER, where=operation["of"], expected=str(end), found=str(long))
    return clip_facets(clip_facets(strip.facets, first.reversed()), second)[0].points


def _as_patch(facet: Facet, operation: Data, allowance: Number, *, where: str) -> tuple[Work, Fraction]:
    """Lay the piece over its patch, middle on middle: the seam must fit all round, and hardly more."""
    outline = tidy(polygon(operation["outline"]))
    needed = offset(outline, allowance)
    laid = _laid(facet.points, point(operation["turned_by"]), middle(needed), where=where)
    if not all(inside(laid, corner) for corner in needed):
        raise SewingFault(Rule.COVER, where=where, expected="the patch with its seams", found="too small")
    off = miss(offset(laid, -allowance), outline, where=where)
    raw = tuple(plus(p, (allowance, allowance)) for p in outline)
    size = tuple(max(p[k] for p in outline) + 2 * allowance for k in (0, 1))
    return Work((replace(facet, points=raw, inner=True),), (size[0], size[1]), outline=raw), off


def _laid(shape: Polygon, turned_by: Point, spot: Point, *, where: str) -> Polygon:
    cos, sin = turned_by
    if not same(cos * cos + sin * sin, Fraction(1)):
        raise SewingFault(Rule.MOTION, where=where, expected="1", found=str(cos * cos + sin * sin))
    turn = Motion(cos, sin, (ZERO, ZERO))
    shift = minus(spot, turn.apply(middle(shape)))
    return tidy(tuple(plus(turn.apply(p), shift) for p in shape))
