"""Where the patches of larger parts come to lie: every part taken apart into its patches and units."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from patterns.engine.geometry import NO_TURN, quarter_turned, turned
from patterns.engine.parts import Assembly, Part, Patch, Placed, Point, Unit


@dataclass(frozen=True, slots=True)
class Lying:
    """A unit where it lies, with its patches' corners in the frame of the part that was asked for."""

    unit: str
    patches: tuple[Patch, ...]


def units_of(part: Part, parts: Mapping[str, Part]) -> list[Lying]:
    """Give the units of a part, in its frame; finished inches."""
    if isinstance(part, Unit):
        return [Lying(part.id, part.patches)]
    return [
        Lying(lying.unit, tuple(laid(patch, placed, parts) for patch in lying.patches))
        for placed in part.placed
        for lying in units_of(parts[placed.part], parts)
    ]


def patches_of(part: Part, parts: Mapping[str, Part]) -> Iterator[Patch]:
    """Give the patches of a part, in its frame."""
    return (patch for lying in units_of(part, parts) for patch in lying.patches)


def laid(patch: Patch, placed: Placed, parts: Mapping[str, Part]) -> Patch:
    """Move a patch from its part's frame to where the part is laid."""
    part = parts[placed.part]
    return Patch(patch.fabric, moved(patch.points, placed, size=(part.width, part.height)))


def moved(points: tuple[Point, ...], placed: Placed, *, size: Point) -> tuple[Point, ...]:
    """Move corners from the frame of a part of a finished size to where it is laid."""
    corners = quarter_turned(points, placed.turn, size=size)
    if placed.turned_by != NO_TURN:
        corners = turned(corners, placed.turned_by)
    x, y = placed.at
    return tuple((x + px, y + py) for px, py in corners)


def units_in_whole(assembly: Assembly) -> list[Lying]:
    """Give every unit of the whole where the drawing has it."""
    parts = {part.id: part for part in assembly.parts}
    return [
        Lying(lying.unit, tuple(laid(patch, assembly.whole, parts) for patch in lying.patches))
        for lying in units_of(assembly.parts[-1], parts)
    ]
