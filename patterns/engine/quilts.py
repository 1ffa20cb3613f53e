"""Quilt tops: what they are made of, and where every block lies.  All sizes are finished inches.

A setting knows its own sewing order, so `settings_straight` and `settings_on_point` write it; the
centre and the border are two assemblies, because they may come in two installments.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from patterns.engine import geometry
from patterns.engine.blocks import Block, exact_points
from patterns.engine.borders import AnyBorder, Border, PiecedBorder, surrounded
from patterns.engine.errors import BadField, BadSize
from patterns.engine.layout import PlacedDrawing, laid_out, laid_shapes, lay, lay_points, rectangle
from patterns.engine.parts import Assembly, Patch, Placed, Point, Shape
from patterns.engine.surds import Number, sign

__all__ = (
    "CENTRE",
    "CORNERSTONE",
    "SASHING",
    "Border",
    "Borders",
    "LaidBlock",
    "QuiltTop",
    "Sashing",
    "Setting",
    "check_rows",
    "laid_block",
    "listed",
    "positive",
    "quilt_top",
)

CENTRE, SASHING, CORNERSTONE = "quilt centre", "sashing", "cornerstone"
Borders: TypeAlias = AnyBorder | Sequence[AnyBorder] | None  # from the inside out


@dataclass(frozen=True, slots=True, kw_only=True)
class Sashing:
    """Strips between the blocks, and round them when `outside`; no cornerstone letter, no cornerstones."""

    width: Number
    fabric: str
    cornerstone: str = ""
    outside: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidBlock:
    """Where a block lies in the top; `place` is its row and column, counted from 0."""

    place: tuple[int, int]
    name: str
    outline: tuple[Point, ...]
    patches: tuple[Patch, ...]
    applique: tuple[Shape, ...] = ()

    @property
    def cloth(self) -> tuple[Patch, ...]:
        """Give what is seen, from the lowest to the topmost: the patches, then the appliqué shapes."""
        return (*self.patches, *self.applique)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuiltTop:
    """A whole top.  Every patch of it is in `blocks`, `joining` or `border_strips`, and in `drawing`.

    The centre's assembly holds the blocks as finished blocks and lies in the centre's own frame; the
    border's holds the centre as one finished block.
    """

    width: Number
    height: Number
    centre: Assembly
    centre_size: Point  # without borders
    border: Assembly | None
    blocks: tuple[LaidBlock, ...]
    joining: tuple[Patch, ...]  # sashing, cornerstones, setting triangles
    border_strips: tuple[Patch, ...]
    outline: tuple[Point, ...] = ()  # finished corners of a top that is no rectangle

    @property
    def edge(self) -> tuple[Point, ...]:
        """Give the finished corners all round, which are bound."""
        return self.outline or rectangle((self.width, self.height))

    @property
    def drawing(self) -> Block:
        """Give the whole top as one drawing in finished inches."""
        in_blocks = (patch for block in self.blocks for patch in block.patches)
        patches = (*in_blocks, *self.joining, *self.border_strips)
        shapes = tuple(shape for block in self.blocks for shape in block.applique)
        return Block(name="quilt top", width=self.width, height=self.height, patches=patches, applique=shapes)


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
    outline, patches, applique = rectangle(size), block.patches, block.applique
    for step in steps:
        outline = lay_points(outline, step, size=size)
        patches, applique = lay(patches, step, size=size), lay(applique, step, size=size)
    return LaidBlock(place=place, name=block.name, outline=outline, patches=patches, applique=applique)


def quilt_top(setting: Setting, border: Borders) -> QuiltTop:
    """Put the borders, from the inside out, round the centre of a setting."""
    centre = laid_out(setting.centre)
    in_blocks = {patch for block in setting.blocks for patch in block.patches}
    joining = tuple(patch for patch in centre if patch not in in_blocks)
    borders = listed(border)
    if not borders:
        return QuiltTop(
            width=setting.width,
            height=setting.height,
            centre=setting.centre,
            centre_size=(setting.width, setting.height),
            border=None,
            blocks=setting.blocks,
            joining=joining,
            border_strips=(),
        )
    return _bordered(setting, borders, centre=centre, joining=joining)


def listed(border: Borders) -> tuple[AnyBorder, ...]:
    """Give the borders from the inside out; one alone, or none, may be given without a list."""
    if border is None:
        return ()
    return (border,) if isinstance(border, Border | PiecedBorder) else tuple(border)


def positive(number: Number, where: str) -> None:
    """Refuse a width that is not above zero."""
    if sign(number) <= 0:
        raise BadSize(where=where)


def _bordered(
    setting: Setting,
    borders: Sequence[AnyBorder],
    *,
    centre: tuple[Patch, ...],
    joining: tuple[Patch, ...],
) -> QuiltTop:
    shapes = laid_shapes(setting.centre)
    block = Block(name=CENTRE, width=setting.width, height=setting.height, patches=centre, applique=shapes)
    whole = surrounded(block, borders, name="quilt top")
    shift = Placed(part=CENTRE, at=whole.at, turn=0)
    size = (setting.width, setting.height)
    blocks = tuple(
        LaidBlock(
            place=block.place,
            name=block.name,
            outline=exact_points(geometry.moved(block.outline, shift.at)),
            patches=lay(block.patches, shift, size=size),
            applique=lay(block.applique, shift, size=size),
        )
        for block in setting.blocks
    )
    inside = set(lay(centre, shift, size=size))
    return QuiltTop(
        width=whole.width,
        height=whole.height,
        centre=setting.centre,
        centre_size=size,
        border=whole.assembly,
        blocks=blocks,
        joining=lay(joining, shift, size=size),
        border_strips=tuple(patch for patch in laid_out(whole.assembly) if patch not in inside),
    )
