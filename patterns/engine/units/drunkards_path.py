"""A drunkard's path: a quarter circle and the rest of its square, cut with templates, joined by a curve."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patterns.engine.parts import Point, UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.units import joined_templates
from patterns.engine.units.base import Draft, Job, Method

PURPOSE = "drunkard's paths"


def with_templates(job: Job) -> Draft:
    """Cut both with templates, and sew one curved seam: the arc from the upper edge to the left one."""
    draft = joined_templates.joined(job, [_arc(job)], purpose=PURPOSE, kind="curved")
    circle, rest = draft.needs
    facts = {"circle": circle.ref, "rest": rest.ref}
    words = (
        Phrase(
            "Fold each {circle} and each {rest} in half, corner on corner, and crease the middle of the "
            "curve. Fold once more and crease the quarters.",
            facts,
        ),
        Phrase("Clip the curve of {rest} here and there, half as deep as the seam.", facts),
        Phrase(
            "Lay {rest} on {circle}, right sides together, the hollow curve on top. Pin the ends, the middle "
            "and the quarters, and ease the cloth between.",
            facts,
        ),
        Phrase(
            "Sew the curve slowly, {seam} from the edge, with the hollow side up. Press toward {rest}.",
            {**facts, "seam": job.seam},
        ),
        Phrase("It then measures {size}.", {"size": job.unfinished}),
    )
    return replace(draft, words=words)


def _arc(job: Job) -> tuple[Point, ...]:
    """Give the points of the arc, its ends too: all corners of the quarter circle but its centre."""
    circle = job.unit.patches[0].points
    centre = circle.index((Fraction(0), Fraction(0)))
    return (*circle[centre + 1 :], *circle[:centre])


def _is_wide(job: Job) -> bool:
    """Admit a hollow curve whose cut edge is still a curve, and a rest that has seams at its ends."""
    radius = max(x for x, _ in job.unit.patches[0].points)
    return radius >= 4 * job.seam and job.unit.width - radius >= 2 * job.seam


METHODS = (
    Method(name=joined_templates.NAME, kind=UnitKind.DRUNKARDS_PATH, draft=with_templates, admits=_is_wide),
)
