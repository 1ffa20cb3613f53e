"""Cutting a work apart: squares along their diagonals, strip sets across."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import ZERO, Line, line_through
from patterns.engine.rebuilding.reading import Data, number
from patterns.engine.rebuilding.works import Facet, Work, clip_facets, first_turn, same, settle
from patterns.engine.surds import sign

TO_A_POINT = "to a point"
LINES = {
    "one diagonal": (("top left", "bottom right"),),
    "both diagonals": (("top left", "bottom right"), ("bottom left", "top right")),
    "falling diagonal": (("top left", "bottom right"),),
    "rising diagonal": (("bottom left", "top right"),),
    TO_A_POINT: (("bottom left", "top middle"), ("top middle", "bottom right")),
}
OF_RECTANGLES = ("falling diagonal", "rising diagonal")


@dataclass(frozen=True, slots=True)
class Region:
    """One part between cuts, with the cut lines turned so that it lies on their near sides."""

    sides: tuple[Line, ...]

    def keep(self, facets: tuple[Facet, ...]) -> tuple[Facet, ...]:
        """Give what lies in the region."""
        for side in self.sides:
            facets = clip_facets(facets, side)
        return facets


def regions(lines: list[Line]) -> list[Region]:
    """Give every combination of sides."""
    found = [Region(())]
    for line in lines:
        found = [Region((*r.sides, side)) for r in found for side in (line, line.reversed())]
    return found


def cut_diagonally(work: Work, operation: Data) -> tuple[Work, int]:
    """Cut a square along its diagonals, or a rectangle along one; give one part and how many are alike.

    Cut to a point, from both lower corners to the middle of the upper edge, one part is kept.
    """
    if operation["along"] == TO_A_POINT:
        return _cut_to_a_point(work, operation), 1
    width, height = work.box
    if not work.solid or not (same(width, height) or operation["along"] in OF_RECTANGLES):
        raise SewingFault(
            Rule.CORNER, where=operation["of"], expected="a square", found=f"{width} x {height}"
        )
    lines = [line_through(work.place(a), work.place(b)) for a, b in LINES[operation["along"]]]
    kept = [region.keep(work.facets) for region in regions(lines)]
    parts = [first_turn(settle(facets)) for facets in kept if facets]
    if any(part.looks() != parts[0].looks() for part in parts):
        raise SewingFault(Rule.ALIKE, where=operation["gives"])
    return parts[0], len(parts)


def _cut_to_a_point(work: Work, operation: Data) -> Work:
    """Keep the triangle under the point; the two bits beside it fall away."""
    if not work.solid:
        raise SewingFault(Rule.CORNER, where=operation["of"], expected="a rectangle")
    facets = work.facets
    for start, end in LINES[TO_A_POINT]:
        side = line_through(work.place(start), work.place(end))
        below = side.height(work.place("bottom middle"))
        facets = clip_facets(facets, side if sign(below) < 0 else side.reversed())
    return settle(facets)


def cut_across(work: Work, operation: Data) -> tuple[Work, int]:
    """Cut a strip set across `pieces` times, every so many inches; the end is left over."""
    every, pieces = number(operation["every"]), int(operation["pieces"])
    width, height = work.box
    if not work.solid or sign(every * pieces - height) > 0:
        raise SewingFault(Rule.COVER, where=operation["of"], expected=str(every * pieces), found=str(height))
    facets = clip_facets(work.facets, Line((ZERO, Fraction(1)), every))
    return replace(work, facets=facets, box=(width, every), seams={}), pieces
