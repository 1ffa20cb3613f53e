"""Fitting: parts of any outline, moved rigidly and sewn seam after seam.

Every seam is proven by its edges: the outlines are cut into elementary edges at all corners, each going
clockwise round its part, so that where two parts meet the same edge occurs once in either direction.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise
from typing import TypeAlias

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.net import Edge, Net
from patterns.engine.rebuilding.plane import (
    HALF,
    ZERO,
    Line,
    Motion,
    Point,
    Polygon,
    cross,
    dot,
    meeting,
    minus,
    plus,
    rectangle,
    tidy,
)
from patterns.engine.rebuilding.reading import Data, number, polygon
from patterns.engine.rebuilding.setting import finished_facets
from patterns.engine.rebuilding.works import Facet, Work, same
from patterns.engine.surds import Number, sign

Pair: TypeAlias = frozenset[int]
SHORTEST = Fraction(1, 2)  # inches of a partial seam that are sewn at first, at least
PARTIAL_POINTS = 3


@dataclass(frozen=True, slots=True)
class Laid:
    """A part where it lies: its finished outline and facets, in finished inches of the whole's frame."""

    ref: str
    outline: Polygon
    facets: tuple[Facet, ...]
    shapes: tuple[Facet, ...] = ()


@dataclass(slots=True)
class _Seams:
    """What is sewn so far: its rim, and what partial seams leave open."""

    net: Net
    rim: set[Edge]
    joined: int = 1
    open: dict[int, set[Pair]] = field(default_factory=dict)
    ahead: dict[int, tuple[Point, Point]] = field(default_factory=dict)  # stop and end of an open seam


def fit(parts: list[tuple[Work, Point, Point]], operation: Data, allowance: Number) -> Work:
    """Lay the parts, sew their seams in order, and hold the result against the outline it should have."""
    seam = number(operation["seam"])
    if not same(seam, allowance):
        raise SewingFault(Rule.SEAM, where=operation["gives"], expected=str(allowance), found=str(seam))
    refs = [row[0] for row in operation["parts"]]
    laid = [lay_fitted(ref, part, allowance=allowance) for ref, part in zip(refs, parts, strict=True)]
    outline = tidy(polygon(operation["outline"]))
    _sew_all(laid, operation["seams"], outline, where=operation["gives"])
    return made_of(laid, outline, allowance=allowance, slack=_slack(parts))


def lay_fitted(ref: str, part: tuple[Work, Point, Point], *, allowance: Number) -> Laid:
    """Move a part's finished outline and facets to their place."""
    work, at, turned_by = part
    cos, sin = turned_by
    if not same(cos * cos + sin * sin, Fraction(1)):
        raise SewingFault(Rule.MOTION, where=ref, expected="1", found=str(cos * cos + sin * sin))
    turn = Motion(cos, sin, (allowance * 0, allowance * 0))
    motion = replace(turn, shift=minus(at, turn.apply((allowance, allowance))))
    facets = finished_facets(work, allowance)
    return Laid(
        ref,
        tuple(map(motion.apply, finished_outline(work, ref, allowance=allowance))),
        *(
            tuple(replace(f, points=tuple(map(motion.apply, f.points))) for f in lying)
            for lying in (facets, work.shapes)
        ),
    )


def finished_outline(work: Work, ref: str, *, allowance: Number) -> Polygon:
    """Give a part's finished corners, clockwise, in the frame of its raw edge."""
    if work.outline:
        return work.outline
    if not work.solid:
        raise SewingFault(Rule.EDGES, where=ref, expected="a trimmed part")
    size = (work.box[0] - 2 * allowance, work.box[1] - 2 * allowance)
    return tuple(plus(p, (allowance, allowance)) for p in rectangle(*size))


def _sew_all(laid: list[Laid], seams: Sequence[Data], outline: Polygon, *, where: str) -> None:
    paths = [polygon(row["path"]) for row in seams]
    net = Net([*(part.outline for part in laid), outline, *paths])
    sewn = _Seams(net, set(net.round(laid[0].outline)))
    for row, path in zip(seams, paths, strict=True):
        _check_kind(row, path, laid)
        if row["kind"] == "closing":
            _close(sewn, int(row["part"]), path, laid=laid)
        else:
            _add(sewn, row, path, laid=laid)
    if sewn.joined != len(laid):
        raise SewingFault(Rule.COUNT, where=where, expected=str(len(laid)), found=str(sewn.joined))
    if sewn.open:
        raise SewingFault(Rule.OPEN_END, where=laid[next(iter(sewn.open))].ref, found="an open seam")
    if sewn.rim != set(net.round(outline)):
        raise SewingFault(Rule.OUTLINE, where=where)


def _check_kind(row: Data, path: Polygon, laid: list[Laid]) -> None:
    """Make sure that a seam is straight, bends, stops or closes as it says."""
    bends = [cross(minus(b, a), minus(c, b)) for a, b, c in zip(path, path[1:], path[2:], strict=False)]
    kind = row["kind"]
    fits = {
        "straight": len(path) == 2,  # noqa: PLR2004 -- both ends of one straight seam
        "closing": len(path) == 2,  # noqa: PLR2004 -- both ends of one straight seam
        "set in": bool(bends) and all(bends),
        "curved": len({sign(bend) for bend in bends} - {0}) == 1 and _is_arc(path),
        "partial": len(path) == PARTIAL_POINTS and not any(bends) and _stops_well(path),
    }
    if not fits.get(kind, False):
        raise SewingFault(Rule.KIND, where=laid[int(row["part"])].ref, expected=str(kind), found=_words(path))


