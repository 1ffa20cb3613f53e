"""Joining: two edges right sides together, sewn and opened; and whole rows."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import (
    HALF,
    ZERO,
    Line,
    Motion,
    Point,
    dot,
    length,
    line_through,
    meeting,
    minus,
    plus,
    turn_onto,
)
from patterns.engine.rebuilding.reading import Data, number, point
from patterns.engine.rebuilding.works import Facet, Seam, Work, clip_facets, same, total_area
from patterns.engine.surds import Number, sign, write_number

START_DOT, END_DOT = DOTS = ("start dot", "end dot")
DOT_ON = "dot on "
ROW_LIMIT = Fraction(1, 8)  # inches; eased pieces may add up to this along one row (common practice)


@dataclass(frozen=True, slots=True)
class Edge:
    """The outer edge that faces a direction: its line, and where it starts and ends along it."""

    line: Line
    along: Point  # the work on the left
    start: Number
    end: Number

    def at(self, match: object, work: Work, allowance: Number, *, inside: Number) -> Number:
        """Give the place along the edge that is matched: start, end, middle, a seam's end, or a dot.

        A dot lies on the seam line: at the "start dot" and "end dot" a line so far `inside` the
        neighbouring edge crosses it, at the "dot on" a seam that seam does.
        """
        if match == "middle":
            return (self.start + self.end) * HALF
        if match in ("start", "end"):
            return self.start if match == "start" else self.end
        dotted = match in DOTS or str(match).startswith(DOT_ON)
        crossing = (
            _beside(self, work, at_end=match == END_DOT).moved(-inside)
            if match in DOTS
            else _seam_line(work, str(match).removeprefix(DOT_ON))
        )
        met = meeting(crossing, self.line.moved(-allowance) if dotted else self.line)
        if met is None:
            raise SewingFault(Rule.READABLE, where=str(match), expected="a seam that ends at the edge")
        return dot(self.along, met)


def _seam_line(work: Work, name: str) -> Line:
    if name not in work.seams:
        raise SewingFault(Rule.READABLE, where=name, expected="a seam that ends at the edge")
    return work.seams[name].line


def _beside(edge: Edge, work: Work, *, at_end: bool) -> Line:
    """Give the outer line of the edge that meets another at its start or end."""
    spot = _on(edge, edge.end if at_end else edge.start)
    for facet in work.facets:
        for i, p in enumerate(facet.points):
            if p != spot:
                continue
            for q in (facet.points[i - 1], facet.points[(i + 1) % len(facet.points)]):
                if sign(edge.line.height(q)) != 0:
                    line = line_through(p, q)
                    return line if clip_facets((facet,), line) else line.reversed()
    raise SewingFault(Rule.READABLE, where="dot", expected="an edge beside the one that is sewn")


def edge_facing(work: Work, normal: Point) -> Edge:
    """Find the outermost edge of a work that faces a direction; what sticks out past it must be a dog-ear."""
    along = (normal[1], -normal[0])
    sides: dict[Number, list[tuple[Number, Number]]] = {}
    for facet in work.facets:
        for i, p in enumerate(facet.points):
            before = facet.points[i - 1]
            if dot(normal, minus(p, before)) == 0 and _faces(facet, normal, p):
                ends = sorted((dot(along, before), dot(along, p)))
                sides.setdefault(dot(normal, p), []).append((ends[0], ends[1]))
    if not sides:
        raise SewingFault(Rule.EDGES, expected=f"an edge facing {normal[0]}, {normal[1]}", found="none")
    longest = max(map(_run, sides.values()))
    level = max(key for key, ends in sides.items() if 4 * _run(ends) >= longest)  # a dog-ear is no edge
    start, end = min(e[0] for e in sides[level]), max(e[1] for e in sides[level])
    return Edge(Line(normal, level), along, start, end)


def _faces(facet: Facet, normal: Point, on_edge: Point) -> bool:
    level = dot(normal, on_edge)
    return all(sign(dot(normal, p) - level) <= 0 for p in facet.points)


def _run(ends: list[tuple[Number, Number]]) -> Number:
    total: Number = ZERO
    for start, end in ends:
        total = total + end - start
    return total


def join(first: Work, second: Work, operation: Data, *, allowance: Number) -> Work:
    """Join two works; the second is turned, never mirrored."""
    _check_seam(operation, allowance)
    a, b = edge_facing(first, point(operation["a_edge"])), edge_facing(second, point(operation["b_edge"]))
    if operation.get("flush", True) and not same(
        (a.end - a.start) * length(b.along), (b.end - b.start) * length(a.along)
    ):
        raise SewingFault(
            Rule.EDGES, where=operation["b"], expected=str(a.end - a.start), found=str(b.end - b.start)
        )
    for edge, work in ((a, first), (b, second)):
        beyond = total_area(clip_facets(work.facets, edge.line.reversed()))
        if sign(beyond - allowance * allowance) > 0:
            raise SewingFault(Rule.EDGES, where=operation["b"], found="fabric beyond the edge")
    return _opened(first, second, edges=(a, b), operation=operation, allowance=allowance)


def _check_seam(operation: Data, allowance: Number) -> None:
    seam = number(operation["seam"])
    if not same(seam, allowance):
        raise SewingFault(Rule.SEAM, expected=str(allowance), found=str(seam))


def _opened(
    first: Work, second: Work, *, edges: tuple[Edge, Edge], operation: Data, allowance: Number
) -> Work:
    a, _ = edges
    seam = a.line.moved(-allowance)
    laid = second.moved(
        motion_onto(first, second, edges=edges, operation=operation, allowance=allowance), second.box
    )
    facets = clip_facets(first.facets, seam) + clip_facets(laid.facets, seam.reversed())
    on_seam = plus(_on(a, a.start), a.line.normal, -allowance / length(a.line.normal))
    return Work(
        facets, first.box, solid=False, seams={**first.seams, operation["name"]: Seam(on_seam, a.along)}
    )


def motion_onto(
    first: Work, second: Work, *, edges: tuple[Edge, Edge], operation: Data, allowance: Number
) -> Motion:
    """Give the motion that lays the second work where it will be once the seam is opened."""
    a, b = edges
    matches = operation["match"]
    match_a, match_b = matches if isinstance(matches, list | tuple) else (matches, matches)
    turn = turn_onto(b.line.normal, minus((ZERO, ZERO), a.line.normal))
    inside = number(operation["b_dot"]) if "b_dot" in operation else allowance
    spot_b = turn.apply(_on(b, b.at(_other(match_b), second, allowance, inside=inside)))
    spot_a = _on(a, a.at(match_a, first, allowance, inside=allowance))
    target = plus(spot_a, a.line.normal, -2 * allowance / length(a.line.normal))
    off = number(operation.get("off", "0")) / length(a.along)
    return replace(turn, shift=minus(plus(target, a.along, off), spot_b))


def within_play(operation: Data) -> list[Data]:
    """Give a join as it is said, and off by its `play` (inches) along the edge either way."""
    if "play" not in operation:
        return [operation]
    play = write_number(number(operation["play"]))
    return [operation, {**operation, "off": play}, {**operation, "off": f"-{play}"}]


def _other(match: object) -> object:
    """Turn the match round for the second layer: its start meets the first one's end."""
    turned = {"start": "end", "end": "start", START_DOT: END_DOT, END_DOT: START_DOT}
    return turned.get(str(match), match)


