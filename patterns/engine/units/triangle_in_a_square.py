"""A triangle in a square, or in a rectangle: a large triangle and two side triangles that are mirror images.

The large triangle is cut from a rectangle of just its own proportion, so that its sides have the right slope
however much larger it is: finished base w, height h and slanting side c grow by s (w + 2c) / h and
s (w + 2c) / w (derived geometry). The side triangles are halves of oversized rectangles, cut along one
diagonal for the left side and along the other for the right; all is trimmed.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import ceiling, root
from patterns.engine.units import joined_templates
from patterns.engine.units.base import TWO, UNIT, Draft, HouseStyle, Job, Method, Need, pair, text
from patterns.engine.units.half_rectangle import PLAY, exact_size
from patterns.engine.units.triangles import Apart, Size, Triangles, cut_rectangles

PURPOSE = "triangles in a square"
MOST_OVER = Fraction(1)  # inches that the large triangle's rectangle may be wider than exact
ALONG = ("rising diagonal", "falling diagonal")  # of the left and of the right side


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """What is cut: the rectangle of the large triangle, and that of the sides, which stands upright."""

    large: Size
    side: Size
    upright: bool  # whether a side triangle is higher than wide

    @property
    def facing(self) -> tuple[list[str], list[str]]:
        """Give which way the long edge of the left and of the right side triangle faces as it lies cut."""
        wide, long = self.side
        rising, falling = pair(wide, -long), pair(wide, long)
        return (rising, falling) if self.upright else (falling, rising)

    @property
    def along(self) -> tuple[str, str]:
        """Give the diagonals the rectangles of the left and of the right side are cut along."""
        return ALONG if self.upright else (ALONG[1], ALONG[0])


def from_oversized_triangles(job: Job) -> Draft:
    """Cut the large triangle to a point, the sides oversized; match at the point, and trim."""
    sizes = _sizes(job)
    need, cut = _large(job, sizes.large)
    sides = [_side(job, place, sizes) for place in (0, 1)]
    return Draft(
        needs=(need, *(side.need for side in sides)),
        operations=(cut, *(side.operation for side in sides), *_joins(job, sizes)),
        words=_words(job, need, sides),
        spares=tuple(spare for side in sides for spare in side.spares),
    )


def with_templates(job: Job) -> Draft:
    """Cut all three with templates."""
    width, height = job.unit.width, job.unit.height
    point, nil = (width / TWO, Fraction(0)), Fraction(0)
    return joined_templates.joined(job, [((nil, height), point), (point, (width, height))], purpose=PURPOSE)


def large_rectangle(job: Job) -> Size:
    """Give the rectangle of the large triangle: exactly base to height, on the cutting step, large enough."""
    width, height = _rational(job)
    slant = root(width * width / 4 + height * height)
    exact = width + job.seam * (width + 2 * slant) / height
    over = job.style.quarter_square_over if job.style.house is HouseStyle.OVERSIZED else Fraction(0)
    ratio = width / height
    wide = ceiling(exact + over, ratio.numerator * job.style.step)
    return wide, wide / ratio


def _rational(job: Job) -> Size:
    width, height = job.unit.width, job.unit.height
    if not (isinstance(width, Fraction) and isinstance(height, Fraction)):
        raise TypeError(f"no triangle in {width} x {height} is cut with a ruler")
    return width, height


def _sizes(job: Job) -> Sizes:
    width, height = _rational(job)
    return Sizes(large=large_rectangle(job), side=_side_rectangle(job), upright=width / 2 < height)


def _side_rectangle(job: Job) -> Size:
    """Give the rectangle of the sides: oversized, and so that its upper edge rises away from the point."""
    width, height = _rational(job)
    across, down = sorted((width / 2, height))
    exact = exact_size((across, down), job.seam)
    wide = ceiling(exact[0] + job.style.quarter_square_over, job.style.step) + job.nudge * job.style.step
    long = wide * down / across
    return wide, ceiling(long, job.style.step) if width / 2 < height else -ceiling(-long, job.style.step)


def _large(job: Job, size: Size) -> tuple[Need, dict[str, Any]]:
    need = Need(
        ref="large",
        fabric=job.unit.fabrics[0],
        width=size[0],
        length=size[1],
        count=job.make,
        then="cut to a point",
        purpose=PURPOSE,
    )
    return need, {"op": "cut", "of": "large", "times": job.make, "along": "to a point", "gives": "point"}


def _side(job: Job, place: int, sizes: Sizes) -> Apart:
    name = ("left", "right")[place]
    wanted = Triangles(
        name=f"{name} side", fabric=job.unit.fabrics[1 + place], number=job.make, purpose=PURPOSE
    )
    return cut_rectangles(wanted, ref=f"{name} rectangle", size=sizes.side, along=sizes.along[place])


def _joins(job: Job, sizes: Sizes) -> list[dict[str, Any]]:
    """Join the sides, matched where the seams meet at the point."""
    wide, high = sizes.large
    common = {
        "op": "join",
        "times": job.make,
        "flush": False,
        "b_dot": text(job.seam + job.style.step),
        "seam": text(job.seam),
    }
    left = {
        "a": "point",
        "b": "left side",
        "a_edge": pair(-2 * high, -wide),
        "b_edge": sizes.facing[0],
        "match": "start dot",
        "name": "s1",
        "gives": {"id": "half"},
    }
    align = {
        "how": "meet",
        "seams": ["s1", "s2"],
        "toward": pair(0, 1),
        "at": pair(job.unit.width / TWO, 0),
    }
    right = {
        "a": "half",
        "b": "right side",
        "a_edge": pair(2 * high, -wide),
        "b_edge": sizes.facing[1],
        "match": ["dot on s1", "end dot"],
        "play": text(PLAY),
        "name": "s2",
        "gives": {"id": UNIT, "trim": job.trim(align)},
    }
    return [{**common, **left}, {**common, **right}]


def _words(job: Job, large: Need, sides: list[Apart]) -> tuple[Phrase, ...]:
    return (
        Phrase(
            "Mark the middle of one edge of {edge} on {count}\N{NO-BREAK SPACE}{piece}, and cut from there "
            "to both ends of the opposite edge.",
            {"count": large.count, "piece": large.ref, "edge": large.width},
        ),
        *(side.words for side in sides),
        Phrase(
            "On the wrong side make a dot at the point of every large triangle, {seam} from both edges. On "
            "the corner of every side triangle that goes there, make it {seam} from the long edge and "
            "{beyond} from the other.",
            {"seam": job.seam, "beyond": job.seam + job.style.step},
        ),
        Phrase(
            "Sew one {piece} triangle to the left side of each large one, dot on dot at the point. Press "
            "toward the side triangle.",
            {"piece": sides[0].need.ref},
        ),
        Phrase(
            "Sew one {piece} triangle to the right side, its dot on the first seam at the point. Press "
            "toward the side triangle.",
            {"piece": sides[1].need.ref},
        ),
        Phrase(
            "Trim to {size}, the point {seam} below the middle of the upper edge.",
            {"size": job.unfinished, "seam": job.seam},
        ),
    )


def _fits(job: Job) -> bool:
    """Admit the ruler for points of 67 degrees at most, where a rectangle of their proportion is near."""
    width, height = job.unit.width, job.unit.height
    if not (isinstance(width, Fraction) and isinstance(height, Fraction)) or 3 * width > 4 * height:
        return False
    exact = width + job.seam * (width + 2 * root(width * width / 4 + height * height)) / height
    return bool(large_rectangle(job)[0] - exact <= MOST_OVER)


METHODS = (
    Method(
        name="from oversized triangles",
        kind=UnitKind.TRIANGLE_IN_A_SQUARE,
        admits=_fits,
        draft=from_oversized_triangles,
    ),
    Method(name=joined_templates.NAME, kind=UnitKind.TRIANGLE_IN_A_SQUARE, draft=with_templates),
)
