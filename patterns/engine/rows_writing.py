"""Writes rectangles that seams square to their sides divide: units, and rows of parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Protocol

from patterns.engine import geometry
from patterns.engine.dividing import Cuts, Divider
from patterns.engine.geometry import Box, Corner
from patterns.engine.part_books import PartBook
from patterns.engine.parts import Patch, Placed, Point, Rows, Unit
from patterns.engine.recognise import Recognised
from patterns.engine.regions import Region, grid_boxes
from patterns.engine.surds import Number

_EQUAL_PARTS = {(2, 1): "half", (1, 2): "half", (2, 2): "quarter"}  # rows, columns


class Figured(Protocol):
    """Writes a rectangle that no seam square to its sides divides, with its top left corner at (0, 0)."""

    def __call__(self, drawn: Region, *, name: str) -> Placed:
        """Place it as it lies, turned by quarters only."""
        ...


@dataclass(slots=True, kw_only=True)
class RowsWriter:
    """Writes each form once, the larger parts in the frame in which they first lie in the drawing."""

    step: Number  # inches of one length of its regions
    divider: Divider
    book: PartBook
    figured: Figured | None = None  # of what has no seam square to its sides
    frames: dict[Region, tuple[str, int]] = field(default_factory=dict)  # id, turn from form to part

    def placed(self, drawn: Region, *, at: Corner, name: str) -> Placed:
        """Write the part where it is new, and place it."""
        form, turn = drawn.least()
        if form not in self.frames:
            self._write(form, turn=turn, name=name)
        part, frame = self.frames[form]
        return Placed(part=part, at=self._point(at), turn=(turn - frame) % form.period)

    def _write(self, form: Region, *, turn: int, name: str) -> None:
        plan = self.divider.plans[form]
        if plan.unit is not None:
            self.frames[form] = self._unit(form, plan.unit), plan.unit.turn
        elif any(plan.cuts):
            self.frames[form] = self._rows(form, plan.cuts, turn=turn, name=name), turn
        elif self.figured is not None:
            placed = self.figured(form.turned(turn), name=name)
            self.frames[form] = placed.part, (turn - placed.turn) % geometry.QUARTERS

    def _unit(self, form: Region, unit: Recognised) -> str:
        width, height = self._point(form.turned(unit.turn).size)
        patches = tuple(
            Patch(fabric, tuple(self._point(corner) for corner in polygon))
            for fabric, polygon in zip(unit.fabrics, unit.polygons, strict=True)
        )
        return self.book.add(
            Unit(
                id="",
                kind=unit.kind,
                width=width,
                height=height,
                fabrics=unit.fabrics,
                hand=unit.hand,
                patches=patches,
            )
        )

    def _rows(self, form: Region, cuts: Cuts, *, turn: int, name: str) -> str:
        drawn = form.turned(turn)
        cells = grid_boxes(drawn.size, *turned_cuts(cuts, form.size, quarters=turn))
        rows = tuple(
            tuple(self.placed(drawn.within(box), at=box[:2], name=_name_of_cell(box, cells)) for box in row)
            for row in cells
        )
        width, height = self._point(drawn.size)
        return self.book.add(Rows(id="", width=width, height=height, rows=rows, name=name))

    def _point(self, corner: Corner) -> Point:
        """Give lattice numbers in inches."""
        return geometry.exact(corner[0]) * self.step, geometry.exact(corner[1]) * self.step


def turned_cuts(cuts: Cuts, size: Corner, *, quarters: int) -> Cuts:
    """Turn seams clockwise with the rectangle they cut."""
    (across, down), (width, height) = cuts, size
    for _ in range(quarters):
        across, down = tuple(sorted(height - y for y in down)), across
        width, height = height, width
    return across, down


def _name_of_cell(box: Box, cells: Sequence[Sequence[Box]]) -> str:
    """Say what a part of a grid is called: half, quarter, row, column, or just part."""
    rows, columns = len(cells), len(cells[0])
    sizes = {(right - left, bottom - top) for row in cells for left, top, right, bottom in row}
    if len(sizes) == 1 and (rows, columns) in _EQUAL_PARTS:
        return _EQUAL_PARTS[rows, columns]
    width, height = box[2] - box[0], box[3] - box[1]
    if columns == 1 and width >= 2 * height:
        return "row"
    return "column" if rows == 1 and height >= 2 * width else "part"
