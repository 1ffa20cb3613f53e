"""Laying units into a quilt top, and a whole assembly out as one picture.  Finished inches."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain
from typing import TypeVar

from patterns.engine import geometry
from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, exact_points
from patterns.engine.errors import BadField
from patterns.engine.parts import (
    Assembly,
    Fitted,
    Hand,
    Part,
    Patch,
    Placed,
    Point,
    Rows,
    Shape,
    Unit,
    UnitKind,
)
from patterns.engine.surds import Number

Laid = TypeVar("Laid", bound=Patch)
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
    orders: dict[Block, tuple[str, int]] = field(default_factory=dict)  # made here -> part, turn

    def strip(self, fabric: str, size: Point, *, at: Point, name: str) -> Placed:
        """Place a plain rectangle; it is kept with its long side across."""
        long, short = max(size), min(size)
        kind = UnitKind.SQUARE if long == short else UnitKind.RECTANGLE
        unit = plain_unit(kind, fabric, points=rectangle((long, short)), name=name)
        return Placed(part=self.add(unit, name.replace(" ", "-")), at=at, turn=int(size[0] < size[1]))

    def finished(self, block: Block) -> str:
        """Keep a block that is brought finished, whatever it is made of."""
        return self.add(finished_block(block), "block")

    def block(self, drawing: PlacedDrawing, *, at: Point) -> Placed:
        """Place a finished block; one that is a single patch is a plain square or rectangle."""
        block = drawing.block
        if block.is_plain:
            return self.strip(block.patches[0].fabric, drawing.size, at=at, name="setting square")
        return Placed(part=self.finished(block), at=at, turn=drawing.turn)

    def sewn(self, drawing: PlacedDrawing, *, at: Point) -> Placed:
        """Place a block that is made here, unit by unit: its whole sewing order is taken in, once.

        Errors as `sewing_order` gives them; BadField where shapes lie on the block.
        """
        block = drawing.block
        if block.applique:
            raise BadField(where="applique")
        if block.is_plain:
            return self.strip(block.patches[0].fabric, drawing.size, at=at, name="border patch")
        if block not in self.orders:
            self.orders[block] = self._taken_in(sewing_order(block))
        part, turn = self.orders[block]
        return Placed(part=part, at=at, turn=(turn + drawing.turn) % geometry.QUARTERS)

    def _taken_in(self, order: Assembly) -> tuple[str, int]:
        names: dict[str, str] = {}
        for part in order.parts:
            slug = part.id.rstrip("-0123456789")
            if isinstance(part, Unit):
                names[part.id] = self.add(replace(part, id=""), slug)
                continue
            self.numbers[f"border {slug}"] += 1
            names[part.id] = f"border-{slug}-{self.numbers[f'border {slug}']}"
            self.parts.append(_renamed(part, names))
        return names[order.whole.part], order.whole.turn

    def trapezoid(self, fabric: str, size: Point, *, name: str) -> str:
        """Keep a mitred strip: `size` is its short side, below, and its height; both ends slant."""
        (short, high), zero = size, ORIGIN[0]
        points = (ORIGIN, (short + 2 * high, zero), (short + high, high), (high, high))
        unit = plain_unit(UnitKind.TEMPLATE, fabric, points=points, name=name)
        return self.add(replace(unit, outline=points), name.replace(" ", "-"))

    def add(self, unit: Unit, slug: str) -> str:
        """Keep a unit once, and give its id."""
        if unit not in self.units:
            self.numbers[slug] += 1
            self.units[unit] = f"{slug}-{self.numbers[slug]}"
            self.parts.append(replace(unit, id=self.units[unit]))
        return self.units[unit]


def plain_square(fabric: str, side: Number) -> PlacedDrawing:
    """Give a block that is one square of fabric, for a place that holds no block."""
    square = (Patch(fabric, rectangle((side, side))),)
    return PlacedDrawing(block=Block(name="plain square", width=side, height=side, patches=square))


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
        applique=block.applique,
        name=block.name,
    )


def _renamed(part: Rows | Fitted, names: Mapping[str, str]) -> Part:
    """Give a part and what it is joined from their new names."""
    if isinstance(part, Fitted):
        placed = tuple(replace(each, part=names[each.part]) for each in part.placed)
        return replace(part, id=names[part.id], placed=placed)
    rows = tuple(tuple(replace(each, part=names[each.part]) for each in row) for row in part.rows)
    return replace(part, id=names[part.id], rows=rows)


def lay(patches: Iterable[Laid], placed: Placed, *, size: Point) -> tuple[Laid, ...]:
    """Turn patches with their part of that size (width, height), and move them to their place."""
    return tuple(replace(patch, points=lay_points(patch.points, placed, size=size)) for patch in patches)


def lay_points(points: Sequence[Point], placed: Placed, *, size: Point) -> tuple[Point, ...]:
    """Turn points with their part of that size (width, height), and move them to their place."""
    upright = geometry.quarter_turned(points, placed.turn, size=size)
    if placed.turned_by != geometry.NO_TURN:
        upright = geometry.turned(upright, placed.turned_by)
    return exact_points(geometry.moved(upright, placed.at))


def laid_out(assembly: Assembly) -> tuple[Patch, ...]:
    """Lay every patch of an assembly where it lies in the whole, in order of sewing."""
    return _all_laid(assembly, lambda unit: unit.patches)


def laid_shapes(assembly: Assembly) -> tuple[Shape, ...]:
    """Lay the appliqué shapes of finished blocks where they lie in the whole."""
    return _all_laid(assembly, lambda unit: unit.applique)


def _all_laid(assembly: Assembly, of: Callable[[Unit], tuple[Laid, ...]]) -> tuple[Laid, ...]:
    patches: dict[str, tuple[Laid, ...]] = {}
    sizes = {part.id: (part.width, part.height) for part in assembly.parts}
    for part in assembly.parts:
        if isinstance(part, Unit):
            patches[part.id] = of(part)
        else:
            laid = (lay(patches[placed.part], placed, size=sizes[placed.part]) for placed in part.placed)
            patches[part.id] = tuple(chain.from_iterable(laid))
    whole = assembly.whole
    return lay(patches[whole.part], whole, size=sizes[whole.part])
