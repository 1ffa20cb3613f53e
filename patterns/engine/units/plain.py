"""Squares and rectangles: one cut piece each, finished + 2 seams."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, ceiling
from patterns.engine.units.base import UNIT, Draft, Job, Method, Need, on_step, text

PURPOSES = {  # of what joins blocks to a quilt, by its name
    "side border": "side borders",
    "end border": "top and bottom borders",
    "side coping strip": "coping strips",
    "end coping strip": "coping strips",
    "corner square": "corner squares",
    "border patch": "borders",
    "spacer": "spacer strips",
    "sashing": "sashing",
    "cornerstone": "cornerstones",
    "setting square": "setting squares",
}
CLOSE = Fraction(1, 64)  # inches; a row of eight such pieces is still within 1/8 in


@dataclass(frozen=True, slots=True, kw_only=True)
class Plain:
    """A cut rectangle: what to cut, the name to sew it by, and what must be said when it is eased."""

    need: Need
    ref: str
    operations: tuple[dict[str, Any], ...] = ()
    warnings: tuple[Phrase, ...] = ()


def rectangle(
    job: Job, fabric: str, *, width: Number, height: Number, count: int, purpose: str = ""
) -> Plain:
    """Ask for rectangles of a finished size; off the cutting step, up to the next fine mark and eased."""
    sizes = (width + 2 * job.seam, height + 2 * job.seam)
    cut = [up_to_mark(size, job.style.step) for size in sizes]
    ref = f"{fabric} {text(width)} x {text(height)}"
    need = Need(ref=ref, fabric=fabric, width=cut[0], length=cut[1], count=count, purpose=purpose)
    if all(on_step(size, job.style.step) for size in sizes):
        return Plain(need=need, ref=ref)
    eased = f"{ref} eased"
    operation = {
        "op": "ease",
        "of": ref,
        "times": count,
        "width": text(width),
        "height": text(height),
        "gives": eased,
    }
    read = [size if isinstance(size, Fraction) else ceiling(size, CLOSE) for size in sizes]
    warning = Phrase(
        "Some pieces are cut {cut}, a hair more than their exact size, which is not on the cutting step: "
        "ease them in as you sew.",
        {"cut": (cut[0], cut[1])},
    )
    seen = read == cut and all(on_step(mark, job.style.step / 2) for mark in cut)  # a root so near its mark
    return Plain(need=need, ref=eased, operations=(operation,), warnings=() if seen else (warning,))


def up_to_mark(length: Number, step: Fraction) -> Fraction:
    """Round a length up to a step, a half, a quarter or an eighth of one: the coarsest that is close enough.

    >>> up_to_mark(Fraction(5, 2) - Fraction(1, 5), Fraction(1, 8))
    Fraction(37, 16)
    """
    marks = (ceiling(length, step / finer) for finer in (1, 2, 4))
    return next((mark for mark in marks if mark - length <= CLOSE), ceiling(length, step / 8))


def cut_one(job: Job) -> Draft:
    """Cut the piece: nothing is sewn."""
    purpose = PURPOSES.get(job.unit.name, f"plain {job.unit.kind.value}s")
    size = {"width": job.unit.width, "height": job.unit.height}
    plain = rectangle(job, job.unit.fabrics[0], **size, count=job.make, purpose=purpose)
    need, operations = plain.need, plain.operations
    if not operations:
        return Draft(
            needs=(
                Need(
                    ref=UNIT,
                    fabric=need.fabric,
                    width=need.width,
                    length=need.length,
                    count=need.count,
                    purpose=purpose,
                ),
            ),
            operations=(),
        )
    return Draft(needs=(need,), operations=({**operations[0], "gives": UNIT},), warnings=plain.warnings)


METHODS = (
    Method(name="cut to size", kind=UnitKind.SQUARE, draft=cut_one),
    Method(name="cut to size", kind=UnitKind.RECTANGLE, draft=cut_one),
)
