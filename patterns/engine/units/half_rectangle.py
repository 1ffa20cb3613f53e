"""Half-rectangle triangles: rectangles cut once diagonally, all the same way, joined dot to dot and trimmed.

A finished triangle with legs a and b and long side c grows by 1 + s / r on every side, r = ab / (a + b + c)
the radius of the circle in it: rectangles of a + s (a + b + c) / b by b + s (a + b + c) / a (derived
geometry). Rounded up side by side they lose their proportion, and a corner may fall short of the trim:
sizes are tried upward until one goes together. Left and right units are cut along different diagonals.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from patterns.engine.parts import Hand, UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, ceiling, root
from patterns.engine.units import joined_templates
from patterns.engine.units.base import UNIT, Draft, Job, Method, Style, pair, text
from patterns.engine.units.triangles import Apart, Size, Triangles, cut_rectangles

PURPOSE = "half-rectangle triangles"
PLAY = Fraction(1, 32)  # inches; by how much a dot may be off
STEPS = 4  # cutting steps tried on either side
DOTS = Phrase(
    "Make a dot on the wrong side of every triangle, at both ends of its long side, where lines {seam} "
    "inside its edges cross."
)


def exact_size(legs: tuple[Fraction, Fraction], seam: Fraction) -> tuple[Number, Number]:
    """Give the exact rectangle for two right triangles with finished legs, seams in."""
    across, down = legs
    around = across + down + root(across * across + down * down)
    return across + seam * around / down, down + seam * around / across


def rectangle_for(legs: tuple[Fraction, Fraction], style: Style, *, nudge: int, over: Fraction) -> Size:
    """Give the upright rectangle as cut, `over` wider than exact and longer in proportion.

    `legs` are finished, the shorter first; `nudge` counts upward through the sizes on the cutting step,
    by the fabric they take.
    """
    exact = exact_size(legs, style.seam)
    wide = ceiling(exact[0] + over, style.step)
    long = ceiling(exact[1] + over * legs[1] / legs[0], style.step)
    sizes = [(wide + i * style.step, long + j * style.step) for i in range(STEPS) for j in range(STEPS)]
    standing = sorted((size for size in sizes if size[0] <= size[1]), key=lambda size: size[0] * size[1])
    return standing[min(nudge, len(standing) - 1)]


def from_triangles(job: Job) -> Draft:
    """Cut rectangles as small as virtual sewing passes."""
    return _draft(job, over=Fraction(0))


def from_oversized_triangles(job: Job) -> Draft:
    """Cut rectangles larger, by as much as the squares of quarter-square triangles."""
    return _draft(job, over=job.style.quarter_square_over)


def with_templates(job: Job) -> Draft:
    """Cut both with templates: for any size, and for a print that must not be wasted."""
    width, height, nil = job.unit.width, job.unit.height, Fraction(0)
    leans_right = job.unit.hand is Hand.RIGHT
    seam = ((nil, height), (width, nil)) if leans_right else ((nil, nil), (width, height))
    return joined_templates.joined(job, [seam], purpose=PURPOSE)


def _draft(job: Job, *, over: Fraction) -> Draft:
    size = rectangle_for(_legs(job), job.style, nudge=job.nudge, over=over)
    first, second = job.unit.fabrics
    counts = {first: 2 * job.make} if first == second else {first: job.make, second: job.make}
    along = "rising diagonal" if job.unit.hand is Hand.RIGHT else "falling diagonal"
    triangles = [
        cut_rectangles(
            Triangles(name=f"half {letter}", fabric=letter, number=number, purpose=PURPOSE),
            ref=f"rectangle {letter}",
            size=size,
            along=along,
        )
        for letter, number in counts.items()
    ]
    return Draft(
        needs=tuple(each.need for each in triangles),
        operations=(*(each.operation for each in triangles), _join(job, size)),
        words=_words(job, triangles),
        spares=tuple(spare for each in triangles for spare in each.spares),
    )


def _legs(job: Job) -> tuple[Fraction, Fraction]:
    width, height = job.unit.width, job.unit.height
    if not (isinstance(width, Fraction) and isinstance(height, Fraction)):
        raise TypeError(f"no half-rectangle of {width} x {height} is cut with a ruler")
    return width, height


def _join(job: Job, size: Size) -> dict[str, Any]:
    """Join the long sides, dot on dot; `a` lies on the left of the seam as it runs in the trim."""
    wide, long = size
    left, right = job.unit.fabrics
    leans_right = job.unit.hand is Hand.RIGHT
    facing = pair(wide, -long) if leans_right else pair(wide, long)
    first, second = (left, right) if leans_right else (right, left)
    start, along = (
        ((0, job.unit.height), (job.unit.width, -job.unit.height))
        if leans_right
        else (
            (0, 0),
            (job.unit.width, job.unit.height),
        )
    )
    align = {"how": "slide", "seam": "s1", "at": pair(*start), "along": pair(*along)}
    return {
        "op": "join",
        "times": job.make,
        "a": f"half {first}",
        "b": f"half {second}",
        "a_edge": facing,
        "b_edge": facing,
        "match": "start dot",
        "play": text(PLAY),
        "seam": text(job.seam),
        "name": "s1",
        "gives": {"id": UNIT, "trim": job.trim(align)},
    }


def _words(job: Job, triangles: list[Apart]) -> tuple[Phrase, ...]:
    return (
        *(each.words for each in triangles),
        Phrase("The edges cut on the diagonal stretch: handle them gently and press up and down."),
        Phrase(DOTS.text, {"seam": job.seam}),
        Phrase(
            "Lay two triangles right sides together along their long sides, dot on dot, and sew. The sharp "
            "ends reach past. Press toward fabric {fabric}.",
            {"fabric": job.style.darker(job.unit.fabrics)},
        ),
        Phrase(
            "Trim to {size}, with the seam at {seam} from both edges of two opposite corners.",
            {"size": job.unfinished, "seam": job.seam},
        ),
    )


def _rational(job: Job) -> bool:
    return isinstance(job.unit.width, Fraction) and isinstance(job.unit.height, Fraction)


METHODS = (
    Method(
        name="from oversized triangles",
        kind=UnitKind.HALF_RECTANGLE,
        admits=_rational,
        draft=from_oversized_triangles,
        tries=STEPS * STEPS,
    ),
    Method(
        name="from triangles",
        kind=UnitKind.HALF_RECTANGLE,
        admits=_rational,
        draft=from_triangles,
        tries=STEPS * STEPS,
    ),
    Method(name=joined_templates.NAME, kind=UnitKind.HALF_RECTANGLE, draft=with_templates),
)
