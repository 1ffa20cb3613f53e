"""Templates: a cut shape stands for its finished outline when the seam fits all round."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import ONE, ZERO, Motion, Point, Polygon, cross, dot, minus, plus, tidy
from patterns.engine.rebuilding.reading import Data, number, point, polygon
from patterns.engine.rebuilding.works import Facet, Work, same
from patterns.engine.surds import Number, sign

Edge: TypeAlias = tuple[Point, Point]
PLAY = Fraction(1, 1000)  # inches by which a template may be larger where no root is exact


def cut_template(row: Data) -> Work:
    """Take a piece that is cut with a template: the cut shape, and within it the finished outline."""
    facet = Facet(row["fabric"], tidy(polygon(row["polygon"])), row["id"], inner=True)
    box = (number(row["width"]), number(row["length"]))
    return Work((facet,), box, outline=tidy(polygon(row["outline"])))


def take_template(work: Work, operation: Data, allowance: Number) -> Work:
    """Check a cut template's seams all round; give the finished patch, turned into its unit's frame."""
    where = operation["of"]
    facet = work.facets[0]
    fits_its_rectangle(work, where=where)
    if not seams_go_round(facet.points, work.outline, allowance):
        raise SewingFault(Rule.TEMPLATE, where=where, expected=f"{allowance} all round")
    outline = turned_outline(work, operation["turned_by"], where=where)
    if outline != tidy(polygon(operation["outline"])):
        raise SewingFault(Rule.PATCH, where=where, expected="the patch's outline", found="another")
    raw = tuple(plus(p, (allowance, allowance)) for p in outline)
    size = (max(p[0] for p in outline), max(p[1] for p in outline))
    box = (size[0] + 2 * allowance, size[1] + 2 * allowance)
    return Work((replace(facet, points=raw, inner=True),), box, outline=raw)


def fits_its_rectangle(work: Work, *, where: str) -> None:
    """See that a cut shape lies in the rectangle of fabric it is cut from."""
    if not all(_within(p, work.box) for p in work.facets[0].points):
        raise SewingFault(
            Rule.COVER, where=where, expected=f"{work.box[0]} x {work.box[1]}", found="too small"
        )


def turned_outline(work: Work, turned_by: object, *, where: str) -> Polygon:
    """Turn the finished outline of a template by a unit vector, its box moved to the origin."""
    cos, sin = point(turned_by)
    if not same(cos * cos + sin * sin, ONE):
        raise SewingFault(Rule.MOTION, where=where, expected="1", found=str(cos * cos + sin * sin))
    turned = tuple(map(Motion(cos, sin, (ZERO, ZERO)).apply, work.outline))
    left, top = min(p[0] for p in turned), min(p[1] for p in turned)
    return tidy(tuple(minus(p, (left, top)) for p in turned))


def _within(spot: Point, box: tuple[Number, Number]) -> bool:
    return all(sign(spot[k]) >= 0 and sign(box[k] - spot[k]) >= 0 for k in (0, 1))


def seams_go_round(shape: Polygon, outline: Polygon, allowance: Number) -> bool:
    """Go round both: every edge has one parallel to it, a seam further out; tips may be blunted."""
    cut, sewn = edges_of(shape), edges_of(outline)
    firsts = (i for i, edge in enumerate(cut) if _is_seam(edge, sewn[0], allowance))
    return any(_goes_round(cut[i:] + cut[:i], sewn, allowance) for i in firsts)


def _goes_round(cut: list[Edge], sewn: list[Edge], allowance: Number) -> bool:
    place = 0
    for edge in cut:
        if place < len(sewn) and _is_seam(edge, sewn[place], allowance):
            place += 1
        elif not _blunts(edge, sewn[place - 1][1], allowance):
            return False
    return place == len(sewn)


def edges_of(shape: Polygon) -> list[Edge]:
    """Give the edges of a shape, in order."""
    return [(shape[i - 1], end) for i, end in enumerate(shape)]


def _is_seam(cut: Edge, sewn: Edge, allowance: Number) -> bool:
    """Say whether a cut edge runs along a finished one, the seam (and hardly more) outside it."""
    along, way = minus(sewn[1], sewn[0]), minus(cut[1], cut[0])
    if cross(along, way) != 0 or sign(dot(along, way)) <= 0:
        return False
    far = cross(minus(cut[0], sewn[0]), along)
    square = dot(along, along)
    most = (allowance + PLAY) * (allowance + PLAY)
    return sign(far) > 0 and sign(far * far - allowance * allowance * square) >= 0 >= sign(
        far * far - most * square
    )


def _blunts(cut: Edge, corner: Point, allowance: Number) -> bool:
    """Say whether a cut edge passes a corner at least the seam outside it."""
    along = minus(cut[1], cut[0])
    far = cross(minus(cut[0], corner), along)
    return sign(far) > 0 and sign(far * far - allowance * allowance * dot(along, along)) >= 0
