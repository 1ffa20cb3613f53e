"""Rows of mixed widths, with spacer strips, and rounds about one centre.  Finished inches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from patterns.engine.borders import surrounded
from patterns.engine.errors import BadField, BadSize, RowTooNarrow
from patterns.engine.layout import ORIGIN, Leaves, PlacedDrawing
from patterns.engine.orders import joined
from patterns.engine.parts import Placed, Rows
from patterns.engine.quilts import (
    CENTRE,
    Borders,
    LaidBlock,
    QuiltTop,
    Setting,
    laid_block,
    listed,
    positive,
    quilt_top,
)
from patterns.engine.surds import Number, sign

SPACER = "spacer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spacer:
    """A plain strip: in a row as high as its blocks, between rows as wide as the quilt."""

    width: Number
    fabric: str


Row: TypeAlias = Sequence[PlacedDrawing | Spacer]


def rows_set(rows: Sequence[Row | Spacer], *, fill: str = "", border: Borders = None) -> QuiltTop:
    """Set rows that have blocks of their own size; a spacer in place of a row runs from side to side.

    The blocks of one row are equally high.  A row narrower than the widest is filled at both ends, each by
    half of what is missing, with strips of fabric `fill`; without one RowTooNarrow tells both widths.
    BadField names a row without a block, BadSize a block of another height or a width not above zero.
    A block's place is counted over rows of blocks and over the blocks of the row.
    """
    widths = [_width(row, f"rows[{number}]") for number, row in enumerate(rows)]
    if not any(widths):
        raise BadField(where="rows")
    writer = _Writer(width=max(width for width in widths if width is not None), fill=fill)
    for number, (row, width) in enumerate(zip(rows, widths, strict=True)):
        if isinstance(row, Spacer):
            writer.between(row)
        elif width is not None:
            writer.row(row, width, where=f"rows[{number}]")
    return quilt_top(writer.done(), border)


def rounds_set(centre: PlacedDrawing, *, rounds: Borders, border: Borders = None) -> QuiltTop:
    """Set one block in the middle and `rounds` about it, from the inside out: plain or pieced borders.

    The rounds belong to the centre's sewing order, the border to its own.  Errors as `borders.surrounded`.
    """
    upright = centre.block.turned(centre.turn)
    if not listed(rounds):
        raise BadField(where="rounds")
    whole = surrounded(upright, listed(rounds), name=CENTRE, where="rounds")
    block = laid_block(PlacedDrawing(block=upright), place=(0, 0), at=whole.at)
    setting = Setting(width=whole.width, height=whole.height, centre=whole.assembly, blocks=(block,))
    return quilt_top(setting, border)


def _width(row: Row | Spacer, where: str) -> Number | None:
    """Add up the width of a row of blocks; a spacer between rows has none of its own."""
    if isinstance(row, Spacer):
        positive(row.width, f"{where}.width")
        return None
    blocks = [each for each in row if isinstance(each, PlacedDrawing)]
    if not blocks:
        raise BadField(where=where)
    total = ORIGIN[0]
    for number, each in enumerate(row):
        if isinstance(each, Spacer):
            positive(each.width, f"{where}[{number}].width")
        elif each.size[1] != blocks[0].size[1]:
            raise BadSize(where=f"{where}[{number}]")
        total += each.width if isinstance(each, Spacer) else each.size[0]
    return total


@dataclass(slots=True, kw_only=True)
class _Writer:
    """Writes row under row."""

    width: Number
    fill: str
    height: Number = ORIGIN[0]
    leaves: Leaves = field(default_factory=Leaves)
    rows: list[tuple[Placed, ...]] = field(default_factory=list)
    laid: list[LaidBlock] = field(default_factory=list)
    block_rows: int = 0

    def between(self, spacer: Spacer) -> None:
        """Add a strip from side to side."""
        size, at = (self.width, spacer.width), (ORIGIN[0], self.height)
        self.rows.append((self.leaves.strip(spacer.fabric, size, at=at, name=SPACER),))
        self.height += spacer.width

    def row(self, row: Row, width: Number, *, where: str) -> None:
        """Add a row of blocks and spacers, filled at both ends where it is narrower than the quilt."""
        missing = (self.width - width) / 2
        filled = list(row)
        if sign(missing):
            if not self.fill:
                raise RowTooNarrow(where=where, width=width, needed=self.width)
            end = Spacer(width=missing, fabric=self.fill)
            filled = [end, *row, end]
        self._add(filled, next(each.size[1] for each in row if isinstance(each, PlacedDrawing)))

    def done(self) -> Setting:
        """Join the rows."""
        whole = Rows(id="centre", width=self.width, height=self.height, rows=tuple(self.rows), name=CENTRE)
        centre = joined((*self.leaves.parts, whole), Placed(part=whole.id, at=ORIGIN, turn=0))
        return Setting(width=self.width, height=self.height, centre=centre, blocks=tuple(self.laid))

    def _add(self, row: Row, height: Number) -> None:
        placed: list[Placed] = []
        left, column = ORIGIN[0], 0
        for each in row:
            at = (left, self.height)
            if isinstance(each, Spacer):
                size = (each.width, height)
                placed.append(self.leaves.strip(each.fabric, size, at=at, name=SPACER))
            else:
                size = each.size
                placed.append(self.leaves.block(each, at=at))
                self.laid.append(laid_block(each, place=(self.block_rows, column), at=at))
                column += 1
            left += size[0]
        self.rows.append(tuple(placed))
        self.height += height
        self.block_rows += 1
