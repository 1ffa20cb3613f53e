"""Flying geese: one at a time from triangles, by flipping corners, and four at a time.

Sizes: goose square W + (2 + 2 sqrt 2) seams, wing squares H + (2 + sqrt 2) seams (derived geometry; the
trade's + 1 1/4 and + 7/8 in round them up at a 1/4 in seam).
"""

from __future__ import annotations

from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.units.base import (
    TWO,
    UNIT,
    Draft,
    Job,
    Method,
    Need,
    draw_words,
    pair,
    share,
    text,
)
from patterns.engine.units.folds import flip, flip_words
from patterns.engine.units.half_square import FALLING, RISING, both_sides, line
from patterns.engine.units.triangles import Apart, Triangles, cut_once, cut_twice

PURPOSE = "flying geese"


def single(job: Job) -> Draft:
    """Sew two small triangles to a large one."""
    goose, left, right = job.unit.fabrics
    large, small = job.quarter_square(job.unit.width), job.half_square(job.unit.height)
    geese = Triangles(name="goose", fabric=goose, number=job.make, purpose=PURPOSE)
    squares = [cut_twice(geese, ref="p1", size=large)]
    for i, (letter, number) in enumerate(_wing_counts(job).items()):
        wings = Triangles(name=f"wing {letter}", fabric=letter, number=number, purpose=PURPOSE)
        squares.append(cut_once(wings, ref=f"p{i + 2}", size=small))
    return Draft(
        needs=tuple(each.need for each in squares),
        operations=(
            *(each.operation for each in squares),
            *_wings(job, f"wing {left}", f"wing {right}"),
        ),
        words=_single_words(job, squares),
        spares=tuple(spare for each in squares for spare in each.spares),
    )


def _wing_counts(job: Job) -> dict[str, int]:
    """Count the wings by fabric, left ones first."""
    _, left, right = job.unit.fabrics
    return {left: 2 * job.make} if left == right else {left: job.make, right: job.make}


def _wings(job: Job, left: str, right: str) -> list[dict[str, Any]]:
    """Join the wings, sharp ends matched at the goose's base; they reach past its point."""
    common = {"op": "join", "times": job.make, "b_edge": pair(1, 1), "flush": False, "seam": text(job.seam)}
    first = {
        "a": "goose",
        "b": left,
        "a_edge": pair(1, -1),
        "match": "end",
        "name": "s1",
        "gives": {"id": "half"},
    }
    second = {"a": "half", "b": right, "a_edge": pair(1, 1), "match": "start", "name": "s2"}
    return [{**common, **first}, {**common, **second, "gives": {"id": UNIT, "trim": _trim(job)}}]


def _trim(job: Job) -> dict[str, Any]:
    """Trim with the two seams meeting at the point, the goose below it."""
    point = pair(job.unit.width / TWO, 0)
    return job.trim({"how": "meet", "seams": ["s1", "s2"], "toward": pair(0, 1), "at": point})


def _single_words(job: Job, squares: list[Apart]) -> tuple[Phrase, ...]:
    return (
        *(each.words for each in squares),
        Phrase(
            "Sew a small triangle to one short side of each large one, as drawn: the corners meet at the "
            "long side, and the small one reaches past the point. Press away from the large one."
        ),
        Phrase("Sew a small triangle to the other short side in the same way, and press away again."),
        _trim_words(job),
    )


def _trim_words(job: Job) -> Phrase:
    return Phrase(
        "Trim to {size}, the point {seam} below the middle of the upper edge.",
        {"size": job.unfinished, "seam": job.seam},
    )


