"""Blocks on point: diagonal rows with side and corner triangles.  Finished inches.

The assembly lies in a frame turned clockwise by 45 degrees, in which the blocks lie upright and all
numbers are as plain as the block's side; only the whole is turned, so only the whole meets sqrt(2).
A diagonal row runs from upper left to lower right; the first one starts at the quilt's top edge and
ends in the upper right corner.

Sashing lies round every block, cornerstones where it meets; the quilt's edge halves the outer ones, so
that every seam of the diagonal rows runs straight through.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from patterns.engine.border_words import HALF_POST
from patterns.engine.errors import BadField, BadSize
from patterns.engine.geometry import EIGHTH_TURN
from patterns.engine.layout import ORIGIN, Leaves, PlacedDrawing, laid_out, plain_unit
from patterns.engine.orders import joined
from patterns.engine.parts import Placed, Point, Rows, UnitKind
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
from patterns.engine.surds import Number, root

HALF, FEWEST = Fraction(1, 2), 2  # a runner has two blocks at least
SIDE, CORNER = "side triangle", "corner triangle"


def on_point_set(
    blocks: Sequence[Sequence[PlacedDrawing]],
    *,
    triangle: str,
    sashing: Sashing | None = None,
    border: Borders = None,
) -> QuiltTop:
    """Set square blocks on point, setting triangles of fabric `triangle` round them.

    `blocks` are the rows as they are seen, from the top: a row of n, then n - 1 between them, then n
    again, so 2r - 1 rows; the rows of n - 1 may be plain squares.  A block's own top left corner comes to
    the top.  Width is n sides times sqrt(2), height r of them; with sashing a side is a block and one
    sashing.  Sashing on point lies round every block, `outside` or not; without a letter of their own its
    cornerstones are of its fabric.  BadField names a row of the wrong length, BadSize a block that is not
    square or of another size than the first, or a width that is not above zero.
    """
    columns = len(blocks[0]) if blocks else 0
    check_rows(blocks, lengths=[columns - row % 2 for row in range(len(blocks) | 1)])
    side, height = blocks[0][0].size
    if side != height:
        raise BadSize(where="blocks[0][0]")
    if sashing is not None:
        positive(sashing.width, "sashing.width")
    writer = _Writer(blocks=blocks, triangle=triangle, side=side, sashing=sashing)
    writer.write()
    diagonal = writer.pitch * root(2)
    setting = Setting(
        width=columns * diagonal,
        height=writer.rows * diagonal,
        centre=joined((*writer.leaves.parts, *writer.parts), writer.placed),
        blocks=tuple(writer.laid),
    )
    return quilt_top(setting, border)


def pointed_runner(blocks: Sequence[PlacedDrawing], *, triangle: str) -> QuiltTop:
    """Set square blocks on point in one row, side triangles between them, the pointed ends left as they are.

    The top is n sides times sqrt(2) long from tip to tip and one such diagonal high; its `outline` has six
    corners, and its drawing tiles that.  BadField where there are fewer than two blocks, BadSize as
    `on_point_set`.
    """
    if len(blocks) < FEWEST:
        raise BadField(where="blocks")
    check_rows([blocks], lengths=[len(blocks)])
    side, height = blocks[0].size
    if side != height:
        raise BadSize(where="blocks[0]")
    writer = _Writer(blocks=[blocks], triangle=triangle, side=side, sashing=None)
    writer.write_pointed()
    long, high = len(blocks) * side * root(2), side * root(2)
    tips = ((ORIGIN[0], high / 2), (high / 2, ORIGIN[0]), (long - high / 2, ORIGIN[0]))
    centre = joined((*writer.leaves.parts, *writer.parts), writer.placed)
    laid = {patch for block in writer.laid for patch in block.patches}
    return QuiltTop(
        width=long,
        height=high,
        centre=centre,
        centre_size=(long, high),
        border=None,
        blocks=tuple(writer.laid),
        joining=tuple(patch for patch in laid_out(centre) if patch not in laid),
        border_strips=(),
        outline=(*tips, *((long - x, high - y) for x, y in tips)),
    )


@dataclass(slots=True, kw_only=True)
class _Writer:
    """Writes diagonal rows, sashing rows between them, then the corners."""

    blocks: Sequence[Sequence[PlacedDrawing]]
    triangle: str
    side: Number
    sashing: Sashing | None
    pointed: bool = False
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
    def gap(self) -> Number:
        """Give the width of the sashing."""
        return ORIGIN[0] if self.sashing is None else self.sashing.width

    @property
    def pitch(self) -> Number:
        """Give the way from one block to the next along a diagonal row."""
        return self.side + self.gap

    @property
    def diagonals(self) -> int:
        """Count the diagonal rows."""
        return self.rows + self.columns - 1

    @property
    def placed(self) -> Placed:
        """Turn the whole so that its corners, or the tips of a pointed one, come to the quilt's edges."""
        half = self.columns * self.pitch * root(2) / 2
        top = half - self.side * root(2) / 2 if self.pointed else half
        return Placed(part="centre", at=(half, -top), turn=0, turned_by=EIGHTH_TURN)

    @property
    def margin(self) -> Number:
        """Give the room that corner triangles take round the diagonal rows."""
        return ORIGIN[0] if self.pointed else self.side * HALF

    def write_pointed(self) -> None:
        """Join the diagonal rows and leave it at that."""
        self.pointed = True
        long = self.diagonals * self.side
        self.parts.append(Rows(id="centre", width=long, height=long, rows=tuple(self._body()), name=CENTRE))

    def write(self) -> None:
        """Join the diagonal rows, then add the corner triangles."""
        half, long = self.side * HALF, self.diagonals * self.pitch + self.gap
        body = Rows(id="body", width=long, height=long, rows=tuple(self._body()), name="diagonal rows")
        left = self.gap + (self.columns - 1) * self.pitch
        right = self.gap + (self.rows - 1) * self.pitch
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

    def _body(self) -> Iterator[tuple[Placed]]:
        """Write block rows from the upper right, sashing rows between and beside them."""
        for number in range(self.diagonals):
            if self.sashing is not None:
                yield (self._sashing_row(self.sashing, number),)
            yield (self._diagonal(number),)
        if self.sashing is not None:
            yield (self._sashing_row(self.sashing, self.diagonals),)

    def _ends(self, number: int) -> tuple[int, int]:
        """Give the first and last place of a diagonal row, counted from the upper left."""
        row = number - self.columns + 1  # 0 starts in the upper left corner
        return abs(row), 2 * min(self.rows - 1, self.columns - 1 + row) - row

    def _diagonal(self, number: int) -> Placed:
        """Write one diagonal row: blocks, sashing, and a side triangle at each end that is no corner."""
        row, (first, last) = number - self.columns + 1, self._ends(number)
        start = first * self.pitch - (self.side if row else ORIGIN[0])
        placed: list[Placed] = []
        if row:
            placed.append(self._side(ORIGIN, turn=3 if row < 0 else 2))
        for along in range(first, last + 1):
            placed += self._strip(along * self.pitch - start)
            placed.append(self._block(along, start=start, row=row))
        end = (last + 1) * self.pitch - start
        placed += self._strip(end)
        if row != self.rows - self.columns:
            at = (end + self.gap, ORIGIN[1])
            placed.append(self._side(at, turn=0 if row < self.rows - self.columns else 1))
        place = (start, self.gap + number * self.pitch)
        return self._row(placed, self.side, at=place, name=f"diagonal-row-{number + 1}")

    def _sashing_row(self, sashing: Sashing, number: int) -> Placed:
        """Write the sashing above a diagonal row: strips and cornerstones, those at the ends halved."""
        beside = [self._ends(n) for n in (number - 1, number) if 0 <= n < self.diagonals]
        first, last = min(first for first, _ in beside), max(last for _, last in beside)
        wide, letter = sashing.width, sashing.cornerstone or sashing.fabric
        placed = [self._half(letter, ORIGIN, turn=3 if number < self.columns else 2)]
        for cell in range(last - first + 1):
            left = cell * self.pitch
            if cell:
                at = (left, ORIGIN[1])
                placed.append(self.leaves.strip(letter, (wide, wide), at=at, name=CORNERSTONE))
            at = (left + wide, ORIGIN[1])
            placed.append(self.leaves.strip(sashing.fabric, (self.side, wide), at=at, name=SASHING))
        at = ((last - first + 1) * self.pitch, ORIGIN[1])
        placed.append(self._half(letter, at, turn=0 if number < self.rows else 1))
        place = (first * self.pitch, number * self.pitch)
        return self._row(placed, wide, at=place, name=f"sashing-row-{number + 1}")

    def _row(self, placed: Sequence[Placed], height: Number, *, at: Point, name: str) -> Placed:
        """Keep a row; one that is the same as another is made once more, not written again."""
        rows = (tuple(placed),)
        alike = next((part for part in self.parts if part.rows == rows), None)
        if alike is not None:
            return Placed(part=alike.id, at=at, turn=0)
        last = placed[-1]
        width = last.at[0] + self._width(last)
        words = " ".join(name.split("-")[:2])
        self.parts.append(Rows(id=name, width=width, height=height, rows=rows, name=words))
        return Placed(part=name, at=at, turn=0)

    def _width(self, placed: Placed) -> Number:
        part = next(part for part in self.leaves.parts if part.id == placed.part)
        return part.height if placed.turn % 2 else part.width

    def _strip(self, left: Number) -> list[Placed]:
        """Place the sashing before a block of a row, and after the last."""
        if self.sashing is None:
            return []
        size = (self.sashing.width, self.side)
        return [self.leaves.strip(self.sashing.fabric, size, at=(left, ORIGIN[1]), name=SASHING)]

    def _block(self, along: int, *, start: Number, row: int) -> Placed:
        """Place the block at `along` from the upper left, and note where it lies in the whole."""
        place = (along + row, (along - row) // 2)
        drawing = self.blocks[place[0]][place[1]]
        margin, left = self.margin, self.gap + along * self.pitch
        inner = (margin + left, margin + self.gap + (row + self.columns - 1) * self.pitch)
        self.laid.append(laid_block(drawing, place=place, at=inner, whole=self.placed))
        return self.leaves.block(drawing, at=(left - start, ORIGIN[1]))

    def _side(self, at: Point, *, turn: int) -> Placed:
        """Place a side triangle; unturned, its right angle is at the bottom left."""
        part = self._triangle(self.triangle, self.side, name=SIDE)
        return Placed(part=part, at=at, turn=turn)

    def _half(self, letter: str, at: Point, *, turn: int) -> Placed:
        """Place half a cornerstone; unturned, its right angle is at the bottom left."""
        return Placed(part=self._triangle(letter, self.gap, name=HALF_POST), at=at, turn=turn)

    def _triangle(self, letter: str, leg: Number, *, name: str) -> str:
        points = (ORIGIN, (leg, leg), (ORIGIN[0], leg))
        unit = plain_unit(UnitKind.SIDE_TRIANGLE, letter, points=points, name=name)
        return self.leaves.add(unit, name.replace(" ", "-"))

    def _corner(self, at: Point, *, turn: int) -> Placed:
        """Place a corner triangle; unturned, its right angle is at the top."""
        zero, side = ORIGIN[0], self.side
        points = ((zero, side * HALF), (side * HALF, zero), (side, side * HALF))
        unit = plain_unit(UnitKind.CORNER_TRIANGLE, self.triangle, points=points, name=CORNER)
        return Placed(part=self.leaves.add(unit, "corner-triangle"), at=at, turn=turn)
