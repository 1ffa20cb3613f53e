"""Appliqué on the table: shapes laid on the sewn block as the sheet says, compared with the drawing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache
from itertools import combinations

from patterns.engine.rebuilding.comparing import Finding, scaled
from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import Point, Polygon, cross, dot, minus, plus, tidy
from patterns.engine.rebuilding.reading import Data, number, point
from patterns.engine.rebuilding.shaping import (
    Edge,
    edges_of,
    fits_its_rectangle,
    seams_go_round,
    turned_outline,
)
from patterns.engine.rebuilding.works import Facet, Work, same
from patterns.engine.surds import Number, Surd, ceiling, sign

KEPT = 512  # shapes that were found right
MILLIONTH = Fraction(1, 1_000_000)
FINE = MILLIONTH / 4


def lay_shapes(ground: Work, templates: Sequence[Work], operation: Data, *, allowance: Number) -> Work:
    """Turn every cut shape, move its finished box to its place, and lay it on what lies there already.

    The cut shape must reach the turn-under beyond its finished line everywhere, and the finished line
    must lie on the finished block.
    """
    under = number(operation["turn_under"])
    if not same(under, allowance):
        raise SewingFault(Rule.SEAM, expected=str(allowance), found=str(under))
    shapes = list(ground.shapes)
    for row, work in zip(operation["shapes"], templates, strict=True):
        _check_turn_under(work, under, where=row["of"])
        outline = turned_outline(work, row["turned_by"], where=row["of"])
        at = point(row["at"])
        laid = tuple(plus(plus(p, at), (allowance, allowance)) for p in outline)
        if not all(_lies_on(p, ground.box, allowance) for p in laid):
            raise SewingFault(Rule.GROUND, where=row["of"], found=f"{at[0]}, {at[1]}")
        shapes.append(replace(work.facets[0], points=laid, inner=True))
    return replace(ground, shapes=tuple(shapes))


def compare_shapes(whole: Work, data: Data, drawing: Data, *, allowance: Number) -> tuple[int, list[Finding]]:
    """Compare the shapes on the sewn whole with the drawing: shapes that are right, findings."""
    finished = point(data["finished"])
    rows = drawing.get("applique", ())
    expected = [(row["fabric"], scaled(row["points"], drawing, finished)) for row in rows]
    left = {place: _look(shape, allowance) for place, shape in enumerate(whole.shapes)}
    places: list[int | None] = []
    for look in expected:
        place = next((n for n, found in left.items() if found == look), None)
        places.append(place)
        if place is not None:
            del left[place]
    missing = [look for look, place in zip(expected, places, strict=True) if place is None]
    findings = [_finding(Rule.PATCH, expected=_said(look), found="no such shape there") for look in missing]
    findings += [_finding(Rule.PATCH, expected="no shape", found=_said(look)) for look in left.values()]
    return len(expected) - len(missing), findings + list(_wrong_layers(expected, places))


def _wrong_layers(expected: Sequence[tuple[str, Polygon]], places: Sequence[int | None]) -> Iterator[Finding]:
    """Name pairs that lie over each other the other way round; shapes that are apart may be exchanged."""
    laid = [(look, place) for look, place in zip(expected, places, strict=True) if place is not None]
    for (lower, first), (upper, second) in combinations(laid, 2):
        if first > second and _boxes_meet(lower[1], upper[1]):
            yield _finding(Rule.LAYERS, expected=f"{_said(upper)} above", found=f"{_said(lower)} above")


def _look(shape: Facet, allowance: Number) -> tuple[str, Polygon]:
    return shape.letter, tidy(tuple(minus(p, (allowance, allowance)) for p in shape.points))


def _said(look: tuple[str, Polygon]) -> str:
    (letter, outline) = look
    left, top = (min(p[k] for p in outline) for k in (0, 1))
    return f"{letter} at ({left}, {top})"


def _finding(rule: Rule, *, expected: str, found: str) -> Finding:
    return Finding(step=0, piece="", expected=expected, found=found, rule=rule.value)


def _lies_on(spot: Point, box: Point, allowance: Number) -> bool:
    return all(sign(spot[k] - allowance) >= 0 and sign(box[k] - allowance - spot[k]) >= 0 for k in (0, 1))


@lru_cache(maxsize=KEPT)
def _check_turn_under(work: Work, under: Number, *, where: str) -> None:
    """See that the cut shape lies in its rectangle of fabric and reaches beyond the finished line.

    Either every edge has one a turn-under further out, all round; or, where edges of a narrow notch are
    left out, no point of the one line comes nearer to the other, to a millionth of an inch.
    """
    fits_its_rectangle(work, where=where)
    cut, sewn = work.facets[0].points, work.outline
    if seams_go_round(cut, sewn, under):
        return
    cut, sewn = (tuple((_near(x), _near(y)) for x, y in shape) for shape in (cut, sewn))
    least = _near(under) - MILLIONTH
    near = (
        (outer, inner)
        for outer in edges_of(cut)
        for inner in edges_of(sewn)
        if _boxes_meet(outer, inner, within=least)
    )
    if not _inside(sewn[0], cut) or not all(_is_clear(outer, inner, least) for outer, inner in near):
        raise SewingFault(Rule.TEMPLATE, where=where, expected=f"{under} all round")


def _near(number: Number) -> Fraction:
    """Write a number as a fraction near it: roots to less than half a millionth."""
    return ceiling(number, FINE) if isinstance(number, Surd) else number


def _boxes_meet(first: Sequence[Point], second: Sequence[Point], *, within: Number | int = 0) -> bool:
    """Say whether the upright boxes of two shapes come nearer to each other than that."""
    return all(
        sign(min(p[k] for p in b) - max(p[k] for p in a) - within) < 0
        for k in (0, 1)
        for a, b in ((first, second), (second, first))
    )


def _is_clear(outer: Edge, inner: Edge, under: Number) -> bool:
    """Say whether two edges do not cross, and none of their ends is nearer to the other than that."""
    ends = ((outer[0], inner), (outer[1], inner), (inner[0], outer), (inner[1], outer))
    return not _cross(outer, inner) and all(_is_far(spot, edge, under) for spot, edge in ends)


def _is_far(spot: Point, edge: Edge, under: Number) -> bool:
    along, away = minus(edge[1], edge[0]), minus(spot, edge[0])
    square, reach = dot(along, along), dot(away, along)
    if sign(reach) <= 0:
        return sign(dot(away, away) - under * under) >= 0
    if sign(reach - square) >= 0:
        beyond = minus(spot, edge[1])
        return sign(dot(beyond, beyond) - under * under) >= 0
    height = cross(along, away)
    return sign(height * height - under * under * square) >= 0


def _cross(first: Edge, second: Edge) -> bool:
    sides = [
        [sign(cross(minus(b, a), minus(p, a))) for p in other]
        for (a, b), other in ((first, second), (second, first))
    ]
    return all(side[0] * side[1] < 0 for side in sides)


def _inside(spot: Point, shape: Polygon) -> bool:
    """Count the edges to the right of a point that its level line crosses."""
    found = False
    for start, end in edges_of(shape):
        if (sign(start[1] - spot[1]) > 0) != (sign(end[1] - spot[1]) > 0):
            turn = sign(cross(minus(end, start), minus(spot, start)))
            found ^= turn == sign(end[1] - start[1])
    return found
