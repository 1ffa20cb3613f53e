"""Pictures of parts that are fitted together: laid a little apart, with their seams, dots and stops."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Any

from patterns.engine.geometry import on_segment
from patterns.engine.parts import Point
from patterns.engine.picture_marks import apart
from patterns.engine.rebuilding.fitting import Laid, finished_outline, lay_fitted
from patterns.engine.rebuilding.net import Net
from patterns.engine.rebuilding.plane import HALF, clip_to_rectangle, minus, plus
from patterns.engine.rebuilding.reading import point, polygon
from patterns.engine.rebuilding.table import Table
from patterns.engine.rebuilding.works import Facet as SewnFacet
from patterns.engine.rebuilding.works import Work
from patterns.engine.steps import Facet, Mark, MarkKind
from patterns.engine.surds import Number, ceiling, sign
from patterns.engine.templates import edges_of, moved_out, rough_length, upper_length, way

FINE = Fraction(1, 1000)
NIL = Fraction(0)
GAP = 3  # seams between finished edges that are drawn apart: both allowances, and air
FARTHEST = Fraction(3, 2)  # of their distance from the middle, that parts are moved outward at most
LEAST = Fraction(1, 20)


@dataclass(frozen=True, slots=True, kw_only=True)
class FitPicture:
    """Parts of a `fit` as they are drawn: where each lies, and how far it is moved outward."""

    laid: tuple[Laid, ...]
    shifts: tuple[Point, ...]
    operation: Mapping[str, Any]
    allowance: Number

    def facets(self) -> tuple[Facet, ...]:
        """Draw every part with its raw edges; a single piece is labelled with its name."""
        return tuple(
            Facet(
                fabric=facet.letter,
                points=apart(facet.points, shift),
                label=facet.piece if len(part.facets) == 1 else facet.letter,
            )
            for part, shift in zip(self.laid, self.shifts, strict=True)
            for facet in (*raw_facets(part.facets, part.outline, self.allowance), *part.shapes)
        )

    def marks(self) -> list[Mark]:
        """Mark seams (numbered where there are several), dots, and where a partial seam stops."""
        seams = self.operation["seams"]
        marks = [mark for number, seam in enumerate(seams, 1) for mark in self._seam(number, seam)]
        dots = [point(dot_) for dot_ in self.operation.get("dots", [])]
        return marks + [mark for spot in dots for mark in self._dots(spot)]

    def _seam(self, number: int, seam: Mapping[str, Any]) -> list[Mark]:
        path = apart(polygon(seam["path"]), self.shifts[int(seam["part"])])
        label = str(number) if len(self.operation["seams"]) > 1 else ""
        stops = seam["kind"] == "partial"
        runs = list(pairwise(path))[: 1 if stops else None]
        longest = max(range(len(runs)), key=lambda i: upper_length(way(*runs[i])))
        marks = [Mark(MarkKind.SEAM, *run, label if i == longest else "") for i, run in enumerate(runs)]
        return [*marks, _stop(path[0], path[1], self.allowance)] if stops else marks

    def _dots(self, spot: Point) -> list[Mark]:
        """Set the dot on every part that has a corner there."""
        return [
            Mark(MarkKind.DOT, moved, moved)
            for part, shift in zip(self.laid, self.shifts, strict=True)
            if spot in part.outline
            for moved in [plus(spot, shift)]
        ]


def fit_picture(table: Table, operation: Mapping[str, Any]) -> FitPicture:
    """Lay the parts of a `fit` a little apart, as they come from the table."""
    laid = tuple(
        lay_fitted(
            ref,
            (table.stock[ref][0].turned(int(turn)), point(at), point(turned_by)),
            allowance=table.allowance,
        )
        for ref, turn, at, turned_by in operation["parts"]
    )
    centres = [_plain(_middle(part.outline)) for part in laid]
    middle = _middle(centres)
    share = _share(laid, centres, operation, allowance=table.allowance)
    shifts = tuple(((x - middle[0]) * share, (y - middle[1]) * share) for x, y in centres)
    return FitPicture(laid=laid, shifts=shifts, operation=operation, allowance=table.allowance)


def raw(work: Work, ref: str, allowance: Number) -> Work:
    """Give a part that is known by its finished edges its seam allowances, for a picture."""
    if not any(facet.inner for facet in work.facets) or not (work.solid or work.outline):
        return work
    outline = finished_outline(work, ref, allowance=allowance)
    facets = raw_facets(work.facets, outline, allowance)
    return replace(work, facets=tuple(_trimmed(f, work.box) for f in facets) if work.solid else facets)


def _trimmed(facet: SewnFacet, box: tuple[Number, Number]) -> SewnFacet:
    """Cut off the dog-ears that stick out of a rectangle."""
    near = (_near(box[0]), _near(box[1]))
    if all(0 <= x <= near[0] and 0 <= y <= near[1] for x, y in facet.points):
        return facet
    return replace(facet, points=clip_to_rectangle(facet.points, (NIL, NIL), near))


def raw_facets(
    facets: Sequence[SewnFacet], outline: Sequence[Point], allowance: Number
) -> tuple[SewnFacet, ...]:
    """Move every edge that lies on the finished outline outward by the allowance."""
    net = Net([*(f.points for f in facets), tuple(outline)])
    rim = {frozenset(edge) for edge in net.round(tuple(outline))}
    return tuple(replace(f, points=_with_allowance(f.points, net, rim, allowance=allowance)) for f in facets)


def _with_allowance(
    points: tuple[Point, ...], net: Net, rim: set[frozenset[int]], *, allowance: Number
) -> tuple[Point, ...]:
    edges = [edge for start, end in edges_of(points) for edge in net.split(start, end)]
    seam = ceiling(allowance, FINE)
    by = [seam if frozenset(edge) in rim else NIL for edge in edges]
    if not any(by):
        return points
    moved = moved_out([net.points[first] for first, _ in edges], by, length=rough_length)
    return tuple((_near(x), _near(y)) for x, y in moved)


def _share(
    laid: Sequence[Laid], centres: Sequence[Point], operation: Mapping[str, Any], *, allowance: Number
) -> Number:
    """Give how far outward parts are moved, so that raw edges along the closest seam lie apart."""
    shares = [
        GAP * allowance / away
        for seam in operation["seams"]
        for run in pairwise(polygon(seam["path"]))
        for away in _across(laid, centres, run)
    ]
    return min(max([LEAST, *shares]), FARTHEST)


def _across(laid: Sequence[Laid], centres: Sequence[Point], run: tuple[Point, Point]) -> list[Number]:
    """Give how far the middles of the two parts along a seam lie apart, square to it."""
    spot = plus(run[0], minus(run[1], run[0]), HALF)
    sides = [
        i for i, part in enumerate(laid) if any(on_segment(spot, *edge) for edge in edges_of(part.outline))
    ]
    if len(sides) != 2:  # noqa: PLR2004 -- a seam has two sides
        return []
    along = _plain(minus(run[1], run[0]))
    between = minus(centres[sides[0]], centres[sides[1]])
    away = (between[0] * along[1] - between[1] * along[0]) / ceiling(upper_length(along), FINE)
    return [away if sign(away) > 0 else -away] if away else []


def _stop(start: Point, stop: Point, allowance: Number) -> Mark:
    """Set a bar across a seam where it stops, one allowance to either side."""
    x, y = way(start, stop)
    reach = allowance / upper_length((x, y))
    across = (-y * reach, x * reach)
    return Mark(MarkKind.STOP, minus(stop, across), plus(stop, across))


def _middle(points: Sequence[Point]) -> Point:
    share = Fraction(1, len(points))
    xs: Number = sum((x for x, _ in points), Fraction(0))
    ys: Number = sum((y for _, y in points), Fraction(0))
    return (xs * share, ys * share)


def _near(number: Number) -> Fraction:
    """Round to the nearest thousandth of an inch."""
    return ceiling(number - FINE / 2, FINE)


def _plain(spot: Point) -> Point:
    return (ceiling(spot[0], FINE), ceiling(spot[1], FINE))