def _on(edge: Edge, place: Number) -> Point:
    """Give the point of an edge at a place along it."""
    square = dot(edge.along, edge.along)
    foot = (edge.line.normal[0] * edge.line.level / square, edge.line.normal[1] * edge.line.level / square)
    return plus(foot, edge.along, place / square)


def join_rows(rows: list[list[tuple[Work, str]]], operation: Data, allowance: Number) -> Work:
    """Join the parts of each row, then the rows; every part is a full rectangle and edges are equal."""
    _check_seam(operation, allowance)
    bands = [_row(row, allowance) for row in rows]
    width = bands[0].box[0]
    for band, row in zip(bands, rows, strict=True):
        if not same(band.box[0], width):
            where = f"{_names(rows[0])} / {_names(row)}"
            raise SewingFault(Rule.EDGES, where=where, expected=str(width), found=str(band.box[0]))
    return _strung(bands, allowance, axis=1)


def _names(row: list[tuple[Work, str]]) -> str:
    return ", ".join(dict.fromkeys(ref for _, ref in row))


def _row(row: list[tuple[Work, str]], allowance: Number) -> Work:
    height = row[0][0].box[1]
    for work, ref in row:
        if not work.solid:
            raise SewingFault(Rule.EDGES, where=ref, expected="a trimmed part")
        if not same(work.box[1], height):
            where = f"{row[0][1]} / {ref}"
            raise SewingFault(Rule.EDGES, where=where, expected=str(height), found=str(work.box[1]))
    return _strung([work for work, _ in row], allowance, axis=0)


def _strung(works: list[Work], allowance: Number, *, axis: int) -> Work:
    """Put works side by side (axis 0) or one under the other (axis 1), overlapping by two allowances."""
    normal: Point = ((Fraction(1), ZERO), (ZERO, Fraction(1)))[axis]
    start: Number = ZERO
    facets: list[Facet] = []
    shapes: list[Facet] = []
    for i, work in enumerate(works):
        shift = Motion(Fraction(1), ZERO, (normal[0] * start, normal[1] * start))
        moved = work.moved(shift, work.box)
        laid = moved.facets
        shapes += moved.shapes
        kept = tuple(f for f in laid if not f.inner)
        if i:
            kept = clip_facets(kept, Line(normal, start + allowance).reversed())
        if i < len(works) - 1:
            kept = clip_facets(kept, Line(normal, start + work.box[axis] - allowance))
        facets += [*kept, *(f for f in laid if f.inner)]
        start = start + work.box[axis] - 2 * allowance
    box = list(works[0].box)
    box[axis] = start + 2 * allowance
    slack = _slack(works, axis)
    return Work(tuple(facets), (box[0], box[1]), solid=True, slack=slack, shapes=tuple(shapes))


def _slack(works: list[Work], axis: int) -> tuple[Number, Number]:
    """Add what eased pieces miss along the seams, and take the worst across; over 1/8 in is too much."""
    sums: list[Number] = [max(w.slack[k] for w in works) for k in (0, 1)]
    sums[axis] = sum((w.slack[axis] for w in works), ZERO)
    if sign(sums[axis] - ROW_LIMIT) > 0:
        raise SewingFault(Rule.ERROR, expected=f"at most {ROW_LIMIT} along a row", found=str(sums[axis]))
    return (sums[0], sums[1])
