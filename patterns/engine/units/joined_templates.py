"""Units cut with templates, patch by patch, and joined by straight seams: exact at any size."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from patterns.engine.steps import Phrase
from patterns.engine.templates import box_of, template
from patterns.engine.units.base import UNIT, Draft, Job, Need, pair, text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from patterns.engine.parts import Patch, Point

NAME = "with templates"
NIL = Fraction(0)
UNTURNED = (Fraction(1), NIL)


def joined(job: Job, seams: Sequence[Sequence[Point]], *, purpose: str, kind: str = "straight") -> Draft:
    """Cut every patch with a template and join them in order, each by one seam, a path of finished points."""
    cut = [_cut(job, patch, i, purpose=purpose) for i, patch in enumerate(job.unit.patches)]
    needs = tuple(need for need, _ in cut)
    fit = {
        "op": "fit",
        "times": job.make,
        "parts": [
            [f"patch {i}", 0, pair(*box_of(patch.points)[0]), pair(*UNTURNED)]
            for i, patch in enumerate(job.unit.patches)
        ],
        "seams": [
            {"part": i, "path": [pair(*point) for point in path], "kind": kind}
            for i, path in enumerate(seams, 1)
        ],
        "outline": [pair(*corner) for corner in _rectangle(job)],
        "seam": text(job.seam),
        "gives": UNIT,
    }
    return Draft(needs=needs, operations=(*(row for _, row in cut), fit), words=_words(job, needs))


def _cut(job: Job, patch: Patch, number: int, *, purpose: str) -> tuple[Need, dict[str, Any]]:
    left, top = box_of(patch.points)[0]
    outline = tuple((x - left, y - top) for x, y in patch.points)
    laid = template(outline, seam=job.seam, step=job.style.step)
    need = Need(
        ref=f"template {number}",
        fabric=patch.fabric,
        width=laid.width,
        length=laid.length,
        count=job.make,
        purpose=purpose,
        outline=laid.outline,
    )
    operation = {
        "op": "template",
        "of": need.ref,
        "times": job.make,
        "outline": [pair(*corner) for corner in outline],
        "turned_by": pair(*laid.turned_by),
        "gives": f"patch {number}",
    }
    return need, operation


def _rectangle(job: Job) -> tuple[Point, ...]:
    width, height = job.unit.width, job.unit.height
    return ((NIL, NIL), (width, NIL), (width, height), (NIL, height))


def _words(job: Job, needs: Sequence[Need]) -> tuple[Phrase, ...]:
    first, *others = needs
    dots = Phrase(
        "Mark a dot on the wrong side at every corner of the patches, {seam} from both edges, and pin dot on "
        "dot.",
        {"seam": job.seam},
    )
    sewn = [
        Phrase(
            "Sew one {piece} to each {other}, as drawn. Press toward it.",
            {"piece": n.ref, "other": first.ref},
        )
        for n in others
    ]
    return (dots, *sewn, Phrase("It then measures {size}.", {"size": job.unfinished}))
