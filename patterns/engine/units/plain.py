"""Squares and rectangles: one cut piece each, finished + 2 seams."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, ceiling
from patterns.engine.units.base import TWO, UNIT, Draft, Job, Method, Need, on_step, text

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
    """Ask for rectangles of a finished size; off the cutting step, to the nearest mark and eased."""
    sizes = (width + 2 * job.seam, height + 2 * job.seam)
    cut = [nearest(size, job.style.step) for size in sizes]
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
    read = [size if isinstance(size, Fraction) else nearest(size, CLOSE) for size in sizes]
    warning = Phrase(
        "Some pieces are cut {cut}, within 1/64 in of their exact size, which is not on the cutting step: "
        "ease them as you sew.",
        {"cut": (cut[0], cut[1])},
    )
    told = (warning,) if read != cut else ()  # a root so near its mark reads the same
    return Plain(need=need, ref=eased, operations=(operation,), warnings=told)


def nearest(length: Number, step: Fraction) -> Fraction:
    """Round a length to the nearest step, half of one or a quarter of one: the coarsest that is close enough.

    Pieces rounded up alone would add up along a row; charts round such sizes to the nearest mark too
    (common practice).

    >>> nearest(Fraction(5, 2) - Fraction(1, 5), Fraction(1, 8))
    Fraction(37, 16)
    """
    for finer in (1, 2, 4):
        mark = step / finer
        above = ceiling(length, mark)
        found = above if above - length <= mark / TWO else above - mark
        if -CLOSE <= found - length <= CLOSE:
            break
    return found


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
