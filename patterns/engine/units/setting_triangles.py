"""Setting triangles of quilts on point: side triangles from squares cut twice, corners from squares cut once.

Long sides, or legs at the corners, lie on the quilt's edge and on the straight grain. Sizes: block x
sqrt 2 + (2 + 2 sqrt 2) seams, and block / sqrt 2 + (2 + sqrt 2) seams, rounded up once (derived
geometry).
"""

from __future__ import annotations

from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import root
from patterns.engine.units.base import UNIT, Draft, Job, Method, pair, text
from patterns.engine.units.triangles import Apart, Triangles, cut_once, cut_twice


def side(job: Job) -> Draft:
    """Cut squares twice diagonally: four side triangles each."""
    size = job.quarter_square(job.unit.width * root(2))
    words = Phrase(
        "The long side lies on the edge of the quilt, on the straight grain. The short sides are on the "
        "bias: do not pull them."
    )
    return _draft(job, cut_twice(_wanted(job), ref="p1", size=size), align="right angle", words=words)


def corner(job: Job) -> Draft:
    """Cut squares once diagonally: two corner triangles each."""
    size = job.half_square(job.unit.width / root(2))
    words = Phrase(
        "The long side is sewn to the rows. It is on the bias: do not pull it. The short sides lie on the "
        "edge of the quilt."
    )
    return _draft(job, cut_once(_wanted(job), ref="p1", size=size), align="long side", words=words)


def _wanted(job: Job) -> Triangles:
    purpose = f"{job.unit.kind.value}s"
    return Triangles(name="triangle", fabric=job.unit.fabrics[0], number=job.make, purpose=purpose)


def _draft(job: Job, squares: Apart, *, align: str, words: Phrase) -> Draft:
    """Cut the squares apart and call each triangle, as it is, a unit."""
    shape: dict[str, Any] = {
        "op": "shape",
        "of": "triangle",
        "times": job.make,
        "outline": [pair(*q) for q in job.unit.patches[0].points],
        "width": text(job.unit.width),
        "height": text(job.unit.height),
        "align": align,
        "gives": UNIT,
    }
    return Draft(
        needs=(squares.need,),
        operations=(squares.operation, shape),
        words=(squares.words, words),
        spares=squares.spares,
    )


METHODS = (
    Method(name="squares cut twice", kind=UnitKind.SIDE_TRIANGLE, draft=side),
    Method(name="squares cut once", kind=UnitKind.CORNER_TRIANGLE, draft=corner),
)
