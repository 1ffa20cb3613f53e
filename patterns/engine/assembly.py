"""The sewing order of a block, found from its drawing: units, rows, block; alike parts made together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from patterns.engine import geometry
from patterns.engine.blocks import Block
from patterns.engine.dividing import (
    MOST_PATCHES_SEARCHED,
    MOST_PATCHES_WITH_ROOTS,
    Cuts,
    Divider,
)
from patterns.engine.errors import OtherSeamsNeeded, TooManySeams
from patterns.engine.geometry import Box, Corner
from patterns.engine.parts import Assembly, Order, Part, Patch, Placed, Point, Rows, Unit, UnitKind
from patterns.engine.recognise import Recognised, recognise
from patterns.engine.regions import Region, grid_boxes, region

_SLUGS = {
    UnitKind.SQUARE: "square",
    UnitKind.RECTANGLE: "rectangle",
    UnitKind.HALF_SQUARE: "half-square",
    UnitKind.QUARTER_SQUARE: "quarter-square",
    UnitKind.THREE_PATCH: "three-patch",
    UnitKind.FLYING_GEESE: "geese",
    UnitKind.SQUARE_IN_A_SQUARE: "square-in-a-square",
    UnitKind.STRIP_SET: "strip-set",
    UnitKind.FOUR_PATCH: "four-patch",
    UnitKind.NINE_PATCH: "nine-patch",
    UnitKind.HALF_RECTANGLE: "half-rectangle",
    UnitKind.CORNER_FLIP: "corner-flip",
    UnitKind.TRIANGLE_IN_A_SQUARE: "triangle-in-a-square",
    UnitKind.DRUNKARDS_PATH: "drunkards-path",
    UnitKind.TRIANGLE: "triangle",
    UnitKind.DIAMOND: "diamond",
    UnitKind.HEXAGON: "hexagon",
    UnitKind.KITE: "kite",
    UnitKind.TEMPLATE: "template",
    UnitKind.FOUNDATION: "foundation",
}
_EQUAL_PARTS = {(2, 1): "half", (1, 2): "half", (2, 2): "quarter"}  # rows, columns
_WHOLE = "block"


def sewing_order(block: Block) -> Assembly:
    """Find the sewing order of a block drawn in finished inches.

    OtherSeamsNeeded names the first part that straight seams square to the sides do not divide into
    known units: partial seams, set-in seams and templates are not written yet.  TooManySeams: some
    hundred seams follow each other.
    """
    try:
        return _straight_order(block)
    except RecursionError as error:
        raise TooManySeams(where="patches") from error


def _straight_order(block: Block) -> Assembly:
    factor, whole = _whole_region(block)
    rooted = any(not isinstance(number, int) for polygon in whole.polygons for c in polygon for number in c)
    divider = Divider(most_patches=MOST_PATCHES_WITH_ROOTS if rooted else MOST_PATCHES_SEARCHED)
    form, _ = whole.least()
    if divider.plan(form) is None:
        raise _stuck(block, whole, factor)
    writer = _Writer(factor=factor, divider=divider)
    placed = writer.placed(whole, at=(0, 0), name=_WHOLE)
    parts = tuple(writer.parts)
    return Assembly(order=Order.STRAIGHT, parts=parts, make=count_parts(parts), whole=placed)


def count_parts(parts: tuple[Part, ...]) -> dict[str, int]:
    """Count how many of each part the last one needs; parts that others need stand first."""
    make = Counter({parts[-1].id: 1})
    for part in reversed(parts):
        if not isinstance(part, Unit):
            for placed in part.placed:
                make[placed.part] += make[part.id]
    return {part.id: make[part.id] for part in parts}


@dataclass(slots=True, kw_only=True)
class _Writer:
    """Writes each form once, the larger parts in the frame in which they first lie in the drawing."""

    factor: int
    divider: Divider
    parts: list[Part] = field(default_factory=list)
    frames: dict[Region, tuple[str, int]] = field(default_factory=dict)  # id, turn from form to part
    numbers: Counter[str] = field(default_factory=Counter)

    def placed(self, drawn: Region, *, at: Corner, name: str) -> Placed:
        """Write the part where it is new, and place it."""
        form, turn = drawn.least()
        if form not in self.frames:
            plan = self.divider.plans[form]
            if plan.unit is not None:
                self._write_unit(form, plan.unit)
            else:
                self._write_rows(form, plan.cuts, turn=turn, name=name)
        part, frame = self.frames[form]
        return Placed(part=part, at=self._point(at), turn=(turn - frame) % form.period)

    def _write_unit(self, form: Region, unit: Recognised) -> None:
        width, height = self._point(form.turned(unit.turn).size)
        patches = tuple(
            Patch(fabric, tuple(self._point(corner) for corner in polygon))
            for fabric, polygon in zip(unit.fabrics, unit.polygons, strict=True)
        )
        part = Unit(
            id=self._id(_SLUGS[unit.kind]),
            kind=unit.kind,
            width=width,
            height=height,
            fabrics=unit.fabrics,
            hand=unit.hand,
            patches=patches,
        )
        self.parts.append(part)
        self.frames[form] = part.id, unit.turn

    def _write_rows(self, form: Region, cuts: Cuts, *, turn: int, name: str) -> None:
        drawn = form.turned(turn)
        cells = grid_boxes(drawn.size, *turned_cuts(cuts, form.size, quarters=turn))
        rows = tuple(
            tuple(self.placed(drawn.within(box), at=box[:2], name=_name_of_cell(box, cells)) for box in row)
            for row in cells
        )
        width, height = self._point(drawn.size)
        part_id = name if name == _WHOLE else self._id("part")
        self.parts.append(Rows(id=part_id, width=width, height=height, rows=rows, name=name))
        self.frames[form] = part_id, turn

    def _id(self, slug: str) -> str:
        self.numbers[slug] += 1
        return f"{slug}-{self.numbers[slug]}"

    def _point(self, corner: Corner) -> Point:
        """Give lattice numbers in inches."""
        return geometry.exact(corner[0]) / self.factor, geometry.exact(corner[1]) / self.factor


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


def _whole_region(block: Block) -> tuple[int, Region]:
    """Multiply the block by its common denominator."""
    numbers = [block.width, block.height]
    numbers += [number for patch in block.patches for point in patch.points for number in point]
    factor = geometry.common_denominator(numbers)
    patches = [
        (geometry.tidied([geometry.scaled_point(point, factor) for point in patch.points]), patch.fabric)
        for patch in block.patches
    ]
    return factor, region(size=geometry.scaled_point((block.width, block.height), factor), patches=patches)


def _stuck(block: Block, whole: Region, factor: int) -> OtherSeamsNeeded:
    """Find the first part that cannot be divided, and what it needs."""
    left, top, right, bottom = _stuck_box(whole, (0, 0)) or (0, 0, *whole.size)
    box = [geometry.exact(number) / factor for number in (left, top, right, bottom)]
    patches = tuple(
        number
        for number, patch in enumerate(block.patches)
        if all(box[0] <= x <= box[2] and box[1] <= y <= box[3] for x, y in patch.points)
    )
    needs = _needs(whole.within((left, top, right, bottom)))
    return OtherSeamsNeeded(where=(box[0], box[1]), patches=patches, needs=needs)


def _stuck_box(part: Region, at: Corner) -> Box | None:
    across, down = part.seams(0), part.seams(1)
    if recognise(part) is not None:
        return None
    if not across and not down:
        return (*at, at[0] + part.size[0], at[1] + part.size[1])
    for box in (box for row in grid_boxes(part.size, across, down) for box in row):
        found = _stuck_box(part.within(box), (at[0] + box[0], at[1] + box[1]))
        if found is not None:
            return found
    return None


def _needs(part: Region) -> Order:
    """Rectangles want a partial seam; what a slanting line divides, other shapes; the rest is set in."""
    sides = [edge for polygon in part.polygons for edge in geometry.edges(polygon)]
    if all(start[0] == end[0] or start[1] == end[1] for start, end in sides):
        return Order.PARTIAL_SEAM
    return Order.TEMPLATE if any(_divides(edge, part) for edge in sides) else Order.SET_IN_SEAM


def _divides(edge: tuple[Corner, Corner], part: Region) -> bool:
    """Say whether the line of an edge has whole patches on both sides and cuts none."""
    sides = [{geometry.side(corner, *edge) for corner in polygon} - {0} for polygon in part.polygons]
    return all(len(found) == 1 for found in sides) and len(set.union(*sides)) > 1