def _is_arc(path: Polygon) -> bool:
    """Say whether all points of a path lie on one circle: each is as far from the centre as the first."""
    first, last = path[0], path[-1]
    halfway = path[len(path) // 2]
    centre = meeting(_between(first, halfway), _between(halfway, last))
    if centre is None:
        return False
    reaches = [dot(minus(p, centre), minus(p, centre)) for p in path]
    return all(reach == reaches[0] for reach in reaches)


def _between(first: Point, second: Point) -> Line:
    """Give the line of all points that lie as far from one point as from another."""
    normal = minus(second, first)
    return Line(normal, dot(normal, plus(first, normal, HALF)))


def _stops_well(path: Polygon) -> bool:
    """Say whether half an inch or half the seam is sewn before the stop, and some left open after it."""
    sewn, left = minus(path[1], path[0]), minus(path[2], path[1])
    enough = min(SHORTEST * SHORTEST, dot(left, left))
    return sign(dot(sewn, left)) > 0 and sign(dot(sewn, sewn) - enough) >= 0


def _add(sewn: _Seams, row: Data, path: Polygon, *, laid: list[Laid]) -> None:
    """Sew the next part to all before it: they must meet along the path and nowhere else."""
    index = int(row["part"])
    part = laid[index]
    if index != sewn.joined:
        raise SewingFault(Rule.ORDER, where=part.ref, expected=str(sewn.joined), found=str(index))
    edges = sewn.net.round(part.outline)
    if not sewn.rim.isdisjoint(edges) or len(set(edges)) != len(edges):
        raise SewingFault(Rule.OVERLAP, where=part.ref)
    contact = {frozenset(edge) for edge in edges if edge[::-1] in sewn.rim}
    along = _pairs(sewn.net, path)
    aside = {pair for pair in contact - along if _is_ahead(sewn, pair)}
    if contact - aside != along:
        raise SewingFault(
            Rule.PATH, where=part.ref, expected=_words(path), found=_meets(sewn.net, contact - aside)
        )
    sewn.rim = {edge for edge in sewn.rim.union(edges) if frozenset(edge) not in contact}
    sewn.joined += 1
    if row["kind"] == "partial":
        sewn.open[index] = _pairs(sewn.net, path[1:])
        sewn.ahead[index] = (path[1], path[2])


def _is_ahead(sewn: _Seams, pair: Pair) -> bool:
    """Take an edge that a closing seam will sew: it lies on the line of a partial seam still open."""
    ends = [sewn.net.points[i] for i in pair]
    for index, (stop, end) in sewn.ahead.items():
        along = minus(end, stop)
        if all(cross(along, minus(p, stop)) == 0 and sign(dot(along, minus(p, stop))) > 0 for p in ends):
            sewn.open[index].add(pair)
            return True
    return False


def _close(sewn: _Seams, index: int, path: Polygon, *, laid: list[Laid]) -> None:
    """Sew what a partial seam left open, from its stop to the end."""
    where = laid[index].ref
    if index not in sewn.open:
        raise SewingFault(Rule.KIND, where=where, expected="a partial seam", found="nothing to close")
    stop, _ = sewn.ahead.pop(index)
    if path[0] != stop or sewn.open.pop(index) != _pairs(sewn.net, path):
        raise SewingFault(Rule.PATH, where=where, expected=_words(path))


def _pairs(net: Net, path: Polygon) -> set[Pair]:
    return {frozenset(edge) for start, end in pairwise(path) for edge in net.split(start, end)}


def made_of(
    laid: Sequence[Laid], outline: Polygon, *, allowance: Number, slack: tuple[Number, Number] = (ZERO, ZERO)
) -> Work:
    """Give the sewn part in the frame of its raw edge; a rectangle may go on into rows."""
    size = (max(p[0] for p in outline), max(p[1] for p in outline))
    shift = (allowance, allowance)
    facets, shapes = (
        tuple(replace(f, points=tuple(plus(p, shift) for p in f.points), inner=True) for f in lying)
        for lying in ([f for part in laid for f in part.facets], [f for part in laid for f in part.shapes])
    )
    box = (size[0] + 2 * allowance, size[1] + 2 * allowance)
    if outline == rectangle(*size):
        return Work(facets, box, solid=True, slack=slack, shapes=shapes)
    return Work(facets, box, slack=slack, outline=tuple(plus(p, shift) for p in outline), shapes=shapes)


def _slack(parts: Iterable[tuple[Work, Point, Point]]) -> tuple[Number, Number]:
    """Take the worst that an eased part misses; it may lie turned, so that either side may miss it."""
    worst = max(max(work.slack) for work, _, _ in parts)
    return (worst, worst)


def _words(path: Iterable[Point]) -> str:
    return " - ".join(f"({x}, {y})" for x, y in path)


def _meets(net: Net, pairs: set[Pair]) -> str:
    met = sorted(pairs, key=sorted)
    return ", ".join(_words(net.points[i] for i in sorted(pair)) for pair in met) or "nothing"
