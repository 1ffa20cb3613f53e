"""What is true of an assembly as a whole: its order, and how many of each part it takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from patterns.engine.parts import Assembly, Fitted, Order, Part, Placed, SeamKind, Unit, UnitKind

_SHAPED = {
    UnitKind.TEMPLATE,
    UnitKind.KITE,
    UnitKind.HEXAGON,
    UnitKind.DIAMOND,
    UnitKind.DRUNKARDS_PATH,
}


def joined(parts: Sequence[Part], whole: Placed) -> Assembly:
    """Make the assembly of parts, the whole last; its order is the strongest that occurs in them."""
    kept = tuple(parts)
    return Assembly(order=_strongest(kept), parts=kept, make=_counted(kept), whole=whole)


def _strongest(parts: Sequence[Part]) -> Order:
    """Give the most careful order that occurs in some parts."""
    seams = {seam.kind for part in parts if isinstance(part, Fitted) for seam in part.seams}
    kinds = {part.kind for part in parts if isinstance(part, Unit)}
    if SeamKind.SET_IN in seams:
        return Order.SET_IN_SEAM
    if SeamKind.PARTIAL in seams:
        return Order.PARTIAL_SEAM
    if UnitKind.FOUNDATION in kinds:
        return Order.FOUNDATION
    return Order.TEMPLATE if kinds & _SHAPED else Order.STRAIGHT


def _counted(parts: Sequence[Part]) -> dict[str, int]:
    """Count how many of each part the last one needs; parts that others need stand first."""
    make = Counter({parts[-1].id: 1})
    for part in reversed(parts):
        if not isinstance(part, Unit):
            for placed in part.placed:
                make[placed.part] += make[part.id]
    return {part.id: make[part.id] for part in parts}
