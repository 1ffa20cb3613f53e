"""Blocks in straight rows, with or without sashing and cornerstones.  Finished inches."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from patterns.engine.errors import BadField
from patterns.engine.layout import ORIGIN, Leaves, PlacedDrawing
from patterns.engine.orders import joined
from patterns.engine.parts import Placed, Point, Rows
from patterns.engine.quilts import (
    CENTRE,
    CORNERSTONE,
    SASHING,
    Borders,
    LaidBlock,
    QuiltTop,
    Sashing,
    Setting,
    check_rows,
    laid_block,
    positive,
    quilt_top,
)
from patterns.engine.surds import Number

Row: TypeAlias = tuple[Placed, ...]


def straight_set(
    blocks: Sequence[Sequence[PlacedDrawing]], *, sashing: Sashing | None = None, border: Borders = None
) -> QuiltTop:
    """Set blocks in rows of equal length, sashing between them or also round them, a border round all.

    With cornerstones, blocks and sashing are one grid; without, the strips between rows run through.
    BadField names a row that is empty or of another length than the first, BadSize a block of another
    size than the first, or a width that is not above zero.
    """
    check_rows(blocks, lengths=[len(blocks[0])] * len(blocks) if blocks else [])
    if sashing is not None:
        positive(sashing.width, "sashing.width")
    writer = _Writer(blocks=blocks, sashing=sashing)
    rows = writer.rows()
    width, height = writer.size
    whole = Rows(id="centre", width=width, height=height, rows=rows, name=CENTRE)
    centre = joined((*writer.leaves.parts, whole), Placed(part=whole.id, at=ORIGIN, turn=0))
    setting = Setting(width=width, height=height, centre=centre, blocks=tuple(writer.laid))
    return quilt_top(setting, border)


def alternated(
    blocks: Sequence[PlacedDrawing], other: PlacedDrawing, *, rows: int, columns: int
) -> list[list[PlacedDrawing]]:
    """Give the rows of a chequer: `blocks` in reading order from the top left, `other` between them.

    `other` is a plain square (`layout.plain_square`) or a second block.  BadField where there are not as
    many blocks as places: half of rows x columns, rounded up.
    """
    if len(blocks) != (rows * columns + 1) // 2:
        raise BadField(where="blocks")
    chosen = iter(blocks)
    return [
        [other if (row + column) % 2 else next(chosen) for column in range(columns)] for row in range(rows)
    ]


@dataclass(slots=True, kw_only=True)
class _Writer:
    """Writes the rows from the top, sashing rows between them."""

    blocks: Sequence[Sequence[PlacedDrawing]]
    sashing: Sashing | None
    leaves: Leaves = field(default_factory=Leaves)
    laid: list[LaidBlock] = field(default_factory=list)

    @property
    def gap(self) -> Number:
        """Give the width between blocks."""
        return ORIGIN[0] if self.sashing is None else self.sashing.width

    @property
    def edge(self) -> Number:
        """Give the width of sashing outside the blocks."""
        return self.gap if self._outside else ORIGIN[0]

    @property
    def size(self) -> Point:
        """Give the centre's width and height."""
        width, height = self.blocks[0][0].size
        columns, rows = len(self.blocks[0]), len(self.blocks)
        return (
            2 * self.edge + columns * width + (columns - 1) * self.gap,
            2 * self.edge + rows * height + (rows - 1) * self.gap,
        )

    @property
    def _outside(self) -> bool:
        return self.sashing is not None and self.sashing.outside

    def rows(self) -> tuple[Row, ...]:
        """Write block rows and the sashing rows between and round them."""
        rows: list[Row] = []
        height = self.blocks[0][0].size[1]
        for number in range(len(self.blocks)):
            top = self.edge + number * (height + self.gap)
            if self.sashing is not None and (number or self._outside):
                rows.append(self._sashing_row(self.sashing, top - self.gap))
            rows.append(self._block_row(number, top))
        if self.sashing is not None and self._outside:
            rows.append(self._sashing_row(self.sashing, self.size[1] - self.gap))
        return tuple(rows)

    def _block_row(self, number: int, top: Number) -> Row:
        height = self.blocks[0][0].size[1]

        def block(column: int, left: Number) -> Placed:
            drawing = self.blocks[number][column]
            self.laid.append(laid_block(drawing, place=(number, column), at=(left, top)))
            return self.leaves.block(drawing, at=(left, top))

        def strip(sashing: Sashing, left: Number) -> Placed:
            size = (sashing.width, height)
            return self.leaves.strip(sashing.fabric, size, at=(left, top), name=SASHING)

        return self._row(block, strip)

    def _sashing_row(self, sashing: Sashing, top: Number) -> Row:
        if not sashing.cornerstone:
            size = (self.size[0], sashing.width)
            return (self.leaves.strip(sashing.fabric, size, at=(ORIGIN[0], top), name=SASHING),)
        width = self.blocks[0][0].size[0]

        def strip(_: int, left: Number) -> Placed:
            return self.leaves.strip(sashing.fabric, (width, sashing.width), at=(left, top), name=SASHING)

        def cornerstone(_: Sashing, left: Number) -> Placed:
            size = (sashing.width, sashing.width)
            return self.leaves.strip(sashing.cornerstone, size, at=(left, top), name=CORNERSTONE)

        return self._row(strip, cornerstone)

    def _row(
        self, cell: Callable[[int, Number], Placed], between: Callable[[Sashing, Number], Placed]
    ) -> Row:
        """Place cells and, where there is sashing, what lies between and round them."""
        placed: list[Placed] = []
        width = self.blocks[0][0].size[0]
        for column in range(len(self.blocks[0])):
            left = self.edge + column * (width + self.gap)
            if self.sashing is not None and (column or self._outside):
                placed.append(between(self.sashing, left - self.gap))
            placed.append(cell(column, left))
        if self.sashing is not None and self._outside:
            placed.append(between(self.sashing, self.size[0] - self.gap))
        return tuple(placed)
