"""Stacking: layers right sides together are sewn along lines, cut along lines, and every part opened."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from patterns.engine.rebuilding.cuts import Region, regions
from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import (
    HALF,
    Line,
    Point,
    cross,
    dot,
    inside,
    length,
    line_through,
    minus,
    plus,
    reflect,
    tidy,
)
from patterns.engine.rebuilding.reading import Data, corner_of, lies_whole, ruled
from patterns.engine.rebuilding.works import Facet, Seam, Work, clip_facets, same, total_area
from patterns.engine.surds import Number, sign


@dataclass(frozen=True, slots=True)
class Opened:
    """A part after opening, still in the frame of the base, and the region it was."""

    work: Work
    region: Region


@dataclass(frozen=True, slots=True)
class Layers:
    """Two layers as they lie: the base, what is on it (seen from the base's front), seams and cuts."""

    base: Work
    tops: tuple[Facet, ...]
    sewn: list[Line]
    cuts: list[Line]
    allowance: Number


def lay(operation: Data, base: Work, tops: list[Work], *, allowance: Number) -> Layers:
    """Lay the tops face down on corners of the base; all lines run from place to place."""
    faces = [
        mirrored(top.turned(int(row.get("turn", 0)))) for top, row in zip(tops, operation["top"], strict=True)
    ]
    for face, row in zip(faces, operation["top"], strict=True):
        if not lies_whole(base, face, row["corner"]):
            sizes = [f"{work.box[0]} x {work.box[1]}" for work in (base, face)]
            where = f"{operation['base']}, {row['ref']}"
            raise SewingFault(Rule.CORNER, where=where, expected=sizes[0], found=sizes[1])
    corners = [corner_of(base, f, row["corner"]) for f, row in zip(faces, operation["top"], strict=True)]
    facets = tuple(
        Facet(f.letter, tuple(plus(p, corner) for p in f.points), f.piece, f.step)
        for face, corner in zip(faces, corners, strict=True)
        for f in face.facets
    )
    sewn = [ruled(line, base, tops=faces, corners=corners) for line in operation["sew"]]
    cuts = [ruled(line, base, tops=faces, corners=corners) for line in operation["cut"]]
    return Layers(base, facets, sewn, cuts, allowance)


def mirrored(work: Work) -> Work:
    """Turn a work face down, left for right."""
    width = work.box[0]
    facets = tuple(
        Facet(f.letter, tuple((width - x, y) for x, y in f.points), f.piece, f.step) for f in work.facets
    )
    return Work(facets, work.box, work.solid)


def open_all(layers: Layers, name: str) -> tuple[list[Opened], int]:
    """Cut the stack apart and open what one seam holds; give the parts and the number of loose layers."""
    opened, loose = [], 0
    for region in regions(layers.cuts):
        base, tops = region.keep(layers.base.facets), region.keep(layers.tops)
        seams = [line for line in layers.sewn if _holds(line, tops)]
        if not (base and tops) or not seams:
            loose += (1 if base else 0) + (1 if tops else 0)
            continue
        line = _only_seam(seams, layers, tops=tops, region=region)
        opened.append(Opened(_open(line, layers, region, name=name), region))
    return opened, loose


def _holds(line: Line, facets: tuple[Facet, ...]) -> bool:
    """Say whether a line runs through a layer."""
    return bool(clip_facets(facets, line)) and bool(clip_facets(facets, line.reversed()))


def _only_seam(seams: list[Line], layers: Layers, *, tops: tuple[Facet, ...], region: Region) -> Line:
    """Give the one seam that holds the part, near side = what is kept; others must lie in its allowance."""
    turned = [_with_kept_side(seam, layers, region) for seam in seams]
    for seam in turned:
        kept = clip_facets(tops, seam)
        if not any(_holds(other, kept) for other in turned if other is not seam):
            _check_allowance(seam, layers, tops)
            return seam
    raise SewingFault(Rule.OPEN, expected="1", found=str(len(seams)))


def _with_kept_side(seam: Line, layers: Layers, region: Region) -> Line:
    """Turn a seam so that the cut or raw edge one allowance away lies on its far side."""
    for side in (*region.sides, *_raw_edges(layers)):
        if cross(side.normal, seam.normal) != 0:
            continue
        facing = seam if sign(dot(side.normal, seam.normal)) > 0 else seam.reversed()
        gap = _gap(facing, side)
        if same(gap, layers.allowance):
            return facing
    raise SewingFault(Rule.ALLOWANCE, expected=str(layers.allowance), found="no cut at that distance")


def _raw_edges(layers: Layers) -> list[Line]:
    """Give the lines of the top's edges that no layer lies beyond."""
    corners = [p for f in (*layers.base.facets, *layers.tops) for p in f.points]
    found = []
    for top in layers.tops:
        for i, p in enumerate(top.points):
            line = line_through(top.points[i - 1], p)
            for side in (line, line.reversed()):
                if all(sign(side.height(corner)) <= 0 for corner in corners):
                    found.append(side)
    return found


def _gap(seam: Line, side: Line) -> Number:
    """Give the distance from a seam to a parallel cut, positive on the seam's far side."""
    on_seam = plus((seam.level * 0, seam.level * 0), seam.normal, seam.level / dot(seam.normal, seam.normal))
    return -side.height(on_seam) / length(side.normal)


def _check_allowance(seam: Line, layers: Layers, tops: tuple[Facet, ...]) -> None:
    """Make sure both layers reach the allowance over the middle of the seam."""
    for top in tops:
        ends = _crossings(seam, top)
        if len(ends) > 1:
            half = plus(ends[0], minus(ends[1], ends[0]), HALF)
            past = plus(half, seam.normal, layers.allowance / length(seam.normal))
            below = any(inside(f.points, past) for f in layers.base.facets)
            if not (below and inside(top.points, past)):
                raise SewingFault(Rule.ALLOWANCE, where=top.piece, expected=str(layers.allowance))


def _crossings(seam: Line, facet: Facet) -> list[Point]:
    """Give the two ends of a seam within a facet."""
    ends: list[Point] = []
    for i, p in enumerate(facet.points):
        before = facet.points[i - 1]
        start, end = seam.height(before), seam.height(p)
        if sign(start) * sign(end) < 0:
            ends.append(plus(before, minus(p, before), start / (start - end)))
        elif sign(end) == 0:
            ends.append(p)
    return ends


def _open(seam: Line, layers: Layers, region: Region, *, name: str) -> Work:
    kept = clip_facets(region.keep(layers.base.facets), seam)
    folded = clip_facets(region.keep(layers.tops), seam)
    flipped = tuple(
        Facet(f.letter, tuple(reflect(seam, p) for p in f.points), f.piece, f.step) for f in folded
    )
    foot = plus((seam.level * 0, seam.level * 0), seam.normal, seam.level / dot(seam.normal, seam.normal))
    along = (seam.normal[1], -seam.normal[0])
    seams = {**layers.base.seams, name: Seam(foot, along)}
    return Work(kept + flipped, layers.base.box, solid=False, seams=seams)


def overlaps(facets: tuple[Facet, ...]) -> bool:
    """Say whether two convex facets share more than an edge."""
    return any(_common(a, b) for a, b in combinations(facets, 2))


def _common(a: Facet, b: Facet) -> bool:
    rest: tuple[Facet, ...] = (a,)
    outline = tidy(b.points)
    for i, end in enumerate(outline):
        edge = minus(end, outline[i - 1])
        normal = (edge[1], -edge[0])
        rest = clip_facets(rest, Line(normal, dot(normal, end)))
    return bool(rest) and sign(total_area(rest)) > 0
