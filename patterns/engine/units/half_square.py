"""Half-square triangles: two at a time from squares in pairs, and eight at a time.

Sizes: a square of finished + (2 + sqrt 2) seams, cut or sewn along its diagonal (derived geometry; the
trade's finished + 7/8 in rounds it up at a 1/4 in seam).
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number
from patterns.engine.units.base import (
    HALF_SQUARE,
    UNIT,
    Draft,
    HouseStyle,
    Job,
    Method,
    Need,
    pair,
    share,
    text,
)

FALLING = ("top left", "bottom right")
RISING = ("bottom left", "top right")


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
    purpose = "half-square triangles"
    return (
        Need(ref="p1", fabric=above, width=size, length=size, count=pairs, purpose=purpose),
        Need(ref="p2", fabric=below, width=size, length=size, count=pairs, purpose=purpose),
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
)
