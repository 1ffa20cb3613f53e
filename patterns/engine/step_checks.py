"""What a step says to measure: one unit before the rest, and an edge where nothing is a rectangle."""

from __future__ import annotations

from fractions import Fraction

from patterns.engine.parts import Point, Rows, Unit
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number
from patterns.engine.templates import edges_of, exact_length, way
from patterns.engine.units.base import MAKE_ONE, MAKE_SOME, Draft

MAKE_SEGMENT = Phrase("Cut one segment first and measure it before you cut the rest.")
MAKE_PIECE = Phrase("Cut one piece first and measure it before you cut the rest.")
ONCE, TWICE = "cut once diagonally", "cut twice diagonally"
SLICED = "cut into slanting pieces"
CUT_EDGES = {  # of a triangle, from the square it is cut from: the edges that are as long as its side
    ONCE: "Each short side measures {length}, seams included.",
    TWICE: "Each long side measures {length}, seams included.",
    SLICED: "Each piece measures {length} from one long edge of the strip to the other, seams included.",
}
ACROSS = "It measures {length} across, from raw edge to raw edge."
ALL_ROWS = "It measures {length} from the raw edge of the first row to that of the last."


def first_words(draft: Draft) -> tuple[Phrase, ...]:
    """Say that one is made and measured before the rest, where the work can be done one by one."""
    last = draft.operations[-1]
    if last["op"] == "slice":
        pieces = sum(operation["times"] * operation["pieces"] for operation in draft.operations)
        return (MAKE_PIECE,) if pieces > 1 else ()
    if last["op"] == "across":
        return (MAKE_SEGMENT,) if last["times"] * last["pieces"] > 1 else ()
    stacked = last["op"] == "stack"
    times = min(operation["times"] for operation in draft.operations) if stacked else last["times"]
    if times == 1 or last["op"] == "shape":
        return ()
    several = stacked and (len(last["gives"]) > 1 or last["gives"][0]["at"] == "each")
    return (MAKE_SOME if several else MAKE_ONE,)


def slanted_unit_checks(unit: Unit, draft: Draft) -> tuple[Phrase, ...]:
    """Give the edge to measure of a unit that is no upright rectangle."""
    return _triangle_checks(draft) or tuple(edge_checks(unit.outline))


def _triangle_checks(draft: Draft) -> tuple[Phrase, ...]:
    """Give the edge to measure of triangles that are only cut, in inches with their seams."""
    found = dict.fromkeys((need.then, need.width) for need in draft.needs if need.then in CUT_EDGES)
    return tuple(Phrase(CUT_EDGES[then], {"length": width}) for then, width in found)


def slanted_row_checks(part: Rows, seam: Fraction) -> tuple[Phrase, ...]:
    """Give the width to measure across rows that end in a slant, in inches with their seams."""
    return (Phrase(ACROSS if len(part.rows) == 1 else ALL_ROWS, {"length": part.height + 2 * seam}),)


def edge_checks(outline: tuple[Point, ...]) -> list[Phrase]:
    """Give an edge to measure where no rectangle can be measured; finished inches."""
    length = _longest_edge(outline)
    words = "The longest edge measures {length} from seam line to seam line."
    return [] if length is None else [Phrase(words, {"length": length})]


def _longest_edge(outline: tuple[Point, ...]) -> Number | None:
    """Give the longest edge of an outline whose length can be written."""
    lengths = [exact_length(way(*edge)) for edge in edges_of(outline)]
    return max((length for length in lengths if length is not None), default=None)