def stitch_and_flip(job: Job) -> Draft:
    """Flip a square over two corners of a rectangle; any wings, one unit at a time."""
    goose, left, right = job.unit.fabrics
    width, height = (job.up(n) for n in job.unfinished)
    needs = [Need(ref="p1", fabric=goose, width=width, length=height, count=job.make, purpose=PURPOSE)]
    wings = _wing_counts(job)
    refs = {letter: f"p{i + 2}" for i, letter in enumerate(wings)}
    for letter, count in wings.items():
        needs.append(
            Need(ref=refs[letter], fabric=letter, width=height, length=height, count=count, purpose=PURPOSE)
        )
    exact = {"id": UNIT, "trim": job.trim({"how": "exact"})}
    operations = (
        flip(job, base="p1", top=refs[left], corner="top left", gives={"id": "half"}),
        flip(job, base="half", top=refs[right], corner="top right", gives=exact),
    )
    words = (
        *draw_words(needs[1:]),
        Phrase(
            "Lay one {piece} on the upper left corner of each {other}, right sides together, the line "
            "across the corner. Sew on the line.",
            {"piece": refs[left], "other": "p1"},
        ),
        flip_words(job),
        Phrase("Do the same with one {piece} at the upper right corner.", {"piece": refs[right]}),
    )
    return Draft(needs=tuple(needs), operations=operations, words=words)


def _fits(job: Job) -> bool:
    return job.on_step(*job.unfinished)


def four_at_a_time(job: Job) -> Draft:
    """Sew four small squares to a large one, two at first: four units without loss."""
    goose, wing, _ = job.unit.fabrics
    sets = share(job.make, 4)
    large, small = job.quarter_square(job.unit.width), job.half_square(job.unit.height)
    needs = (
        Need(ref="p1", fabric=goose, width=large, length=large, count=sets, purpose=PURPOSE),
        Need(ref="p2", fabric=wing, width=small, length=small, count=4 * sets, purpose=PURPOSE),
    )
    return Draft(
        needs=needs,
        operations=_hearts(job, sets),
        words=_four_words(job, needs[1]),
        spares=job.spare(4 * sets - job.make),
    )


def _hearts(job: Job, sets: int) -> tuple[dict[str, Any], ...]:
    halves = [{"id": "heart", "at": "top right"}, {"id": "heart", "at": "bottom left"}]
    seam = text(job.seam)
    first = {
        "top": [{"ref": "p2", "corner": "top left"}, {"ref": "p2", "corner": "bottom right"}],
        "sew": both_sides(FALLING, seam),
        "cut": [line(FALLING)],
        "seam": "s1",
        "gives": halves,
    }
    second = {
        "top": [{"ref": "p2", "corner": "top right"}],
        "sew": both_sides(RISING, seam),
        "cut": [line(RISING)],
        "seam": "s2",
        "gives": [{"id": UNIT, "at": "each", "trim": _trim(job)}],
    }
    return (
        {"op": "stack", "times": sets, "base": "p1", **first},
        {"op": "stack", "times": 2 * sets, "base": "heart", **second},
    )


def _four_words(job: Job, wings: Need) -> tuple[Phrase, ...]:
    return (
        *draw_words([wings]),
        Phrase(
            "Lay two on opposite corners of each {piece}, right sides together, so that the lines meet; they "
            "overlap in the middle. Sew {seam} from the line, on both sides of it. Cut on the line. Press "
            "the small triangles outward.",
            {"piece": "p1", "seam": job.seam},
        ),
        Phrase(
            "Lay one more on the corner that is left of each half, the line running out between the small "
            "triangles. Sew {seam} from the line, on both sides of it. Cut on it and press outward.",
            {"seam": job.seam},
        ),
        _trim_words(job),
    )


def _same_wings(job: Job) -> bool:
    return job.unit.fabrics[1] == job.unit.fabrics[2]


def _in_fours(job: Job) -> bool:
    return job.make % 4 == 0


METHODS = (
    Method(
        name="four at a time",
        kind=UnitKind.FLYING_GEESE,
        admits=_same_wings,
        prefers=_in_fours,
        draft=four_at_a_time,
    ),
    Method(name="corners flipped", kind=UnitKind.FLYING_GEESE, admits=_fits, draft=stitch_and_flip),
    Method(name="one at a time from triangles", kind=UnitKind.FLYING_GEESE, draft=single),
)
