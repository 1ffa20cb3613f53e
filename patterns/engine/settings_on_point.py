"""Blocks on point: diagonal rows with side and corner triangles.  Finished inches.

The assembly lies in a frame turned clockwise by 45 degrees, in which the blocks lie upright and all
numbers are as plain as the block's side; only the whole is turned, so only the whole meets sqrt(2).
A diagonal row runs from upper left to lower right; the first one starts at the quilt's top edge and
ends in the upper right corner.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from patterns.engine.errors import BadSize
from patterns.engine.geometry import EIGHTH_TURN
from patterns.engine.layout import ORIGIN, Leaves, PlacedDrawing, joined, plain_unit
from patterns.engine.parts import Placed, Point, Rows, UnitKind
from patterns.engine.quilts import (
    CENTRE,
    Borders,
    LaidBlock,
    QuiltTop,
    Setting,
    check_rows,
    laid_block,
    quilt_top,
)
from patterns.engine.surds import Number, root

HALF = Fraction(1, 2)
SIDE, CORNER = "side triangle", "corner triangle"


def on_point_set(
    blocks: Sequence[Sequence[PlacedDrawing]], *, triangle: str, border: Borders = None
) -> QuiltTop:
    """Set square blocks on point, setting triangles of fabric `triangle` round them.

    `blocks` are the rows as they are seen, from the top: a row of n, then n - 1 between them, then n
    again, so 2r - 1 rows; the rows of n - 1 may be plain squares.  A block's own top left corner comes to
    the top.  Width is n sides times sqrt(2), height r of them.  BadField names a row of the wrong
    length, BadSize a block that is not square or of another size than the first.
    """
    columns = len(blocks[0]) if blocks else 0
    check_rows(blocks, lengths=[columns - row % 2 for row in range(len(blocks) | 1)])
    side, height = blocks[0][0].size
    if side != height:
        raise BadSize(where="blocks[0][0]")
    writer = _Writer(blocks=blocks, triangle=triangle, side=side)
    writer.write()
    diagonal = side * root(2)
    setting = Setting(
        width=columns * diagonal,
        height=writer.rows * diagonal,
        centre=joined((*writer.leaves.parts, *writer.parts), writer.placed),
        blocks=tuple(writer.laid),
    )
    return quilt_top(setting, border)


@dataclass(slots=True, kw_only=True)
class _Writer:
    """Writes diagonal rows, then the corners."""

    blocks: Sequence[Sequence[PlacedDrawing]]
    triangle: str
    side: Number
    leaves: Leaves = field(default_factory=Leaves)
    parts: list[Rows] = field(default_factory=list)
    laid: list[LaidBlock] = field(default_factory=list)

    @property
    def rows(self) -> int:
        """Count the rows of blocks that reach both sides."""
        return len(self.blocks) // 2 + 1

    @property
    def columns(self) -> int:
        """Count the blocks of such a row."""
        return len(self.blocks[0])

    @property
    def placed(self) -> Placed:
        """Turn the whole so that its corners come to the quilt's corners."""
        half = self.columns * self.side * root(2) / 2
        return Placed(part="centre", at=(half, -half), turn=0, turned_by=EIGHTH_TURN)

    def write(self) -> None:
        """Join the diagonal rows, then add the corner triangles."""
        half, long = self.side * HALF, (self.rows + self.columns - 1) * self.side
        diagonals = tuple((self._diagonal(row),) for row in range(self.rows + self.columns - 1))
        body = Rows(id="body", width=long, height=long, rows=diagonals, name="diagonal rows")
        left, right = (self.columns - 1) * self.side, (self.rows - 1) * self.side
        rows = (
            (self._corner((half + left, ORIGIN[0]), turn=0),),
            (
                self._corner((ORIGIN[0], half + left), turn=3),
                Placed(part=body.id, at=(half, half), turn=0),
                self._corner((half + long, half + right), turn=1),
            ),
            (self._corner((half + right, half + long), turn=2),),
        )
        size = long + self.side
        whole = Rows(id="centre", width=size, height=size, rows=rows, name=CENTRE)
        self.parts += [body, whole]

    def _diagonal(self, number: int) -> Placed:
        """Write one diagonal row: its blocks, and a side triangle at each end that is no corner."""
        row = number - self.columns + 1  # 0 starts in the upper left corner
        first, last = abs(row), 2 * min(self.rows - 1, self.columns - 1 + row) - row
        start = first - (row != 0)
        placed = [self._block(along - start, along=along, row=row) for along in range(first, last + 1)]
        if row:
            placed.insert(0, self._side(0, turn=3 if row < 0 else 2))
        if row != self.rows - self.columns:
            placed.append(self._side(last + 1 - start, turn=0 if row < self.rows - self.columns else 1))
        part = Rows(
            id=f"diagonal-row-{number + 1}",
            width=len(placed) * self.side,
            height=self.side,
            rows=(tuple(placed),),
            name="diagonal row",
        )
        self.parts.append(part)
        return Placed(part=part.id, at=(start * self.side, number * self.side), turn=0)

    def _block(self, cell: int, *, along: int, row: int) -> Placed:
        """Place the block at `along` from the upper left, and note where it lies in the whole."""
        place = (along + row, (along - row) // 2)
        drawing = self.blocks[place[0]][place[1]]
        inner = ((along + HALF) * self.side, (row + self.columns - HALF) * self.side)
        self.laid.append(laid_block(drawing, place=place, at=inner, whole=self.placed))
        return self.leaves.block(drawing, at=(cell * self.side, ORIGIN[1]))

    def _side(self, cell: int, *, turn: int) -> Placed:
        """Place a side triangle; unturned, its right angle is at the bottom left."""
        zero, side = ORIGIN[0], self.side
        points = ((zero, zero), (side, side), (zero, side))
        unit = plain_unit(UnitKind.SIDE_TRIANGLE, self.triangle, points=points, name=SIDE)
        part = self.leaves.add(unit, "side-triangle")
        return Placed(part=part, at=(cell * side, zero), turn=turn)

    def _corner(self, at: Point, *, turn: int) -> Placed:
        """Place a corner triangle; unturned, its right angle is at the top."""
        zero, side = ORIGIN[0], self.side
        points = ((zero, side * HALF), (side * HALF, zero), (side, side * HALF))
        unit = plain_unit(UnitKind.CORNER_TRIANGLE, self.triangle, points=points, name=CORNER)
        return Placed(part=self.leaves.add(unit, "corner-triangle"), at=at, turn=turn)
