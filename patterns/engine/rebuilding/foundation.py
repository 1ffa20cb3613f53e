"""Foundations: pieces are laid over their patches and sewn on printed lines, one after the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.fitting import Laid, made_of
from patterns.engine.rebuilding.net import Edge, Net
from patterns.engine.rebuilding.plane import Point, Polygon, cross, dot, minus, tidy
from patterns.engine.rebuilding.reading import Data, polygon
from patterns.engine.rebuilding.works import Work
from patterns.engine.surds import Number, sign

Line: TypeAlias = tuple[Point, Point]


def piece_on_foundation(works: list[Work], operation: Data, allowance: Number) -> Work:
    """Sew rectangles onto a foundation in order; each must cover its patch and the seam all round."""
    shapes = [tidy(polygon(row["points"])) for row in operation["patches"]]
    outline = tidy(polygon(operation["outline"]))
    refs = [row["of"] for row in operation["patches"]]
    lines = [_line(shape, shapes[:n], where=refs[n]) for n, shape in enumerate(shapes) if n]
    for work, shape, line, ref in zip(works, shapes, (lines[0], *lines), refs, strict=True):
        _check_cover(work, shape, line, allowance=allowance, where=ref)
    _check_tiles(shapes, outline, where=operation["gives"])
    laid = [
        Laid(ref, shape, (replace(work.facets[0], points=shape),))
        for work, shape, ref in zip(works, shapes, refs, strict=True)
    ]
    return made_of(laid, outline, allowance=allowance)


def _line(shape: Polygon, earlier: Sequence[Polygon], *, where: str) -> Line:
    """Give the edge a patch is sewn on: all earlier ones lie on its other side, one of them along it."""
    for i, end in enumerate(shape):
        along = minus(end, shape[i - 1])
        heights = [cross(along, minus(p, end)) for other in earlier for p in other]
        if (
            heights
            and all(sign(height) <= 0 for height in heights)
            and any(height == 0 for height in heights)
        ):
            return shape[i - 1], end
    raise SewingFault(Rule.PATH, where=where, expected="one straight line to all before it")


def _check_cover(work: Work, shape: Polygon, line: Line, *, allowance: Number, where: str) -> None:
    """Compare squares: each side less its seams, times the line's length, holds the patch's reach."""
    along = minus(line[1], line[0])
    square = dot(along, along)
    reaches = sorted((_reach(shape, along), _reach(shape, (-along[1], along[0]))))
    sides = sorted(side - 2 * allowance for side in work.box)
    fits = (
        sign(side) > 0 and sign(side * side * square - reach * reach) >= 0
        for side, reach in zip(sides, reaches, strict=True)
    )
    if not (work.solid and all(fits)):
        size = f"{work.box[0]} x {work.box[1]}"
        raise SewingFault(Rule.COVER, where=where, expected="the patch with its seams", found=size)


def _reach(shape: Polygon, way: Point) -> Number:
    heights = [dot(way, p) for p in shape]
    return max(heights) - min(heights)


def _check_tiles(shapes: list[Polygon], outline: Polygon, *, where: str) -> None:
    """Make sure that the patches fill the section: inner edges occur once in either direction."""
    net = Net([*shapes, outline])
    edges: list[Edge] = [edge for shape in shapes for edge in net.round(shape)]
    found = set(edges)
    rim = {edge for edge in found if edge[::-1] not in found}
    if len(found) != len(edges) or rim != set(net.round(outline)):
        raise SewingFault(Rule.OUTLINE, where=where)
