"""Large print: pictures whose letters are as large as the words, and layouts said in words.

Somebody who cannot see the picture of a layout can still lay it out: row by row, what lies there, and
which fabric of it lies where.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as _lazy

from patterns.engine.surds import Surd

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from patterns.engine.blocks import Block
    from patterns.engine.parts import Patch
    from patterns.engine.steps import Recipe, Step

LARGER = 2.25  # times: the letters of a picture, 8 pt, come to 18 pt
MOST_LETTERS = 6  # fabrics that are told apart in one unit of a row
MIDDLE = 0.12  # of a unit's side: what lies nearer to its middle lies in the middle
_SIDES = re.compile(r'width="([\d.]+)" height="([\d.]+)"')
_WHERE = {
    (-1, -1): _lazy("upper left"), (0, -1): _lazy("top"), (1, -1): _lazy("upper right"),
    (-1, 0): _lazy("left"), (0, 0): _lazy("middle"), (1, 0): _lazy("right"),
    (-1, 1): _lazy("lower left"), (0, 1): _lazy("bottom"), (1, 1): _lazy("lower right"),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Box:
    """A rectangle of a drawing, finished inches from its upper left corner."""

    left: float
    top: float
    width: float
    height: float

    def holds(self, x: float, y: float) -> bool:
        """Whether a point lies in it."""
        return self.left < x < self.left + self.width and self.top < y < self.top + self.height


def enlarged(svg: str) -> str:
    """Give a picture in large print, its letters too."""
    found = _SIDES.search(svg)
    if found is None:
        raise ValueError("a picture says its width and height first")
    width, height = (f"{float(side) * LARGER:.6g}" for side in found.groups())
    return f'{svg[: found.start()]}width="{width}" height="{height}"{svg[found.end() :]}'


def small_width(width: int) -> int:
    """Give the width to draw a picture in that is enlarged to a width."""
    return int(width / LARGER)


def layouts(recipe: Recipe, drawing: Block | None) -> Mapping[int, tuple[str, ...]]:
    """Say for each step that joins rows what lies in them, by the step's number; {} where it cannot be told.

    From the last step backwards: what is joined there lies in the drawing as it is, and so does each part
    that is joined of rows itself and is not turned.
    """
    if drawing is None or _has_roots(drawing):
        return {}
    sizes, kinds = _sizes(recipe), {row.part: row.kind.value for row in recipe.units}
    boxes = {
        _joined(recipe.steps[-1]): _Box(
            left=0, top=0, width=float(drawing.width), height=float(drawing.height)
        )
    }
    said: dict[int, tuple[str, ...]] = {}
    for step in reversed(recipe.steps):
        rows, box = _rows_of(step), boxes.get(_joined(step))
        if rows and box:
            cells = list(_cells(rows, box, sizes))
            boxes |= {ref: cell for row in cells for ref, turn, cell in row if turn == 0}
            if all(row for row in cells):
                said[step.number] = tuple(_say_rows(cells, drawing, kinds))
    return said


_Cell = tuple[str, int, _Box]


def _has_roots(drawing: Block) -> bool:
    return any(
        isinstance(side, Surd) for patch in drawing.patches for point in patch.points for side in point
    )


def _sizes(recipe: Recipe) -> dict[str, tuple[float, float]]:
    """Give finished width and height of every piece, unit and joined part, by its reference."""
    seams = 2 * float(recipe.seam)
    found = {piece.id: (float(piece.width) - seams, float(piece.length) - seams) for piece in recipe.pieces}
    for step in recipe.steps:
        if step.check and _joined(step):
            found[_joined(step)] = (float(step.check[0]) - seams, float(step.check[1]) - seams)
    units = {row.part: (float(row.finished[0]), float(row.finished[1])) for row in recipe.units}
    return found | units


def _joined(step: Step) -> str:
    """Give the reference of what a step makes of rows; "" for other steps."""
    made = [row["gives"] for row in step.operations if row["op"] == "rows"]
    return str(made[-1]) if made else ""


def _rows_of(step: Step) -> Sequence[Sequence[Any]]:
    made = [row["rows"] for row in step.operations if row["op"] == "rows"]
    rows: Sequence[Sequence[Any]] = made[-1] if len(made) == 1 else ()
    return rows


def _cells(
    rows: Sequence[Sequence[Any]], box: _Box, sizes: Mapping[str, tuple[float, float]]
) -> Iterator[list[_Cell]]:
    """Place what rows hold; an empty row where the size of something is not known."""
    top = box.top
    for row in rows:
        known = [(ref, turn, sizes[ref]) for ref, turn in row if ref in sizes]
        sides = [(size[1], size[0]) if turn % 2 else size for _ref, turn, size in known]
        placed, left = [], box.left
        for (ref, turn, _size), (width, height) in zip(known, sides, strict=True):
            placed.append((ref, turn, _Box(left=left, top=top, width=width, height=height)))
            left += width
        yield placed if len(known) == len(row) else []
        top += max((height for _width, height in sides), default=0)


def _say_rows(cells: Iterable[list[_Cell]], drawing: Block, kinds: Mapping[str, str]) -> Iterator[str]:
    for number, row in enumerate(cells, 1):
        words = "; ".join(_say_cell(ref, box, drawing, kinds) for ref, _turn, box in row)
        yield _("Row {number}, from the left: {words}").format(number=number, words=words)


def _say_cell(ref: str, box: _Box, drawing: Block, kinds: Mapping[str, str]) -> str:  # noqa: PLR0917 -- what lies where
    """Name what lies in a cell, and where each of its fabrics lies."""
    patches = [patch for patch in drawing.patches if box.holds(*_middle(patch))]
    name = _(kinds[ref]) if ref in kinds else ref if len(patches) == 1 else _("the joined part")
    places = dict.fromkeys(f"{patch.fabric} {_where(patch, box)}" for patch in patches)
    if len(patches) <= 1 or len(places) > MOST_LETTERS:
        return name
    return f"{name} ({', '.join(places)})"


def _middle(patch: Patch) -> tuple[float, float]:
    xs, ys = ([float(point[axis]) for point in patch.points] for axis in (0, 1))
    return sum(xs) / len(xs), sum(ys) / len(ys)


def _where(patch: Patch, box: _Box) -> str:
    x, y = _middle(patch)
    across = (x - box.left) / box.width - 1 / 2
    down = (y - box.top) / box.height - 1 / 2
    return str(_WHERE[_way(across), _way(down)])


def _way(share: float) -> int:
    return 0 if abs(share) < MIDDLE else 1 if share > 0 else -1
