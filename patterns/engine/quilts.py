"""Quilt tops: what they are made of, and where every block lies.  All sizes are finished inches.

A setting knows its own sewing order, so `settings_straight` and `settings_on_point` write it; the
centre and the border are two assemblies, because they may come in two installments.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from patterns.engine import geometry
from patterns.engine.blocks import Block, exact_points
from patterns.engine.errors import BadField, BadSize
from patterns.engine.layout import (
    ORIGIN,
    Leaves,
    PlacedDrawing,
    laid_out,
    lay,
    lay_points,
    rectangle,
    straight,
)
from patterns.engine.parts import Assembly, Patch, Placed, Point, Rows
from patterns.engine.surds import Number, sign

CENTRE = "quilt centre"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sashing:
    """Strips between the blocks, and round them when `outside`; no cornerstone letter, no cornerstones."""

    width: Number
    fabric: str
    cornerstone: str = ""
    outside: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """Butted strips: the sides first, then top and bottom."""

    width: Number
    fabric: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidBlock:
    """Where a block lies in the top; `place` is its row and column, counted from 0."""

    place: tuple[int, int]
    name: str
    outline: tuple[Point, ...]
    patches: tuple[Patch, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class QuiltTop:
    """A whole top.  Every patch of it is in `blocks`, `joining` or `border_strips`, and in `drawing`.

    The centre's assembly holds the blocks as finished blocks and lies in the centre's own frame; the
    border's holds the centre as one finished block.
    """

    width: Number
    height: Number
    centre: Assembly
    border: Assembly | None
    blocks: tuple[LaidBlock, ...]
    joining: tuple[Patch, ...]  # sashing, cornerstones, setting triangles
    border_strips: tuple[Patch, ...]

    @property
    def drawing(self) -> Block:
        """Give the whole top as one drawing in finished inches."""
        in_blocks = (patch for block in self.blocks for patch in block.patches)
        patches = (*in_blocks, *self.joining, *self.border_strips)
        return Block(name="quilt top", width=self.width, height=self.height, patches=patches)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What a setting hands over: the centre, its size, and the blocks where they lie in it."""

    width: Number
    height: Number
    centre: Assembly
    blocks: tuple[LaidBlock, ...]


def check_rows(blocks: Sequence[Sequence[PlacedDrawing]], *, lengths: Sequence[int]) -> None:
    """Refuse rows that are not of these lengths (BadField), and blocks of unequal size (BadSize)."""
    if not lengths or lengths[0] < 1 or len(blocks) != len(lengths):
        raise BadField(where="blocks")
    for row, (placed, length) in enumerate(zip(blocks, lengths, strict=True)):
        if len(placed) != length:
            raise BadField(where=f"blocks[{row}]")
        for column, drawing in enumerate(placed):
            if drawing.size != blocks[0][0].size:
                raise BadSize(where=f"blocks[{row}][{column}]")


def laid_block(
    drawing: PlacedDrawing, *, place: tuple[int, int], at: Point, whole: Placed | None = None
) -> LaidBlock:
    """Lay a block at a point of the centre's frame, and with `whole` into the frame of the quilt."""
    block = drawing.block
    size = (block.width, block.height)
    steps = [Placed(part=block.name, at=at, turn=drawing.turn), *([whole] if whole else [])]
    outline, patches = rectangle(size), block.patches
    for step in steps:
        outline, patches = lay_points(outline, step, size=size), lay(patches, step, size=size)
    return LaidBlock(place=place, name=block.name, outline=outline, patches=patches)


def quilt_top(setting: Setting, border: Border | None) -> QuiltTop:
    """Put the border round the centre of a setting."""
    centre = laid_out(setting.centre)
    in_blocks = {patch for block in setting.blocks for patch in block.patches}
    joining = tuple(patch for patch in centre if patch not in in_blocks)
    if border is None:
        return QuiltTop(
            width=setting.width,
            height=setting.height,
            centre=setting.centre,
            border=None,
            blocks=setting.blocks,
            joining=joining,
            border_strips=(),
        )
    positive(border.width, "border.width")
    return _bordered(setting, border, joining=joining)


def positive(number: Number, where: str) -> None:
    """Refuse a width that is not above zero."""
    if sign(number) <= 0:
        raise BadSize(where=where)


def _bordered(setting: Setting, border: Border, *, joining: tuple[Patch, ...]) -> QuiltTop:
    shift = Placed(part=CENTRE, at=(border.width, border.width), turn=0)
    size = (setting.width, setting.height)
    blocks = tuple(
        LaidBlock(
            place=block.place,
            name=block.name,
            outline=exact_points(geometry.moved(block.outline, shift.at)),
            patches=lay(block.patches, shift, size=size),
        )
        for block in setting.blocks
    )
    joining = lay(joining, shift, size=size)
    whole = _border_assembly(setting, border)
    inside = {patch for block in blocks for patch in block.patches} | set(joining)
    return QuiltTop(
        width=setting.width + 2 * border.width,
        height=setting.height + 2 * border.width,
        centre=setting.centre,
        border=whole,
        blocks=blocks,
        joining=joining,
        border_strips=tuple(patch for patch in laid_out(whole) if patch not in inside),
    )


def _border_assembly(setting: Setting, border: Border) -> Assembly:
    """Sew the sides to the centre, then top and bottom."""
    leaves, zero, wide = Leaves(), ORIGIN[0], border.width
    width, height = setting.width, setting.height
    block = Block(name=CENTRE, width=width, height=height, patches=laid_out(setting.centre))
    middle = (
        leaves.strip(border.fabric, (wide, height), at=ORIGIN, name="side border"),
        leaves.block(PlacedDrawing(block=block), at=(wide, zero)),
        leaves.strip(border.fabric, (wide, height), at=(wide + width, zero), name="side border"),
    )
    full = width + 2 * wide
    with_sides = Rows(
        id="centre-with-sides", width=full, height=height, rows=(middle,), name="centre with sides"
    )
    ends = [
        leaves.strip(border.fabric, (full, wide), at=(zero, top), name="end border")
        for top in (zero, wide + height)
    ]
    rows = ((ends[0],), (Placed(part=with_sides.id, at=(zero, wide), turn=0),), (ends[1],))
    top = Rows(id="top", width=full, height=height + 2 * wide, rows=rows, name="quilt top")
    return straight((*leaves.parts, with_sides, top), Placed(part=top.id, at=ORIGIN, turn=0))
