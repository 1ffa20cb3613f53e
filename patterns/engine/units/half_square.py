"""Half-square triangles: two, eight or four at a time from squares in pairs, and one at a time.

Sizes: a square of finished + (2 + sqrt 2) seams, cut or sewn along its diagonal (derived geometry; the
trade's finished + 7/8 in rounds it up at a 1/4 in seam). Four at a time, sewn all round and cut on both
diagonals: sqrt 2 x unfinished + 2 seams.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, root
from patterns.engine.units.base import (
    HALF_SQUARE,
    UNIT,
    Draft,
    HouseStyle,
    Job,
    Method,
    Need,
    never,
    pair,
    share,
    text,
)
from patterns.engine.units.triangles import Triangles, cut_once

FALLING = ("top left", "bottom right")
RISING = ("bottom left", "top right")
PURPOSE = "half-square triangles"


def line(ends: tuple[str, str], offset: str = "0") -> dict[str, str]:
    """Write a line between two places of the base."""
    return {"from": ends[0], "to": ends[1], "offset": offset}


def both_sides(ends: tuple[str, str], seam: str) -> list[dict[str, str]]:
    """Write the two seams along a pencil line."""
    return [line(ends, seam), line(ends, f"-{seam}")]


def trim_on_diagonal(job: Job) -> dict[str, Any]:
    """Trim with the seam from top left to bottom right, the base above right of it."""
    return job.trim({"how": "slide", "seam": "s1", "at": pair(0, 0), "along": pair(1, 1)})


def two_at_a_time(job: Job) -> Draft:
    """Sew both sides of one diagonal, cut on it: two units from a pair of squares."""
    pairs = share(job.make, 2)
    size = job.half_square(job.unit.width)
    operation = stack(job, pairs, sew=both_sides(FALLING, text(job.seam)), cut=[line(FALLING)])
    words = (
        Phrase(
            "Draw one diagonal on the wrong side of {count}\N{NO-BREAK SPACE}{piece}.",
            {"count": pairs, "piece": "p2"},
        ),
        lay_words(pairs, "p1"),
        Phrase("Sew {seam} from the line, on both sides of it. Cut on the line.", {"seam": job.seam}),
        *finish_words(job),
    )
    return Draft(
        needs=squares(job, size, pairs),
        operations=(operation,),
        words=words,
        spares=job.spare(2 * pairs - job.make),
    )


def eight_at_a_time(job: Job) -> Draft:
    """Sew both sides of both diagonals, cut them and both middles: eight units from a pair of squares."""
    pairs = share(job.make, 8)
    size = (
        2 * job.half_square(job.unit.width)
        if job.style.house is HouseStyle.OVERSIZED
        else job.up(2 * exact(job))
    )
    seams = both_sides(FALLING, text(job.seam)) + both_sides(RISING, text(job.seam))
    middles = [("top middle", "bottom middle"), ("left middle", "right middle")]
    operation = stack(job, pairs, sew=seams, cut=[line(ends) for ends in (FALLING, RISING, *middles)])
    words = (
        Phrase(
            "Draw both diagonals on the wrong side of {count}\N{NO-BREAK SPACE}{piece}.",
            {"count": pairs, "piece": "p2"},
        ),
        lay_words(pairs, "p1"),
        Phrase("Sew {seam} from each line, on both sides of it.", {"seam": job.seam}),
        Phrase("Cut through both middles, then on both lines; pull out the few stitches at the tips."),
        *finish_words(job),
    )
    return Draft(
        needs=squares(job, size, pairs),
        operations=(operation,),
        words=words,
        spares=job.spare(8 * pairs - job.make),
    )


def four_at_a_time(job: Job) -> Draft:
    """Sew all round and cut on both diagonals: four units of a pair of squares, their edges on the bias."""
    pairs = share(job.make, 4)
    corners = ("top left", "top right", "bottom right", "bottom left")
    around = zip(corners, (*corners[1:], corners[0]), strict=True)
    seams = [line(ends, text(job.seam)) for ends in around]
    operation = stack(job, pairs, sew=seams, cut=[line(FALLING), line(RISING)])
    words = (
        Phrase(
            "Lay one {top} on each {piece}, right sides together, edges matched.",
            {"top": "p2", "piece": "p1"},
        ),
        Phrase("Sew {seam} inside the edges, all round. Cut on both diagonals.", {"seam": job.seam}),
        Phrase("Pull out the few stitches at the tips."),
        *finish_words(job),
    )
    warning = Phrase(
        "The outer edges of half-square triangles made four at a time are cut on the bias: starch them, and "
        "handle them gently."
    )
    return Draft(
        needs=squares(job, _all_round(job), pairs),
        operations=(operation,),
        words=words,
        spares=job.spare(4 * pairs - job.make),
        warnings=(warning,),
    )


def _all_round(job: Job) -> Fraction:
    """Give the square sewn all round: sqrt 2 x unfinished + 2 seams; oversized units are as much larger."""
    over = job.style.half_square_over if job.style.house is HouseStyle.OVERSIZED else Fraction(0)
    return job.up(root(2) * (job.unfinished[0] + over) + 2 * job.seam)


def one_at_a_time(job: Job) -> Draft:
    """Cut squares once diagonally and sew two triangles along their long sides."""
    below, above = job.unit.fabrics
    counts = {below: 2 * job.make} if below == above else {below: job.make, above: job.make}
    size = job.half_square(job.unit.width)
    halves = [
        cut_once(
            Triangles(name=f"half {letter}", fabric=letter, number=number, purpose=PURPOSE),
            ref=f"square {letter}",
            size=size,
        )
        for letter, number in counts.items()
    ]
    join = {
        "op": "join",
        "times": job.make,
        "a": f"half {above}",
        "b": f"half {below}",
        "a_edge": pair(1, 1),
        "b_edge": pair(1, 1),
        "match": "start",
        "seam": text(job.seam),
        "name": "s1",
        "gives": {"id": UNIT, "trim": trim_on_diagonal(job)},
    }
    words = (
        *(each.words for each in halves),
        Phrase("The long sides are on the bias: sew without pulling, and press up and down."),
        Phrase("Sew two triangles together along their long sides, the ends matched."),
        *finish_words(job),
    )
    return Draft(
        needs=tuple(each.need for each in halves),
        operations=(*(each.operation for each in halves), join),
        words=words,
        spares=tuple(spare for each in halves for spare in each.spares),
    )


def lay_words(pairs: int, base: str) -> Phrase:
    """Say that marked squares are laid on others."""
    words = (
        "Lay it on one {piece}, right sides together."
        if pairs == 1
        else "Lay each on one {piece}, right sides together."
    )
    return Phrase(words, {"piece": base})


def exact(job: Job) -> Number:
    """Give the exact size of a square for half-squares in pairs."""
    return job.unit.width + HALF_SQUARE * job.seam


def squares(job: Job, size: Fraction, pairs: int) -> tuple[Need, Need]:
    """Ask for the two squares: the base above right of the seam, the top below left."""
    below, above = job.unit.fabrics
    return (
        Need(ref="p1", fabric=above, width=size, length=size, count=pairs, purpose=PURPOSE),
        Need(ref="p2", fabric=below, width=size, length=size, count=pairs, purpose=PURPOSE),
    )


def stack(job: Job, times: int, *, sew: list[dict[str, str]], cut: list[dict[str, str]]) -> dict[str, Any]:
    """Write the stack: one square on the other, sewn and cut, every part a unit."""
    return {
        "op": "stack",
        "times": times,
        "base": "p1",
        "top": [{"ref": "p2", "corner": "every"}],
        "sew": sew,
        "cut": cut,
        "seam": "s1",
        "gives": [{"id": UNIT, "at": "each", "trim": trim_on_diagonal(job)}],
    }


def finish_words(job: Job) -> tuple[Phrase, ...]:
    """Say how to press and trim."""
    return (
        Phrase("Press toward fabric {fabric}.", {"fabric": job.style.darker(job.unit.fabrics)}),
        Phrase("Trim to {size}, the seam running into two opposite corners.", {"size": job.unfinished}),
    )


METHODS = (
    Method(name="two at a time", kind=UnitKind.HALF_SQUARE, draft=two_at_a_time),
    Method(name="eight at a time", kind=UnitKind.HALF_SQUARE, draft=eight_at_a_time),
    Method(name="four at a time", kind=UnitKind.HALF_SQUARE, prefers=never, draft=four_at_a_time),
    Method(
        name="one at a time from triangles", kind=UnitKind.HALF_SQUARE, prefers=never, draft=one_at_a_time
    ),
)
