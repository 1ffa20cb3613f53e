"""Which parts of a sewing order are pieced best on a foundation: slim points, added by straight seams.

All points are finished inches.  A section is convex, every patch after the first is added along one
straight line with all earlier ones on its other side, and at least one of its corners is sharp: such
patches are hard to cut and sew true, and on a foundation the printed line is the seam (common practice).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from patterns.engine import geometry
from patterns.engine.foundation_order import adding_order
from patterns.engine.laying import patches_of
from patterns.engine.orders import joined
from patterns.engine.parts import (
    Assembly,
    Fitted,
    Hand,
    Part,
    Point,
    SeamKind,
    Unit,
    UnitKind,
)
from patterns.engine.surds import sign

LEAST_PATCHES = 3
MOST_PATCHES = 24  # more do not go on one page, and come out stiff
SHARP = Fraction(3, 4)  # a corner is sharp when its cosine squared is above this: under 30 degrees


def with_foundations(assembly: Assembly) -> Assembly:
    """Replace every part that is best pieced on a foundation by a unit of that kind, the largest first."""
    parts = {part.id: part for part in assembly.parts}
    sections = {
        part.id: section
        for part in assembly.parts
        if isinstance(part, Fitted) and (section := _section(part, parts))
    }
    if not sections:
        return assembly
    return joined(_kept(assembly, sections), assembly.whole)


def _kept(assembly: Assembly, sections: Mapping[str, Unit]) -> tuple[Part, ...]:
    """Give the parts that are still needed once the outermost sections are units."""
    needed = {assembly.whole.part}
    kept: list[Part] = []
    for part in reversed(assembly.parts):
        if part.id in needed:
            new = sections.get(part.id, part)
            kept.append(new)
            if not isinstance(new, Unit):
                needed |= {placed.part for placed in new.placed}
    return tuple(reversed(kept))


def _section(part: Fitted, parts: Mapping[str, Part]) -> Unit | None:
    patches = tuple(patches_of(part, parts))
    if not LEAST_PATCHES <= len(patches) <= MOST_PATCHES or not _all_straight(part, parts):
        return None
    if not _is_convex(part.outline) or not any(_has_sharp_corner(patch.points) for patch in patches):
        return None
    order = adding_order(patches)
    if order is None:
        return None
    return Unit(
        id=part.id,
        kind=UnitKind.FOUNDATION,
        width=part.width,
        height=part.height,
        fabrics=tuple(patch.fabric for patch in order),
        hand=Hand.EITHER,
        patches=order,
        outline=() if _is_rectangle(part) else part.outline,
    )


def _all_straight(part: Part, parts: Mapping[str, Part]) -> bool:
    """Say whether all seams below are straight, and no unit is more than one patch."""
    if isinstance(part, Unit):
        return len(part.patches) == 1 and part.kind is not UnitKind.FINISHED_BLOCK
    bent = isinstance(part, Fitted) and any(seam.kind is not SeamKind.STRAIGHT for seam in part.seams)
    return not bent and all(_all_straight(parts[placed.part], parts) for placed in part.placed)


def _is_rectangle(part: Fitted) -> bool:
    """Say whether a part fills its box, and so goes into rows like any rectangle."""
    return geometry.area(part.outline) == part.width * part.height


def _is_convex(outline: Sequence[Point]) -> bool:
    corners = geometry.tidied(outline)
    return all(geometry.side(corners[i], corners[i - 2], corners[i - 1]) > 0 for i in range(len(corners)))


def _has_sharp_corner(points: Sequence[Point]) -> bool:
    """Compare squares, so that no root is needed: cos^2 = (a . b)^2 / (a^2 b^2)."""
    corners = geometry.tidied(points)
    for i, corner in enumerate(corners):
        one = geometry.minus(corners[i - 1], corner)
        other = geometry.minus(corners[(i + 1) % len(corners)], corner)
        lengths = geometry.dot(one, one) * geometry.dot(other, other)
        along = geometry.dot(one, other)
        if sign(along) > 0 and sign(along * along - SHARP * lengths) > 0:
            return True
    return False
