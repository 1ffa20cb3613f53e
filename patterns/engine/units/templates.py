"""Patches of any outline that are sewn by themselves: triangles from squares, all else with a template."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from patterns.engine.geometry import dot
from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, ceiling, root
from patterns.engine.templates import box_of, edges_of, exact_length, template, way
from patterns.engine.units.base import (
    HALF_SQUARE,
    QUARTER_SQUARE,
    UNIT,
    Draft,
    Job,
    Method,
    Need,
    pair,
    text,
)
from patterns.engine.units.triangles import Apart, Triangles, cut_once, cut_twice

if TYPE_CHECKING:
    from patterns.engine.parts import Point, Unit

CUT_TWICE = "from squares cut twice diagonally"
CUT_ONCE = "from squares cut once diagonally"
WITH_A_TEMPLATE = "with a template"
SLACK = Fraction(1, 32)  # inches that a triangle's square may be too large before a finer mark is taken
TRIANGLE_CORNERS = 3
ONE_PIECE = (
    UnitKind.SQUARE,
    UnitKind.RECTANGLE,
    UnitKind.DIAMOND,
    UnitKind.HEXAGON,
    UnitKind.KITE,
    UnitKind.TEMPLATE,
)
PURPOSES = {
    UnitKind.TRIANGLE: "triangles",
    UnitKind.DIAMOND: "diamonds",
    UnitKind.HEXAGON: "hexagons",
    UnitKind.KITE: "kites",
    UnitKind.TEMPLATE: "template patches",
}


def with_template(job: Job) -> Draft:
    """Cut the patch with a template, its seams added outside."""
    outline = outline_of(job.unit)
    laid = template(outline, seam=job.seam, step=job.style.step)
    need = Need(
        ref="t1",
        fabric=job.unit.fabrics[0],
        width=laid.width,
        length=laid.length,
        count=job.make,
        purpose=PURPOSES[job.unit.kind],
        outline=laid.outline,
    )
    operation = {
        "op": "template",
        "of": "t1",
        "times": job.make,
        "outline": [pair(*corner) for corner in outline],
        "turned_by": pair(*laid.turned_by),
        "gives": UNIT,
    }
    return Draft(needs=(need,), operations=(operation,))


def twice(job: Job) -> Draft:
    """Cut squares twice: long side + (2 + 2 sqrt 2) seams; the long sides lie on the straight grain."""
    size = _square(job, _legs(job.unit)[0] * root(2) + QUARTER_SQUARE * job.seam)
    words = Phrase(
        "The long sides lie on the straight grain. The short sides are on the bias: do not pull them."
    )
    return _triangles(job, cut_twice(_wanted(job), ref="p1", size=size), words)


def once(job: Job) -> Draft:
    """Cut squares once: short side + (2 + sqrt 2) seams; the short sides lie on the straight grain."""
    size = _square(job, _legs(job.unit)[0] + HALF_SQUARE * job.seam)
    words = Phrase(
        "The short sides lie on the straight grain. The long sides are on the bias: do not pull them."
    )
    return _triangles(job, cut_once(_wanted(job), ref="p1", size=size), words)


def outline_of(unit: Unit) -> tuple[Point, ...]:
    """Give the finished corners of a unit of one patch."""
    return unit.outline or unit.patches[0].points


def is_cut_piece(unit: Unit) -> bool:
    """Say whether a unit is one piece as it is cut, which needs no step of its own."""
    return unit.kind in ONE_PIECE or (unit.kind is UnitKind.TRIANGLE and not is_right_isosceles(unit))


def is_right_isosceles(unit: Unit) -> bool:
    """Say whether a patch is half a square that lies straight or on point in its frame."""
    return bool(_legs(unit))


def long_side(outline: tuple[Point, ...]) -> tuple[Point, Point]:
    """Give the ends of the longest edge."""
    return max(edges_of(outline), key=lambda edge: dot(way(*edge), way(*edge)))


def _legs(unit: Unit) -> tuple[Number, ...]:
    """Give the length of both short sides of half a square; nothing for another shape."""
    outline = outline_of(unit)
    if len(outline) != TRIANGLE_CORNERS:
        return ()
    sides = sorted((way(*edge) for edge in edges_of(outline)), key=lambda side: dot(side, side))
    first, second, third = sides
    is_half_square = dot(first, second) == 0 and dot(first, first) == dot(second, second)
    lies_straight = 0 in third or third[0] in (third[1], -third[1])
    leg = exact_length(first) if is_half_square and lies_straight else None
    return (leg,) if leg is not None else ()


def _square(job: Job, exact: Number) -> Fraction:
    """Round up to the cutting step; to half of it where that would leave too much to match."""
    size = job.up(exact)
    return size if size - exact <= SLACK else min(size, ceiling(exact, job.style.step / 2))


def _wanted(job: Job) -> Triangles:
    return Triangles(
        name="triangle", fabric=job.unit.fabrics[0], number=job.make, purpose=PURPOSES[UnitKind.TRIANGLE]
    )


def _triangles(job: Job, squares: Apart, words: Phrase) -> Draft:
    (left, top), (right, bottom) = box_of(outline_of(job.unit))
    shape: dict[str, Any] = {
        "op": "shape",
        "of": "triangle",
        "times": job.make,
        "outline": [pair(*corner) for corner in outline_of(job.unit)],
        "width": text(right - left),
        "height": text(bottom - top),
        "align": "right angle",
        "gives": UNIT,
    }
    return Draft(
        needs=(squares.need,),
        operations=(squares.operation, shape),
        words=(squares.words, words),
        spares=squares.spares,
    )


def _is_half_square(job: Job) -> bool:
    return is_right_isosceles(job.unit)


METHODS = (
    Method(name=CUT_ONCE, kind=UnitKind.TRIANGLE, draft=once, admits=_is_half_square),
    Method(name=CUT_TWICE, kind=UnitKind.TRIANGLE, draft=twice, admits=_is_half_square),
    Method(name=WITH_A_TEMPLATE, kind=UnitKind.TRIANGLE, draft=with_template),
    Method(name=WITH_A_TEMPLATE, kind=UnitKind.DIAMOND, draft=with_template),
    Method(name=WITH_A_TEMPLATE, kind=UnitKind.HEXAGON, draft=with_template),
    Method(name=WITH_A_TEMPLATE, kind=UnitKind.KITE, draft=with_template),
    Method(name=WITH_A_TEMPLATE, kind=UnitKind.TEMPLATE, draft=with_template),
)
