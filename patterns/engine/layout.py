"""Laying units into a quilt top, and a whole assembly out as one picture.  Finished inches."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain

from patterns.engine import geometry
from patterns.engine.assembly import count_parts
from patterns.engine.blocks import Block, exact_points
from patterns.engine.parts import Assembly, Hand, Order, Part, Patch, Placed, Point, Unit, UnitKind

ORIGIN: Point = (geometry.exact(0), geometry.exact(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedDrawing:
    """A block for a place of the quilt: in finished inches and the quilt's letters, then turned clockwise."""

    block: Block
    turn: int = 0  # quarter turns

    @property
    def size(self) -> Point:
        """Give width and height as it lies."""
        size = (self.block.width, self.block.height)
        return size if self.turn % 2 == 0 else (size[1], size[0])


@dataclass(slots=True)
class Leaves:
    """Collects the units a top is joined from, each once."""

    units: dict[Unit, str] = field(default_factory=dict)  # a unit without its id -> its id
    parts: list[Part] = field(default_factory=list)
    numbers: Counter[str] = field(default_factory=Counter)

    def strip(self, fabric: str, size: Point, *, at: Point, name: str) -> Placed:
        """Place a plain rectangle; it is kept with its long side across."""
        long, short = max(size), min(size)
        kind = UnitKind.SQUARE if long == short else UnitKind.RECTANGLE
        unit = plain_unit(kind, fabric, points=rectangle((long, short)), name=name)
        return Placed(part=self.add(unit, name.replace(" ", "-")), at=at, turn=int(size[0] < size[1]))

    def block(self, drawing: PlacedDrawing, *, at: Point) -> Placed:
        """Place a finished block; one that is a single patch is a plain square or rectangle."""
        block = drawing.block
        if len(block.patches) == 1:
            return self.strip(block.patches[0].fabric, drawing.size, at=at, name="setting square")
        return Placed(part=self.add(finished_block(block), "block"), at=at, turn=drawing.turn)

    def add(self, unit: Unit, slug: str) -> str:
        """Keep a unit once, and give its id."""
        if unit not in self.units:
            self.numbers[slug] += 1
            self.units[unit] = f"{slug}-{self.numbers[slug]}"
            self.parts.append(replace(unit, id=self.units[unit]))
        return self.units[unit]


def rectangle(size: Point) -> tuple[Point, ...]:
    """Give the corners of a rectangle with its top left corner at (0, 0)."""
    zero = ORIGIN[0]
    return (ORIGIN, (size[0], zero), size, (zero, size[1]))


def plain_unit(kind: UnitKind, fabric: str, *, points: Sequence[Point], name: str) -> Unit:
    """Write a unit of one fabric that starts at (0, 0), without an id."""
    return Unit(
        id="",
        kind=kind,
        width=max(x for x, _ in points),
        height=max(y for _, y in points),
        fabrics=(fabric,),
        hand=Hand.EITHER,
        patches=(Patch(fabric, tuple(points)),),
        name=name,
    )


def finished_block(block: Block) -> Unit:
    """Write a block as a part that is brought finished, without an id."""
    return Unit(
        id="",
        kind=UnitKind.FINISHED_BLOCK,
        width=block.width,
        height=block.height,
        fabrics=block.letters,
        hand=Hand.EITHER,
        patches=block.patches,
        name=block.name,
    )


def straight(parts: Sequence[Part], whole: Placed) -> Assembly:
    """Make the assembly of parts that are all joined by straight seams."""
    return Assembly(order=Order.STRAIGHT, parts=tuple(parts), make=count_parts(tuple(parts)), whole=whole)


def lay(patches: Iterable[Patch], placed: Placed, *, size: Point) -> tuple[Patch, ...]:
    """Turn patches with their part of that size (width, height), and move them to their place."""
    return tuple(Patch(patch.fabric, lay_points(patch.points, placed, size=size)) for patch in patches)


def lay_points(points: Sequence[Point], placed: Placed, *, size: Point) -> tuple[Point, ...]:
    """Turn points with their part of that size (width, height), and move them to their place."""
    upright = geometry.quarter_turned(points, placed.turn, size=size)
    if placed.turned_by != geometry.NO_TURN:
        upright = geometry.turned(upright, placed.turned_by)
    return exact_points(geometry.moved(upright, placed.at))


def laid_out(assembly: Assembly) -> tuple[Patch, ...]:
    """Lay every patch of an assembly where it lies in the whole, in order of sewing."""
    patches: dict[str, tuple[Patch, ...]] = {}
    sizes = {part.id: (part.width, part.height) for part in assembly.parts}
    for part in assembly.parts:
        if isinstance(part, Unit):
            patches[part.id] = part.patches
        else:
            laid = (lay(patches[placed.part], placed, size=sizes[placed.part]) for placed in part.placed)
            patches[part.id] = tuple(chain.from_iterable(laid))
    whole = assembly.whole
    return lay(patches[whole.part], whole, size=sizes[whole.part])
