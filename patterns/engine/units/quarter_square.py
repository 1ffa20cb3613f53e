"""Quarter-square triangles, four patches or three, from triangles.

Sizes: squares cut twice, finished + (2 + 2 sqrt 2) seams; the half of a three-patch unit from a square
cut once, finished + (2 + sqrt 2) seams (derived geometry). From two half-square triangles come a unit
and its mirror image (see `crossing`).
"""

from __future__ import annotations

from collections import Counter
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.units.base import (
    TWO,
    UNIT,
    Draft,
    Job,
    Method,
    pair,
    text,
)
from patterns.engine.units.triangles import Apart, Triangles, cut_once, cut_twice

PURPOSE = "quarter-square triangles"
HALVES_WORDS = Phrase(
    "Sew two such halves together along their long sides, seams nested. Press to one side, as the arrow "
    "shows."
)
THREE_WORDS = Phrase(
    "Sew this half to the large triangle along their long sides, the seam on the middle. Press to one "
    "side, as the arrow shows."
)
NEXT, BEFORE = (
    pair(1, -1),
    pair(1, 1),
)  # edges of a quarter triangle, point to the right: clockwise next, before


def from_triangles(job: Job) -> Draft:
    """Cut squares twice; sew the triangles in pairs, the pairs together: any four fabrics."""
    top, right, bottom, left = job.unit.fabrics
    quarters = _quarters(job, job.unit.fabrics)
    joins = [
        _pair(job, top, right, gives="pair 1"),
        _pair(job, bottom, left, gives="pair 2"),
        _halves(job, "pair 2", ["s1", "s1"]),
    ]
    return _draft(job, quarters, joins)


def three_from_triangles(job: Job) -> Draft:
    """Sew two quarter triangles together, and to a half from a square cut once."""
    half, top, right = job.unit.fabrics
    quarters = _quarters(job, (top, right))
    wanted = Triangles(name="half", fabric=half, number=job.make, purpose=PURPOSE)
    halves = cut_once(wanted, ref="half square", size=job.half_square(job.unit.width))
    joins = [_pair(job, top, right, gives="pair 1"), _halves(job, "half", ["s1", "middle"])]
    return _draft(job, [*quarters, halves], joins)


def _quarters(job: Job, letters: tuple[str, ...]) -> list[Apart]:
    """Cut the squares for quarter triangles, per fabric."""
    size = job.quarter_square(job.unit.width)
    return [
        cut_twice(
            Triangles(name=f"quarter {letter}", fabric=letter, number=per_unit * job.make, purpose=PURPOSE),
            ref=f"square {letter}",
            size=size,
        )
        for letter, per_unit in Counter(letters).items()
    ]


def _draft(job: Job, squares: list[Apart], joins: list[dict[str, Any]]) -> Draft:
    """Cut all squares apart, then sew."""
    return Draft(
        needs=tuple(each.need for each in squares),
        operations=(*(each.operation for each in squares), *joins),
        words=_words(job, squares),
        spares=tuple(spare for each in squares for spare in each.spares),
    )


def _pair(job: Job, first: str, second: str, *, gives: str) -> dict[str, Any]:
    """Join a triangle and the next one clockwise, matched at the point."""
    return {
        "op": "join",
        "times": job.make,
        "a": f"quarter {first}",
        "b": f"quarter {second}",
        "a_edge": NEXT,
        "b_edge": BEFORE,
        "match": "start",
        "seam": text(job.seam),
        "name": "s1",
        "gives": {"id": gives},
    }


def _halves(job: Job, second: str, match: list[str]) -> dict[str, Any]:
    """Join the upper right half and the lower left one, middles matched."""
    return {
        "op": "join",
        "times": job.make,
        "a": "pair 1",
        "b": second,
        "a_edge": BEFORE,
        "b_edge": pair(1, 1),
        "match": match,
        "flush": match[1] == "s1",
        "seam": text(job.seam),
        "name": "s2",
        "gives": {"id": UNIT, "trim": trim(job, (1, 1))},
    }


def trim(job: Job, along: tuple[int, int]) -> dict[str, Any]:
    """Trim with the seams meeting in the middle and the long seam on a diagonal."""
    middle = pair(job.unit.width / TWO, job.unit.height / TWO)
    return job.trim({"how": "meet", "seams": ["s2", "s1"], "seam": "s2", "along": pair(*along), "at": middle})


def _words(job: Job, squares: list[Apart]) -> tuple[Phrase, ...]:
    three = job.unit.kind is UnitKind.THREE_PATCH
    return (
        *(each.words for each in squares),
        Phrase("The edges cut on the diagonal stretch: handle them gently and press up and down."),
        Phrase(
            "Sew two small triangles together along a short side, as drawn. Press toward the darker fabric."
        ),
        THREE_WORDS if three else HALVES_WORDS,
        trim_words(job),
    )


def trim_words(job: Job) -> Phrase:
    """Say how the unit is trimmed."""
    return Phrase(
        "Trim to {size}, the seams running into the corners and meeting in the middle.",
        {"size": job.unfinished},
    )


METHODS = (
    Method(name="from triangles", kind=UnitKind.QUARTER_SQUARE, draft=from_triangles),
    Method(name="from triangles", kind=UnitKind.THREE_PATCH, draft=three_from_triangles),
)
