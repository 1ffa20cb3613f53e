"""Setting triangles of quilts on point: side triangles from squares cut twice, corners from squares cut once.

Long sides, or legs at the corners, lie on the quilt's edge and on the straight grain. Sizes: block x
sqrt 2 + (2 + 2 sqrt 2) seams, and block / sqrt 2 + (2 + sqrt 2) seams, rounded up once (derived
geometry).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import root
from patterns.engine.units.base import TWO, UNIT, Draft, Job, Method, Need, pair, share, text, triangle_spare


def side(job: Job) -> Draft:
    """Cut squares twice diagonally: four side triangles each."""
    size = job.quarter_square(job.unit.width * root(2))
    words = Phrase(
        "Cut each {piece} twice diagonally; the long side lies on the edge of the quilt.", {"piece": "p1"}
    )
    return _draft(job, size, per=4, box=(size / TWO, size), words=words)


def corner(job: Job) -> Draft:
    """Cut squares once diagonally: two corner triangles each."""
    size = job.half_square(job.unit.width / root(2))
    words = Phrase("Cut each {piece} once diagonally; the long side is sewn to the rows.", {"piece": "p1"})
    return _draft(job, size, per=2, box=(size, size), words=words)


def _draft(job: Job, size: Fraction, *, per: int, box: tuple[Fraction, Fraction], words: Phrase) -> Draft:
    fabric, count = job.unit.fabrics[0], share(job.make, per)
    twice = job.unit.kind is UnitKind.SIDE_TRIANGLE
    then = "cut twice diagonally" if twice else "cut once diagonally"
    need = Need(
        ref="p1",
        fabric=fabric,
        width=size,
        length=size,
        count=count,
        then=then,
        purpose=f"{job.unit.kind.value}s",
    )
    along = "both diagonals" if twice else "one diagonal"
    operations: tuple[dict[str, Any], ...] = (
        {"op": "cut", "of": "p1", "times": count, "along": along, "gives": "triangle"},
        {
            "op": "shape",
            "of": "triangle",
            "times": job.make,
            "outline": [pair(*q) for q in job.unit.patches[0].points],
            "width": text(job.unit.width),
            "height": text(job.unit.height),
            "align": "right angle" if twice else "long side",
            "gives": UNIT,
        },
    )
    spares = triangle_spare("triangle", per * count - job.make, fabric=fabric, size=box)
    return Draft(needs=(need,), operations=operations, words=(words,), spares=spares)


METHODS = (
    Method(name="squares cut twice", kind=UnitKind.SIDE_TRIANGLE, draft=side),
    Method(name="squares cut once", kind=UnitKind.CORNER_TRIANGLE, draft=corner),
)
