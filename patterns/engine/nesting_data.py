"""How the seams of a part are pressed, as data in its operations: by rows, and seam by seam for the pictures.

Written into the operation that ends a part:
- press: for each row the direction of its seams, 1 to the right, -1 to the left, 0 open; press_long: of the
  seams between rows, 1 downward, -1 upward, 0 open.
- pressed: each seam by a point on it (`at`, finished inches in the part's frame) and the direction `toward`
  which it is pressed; `open` where both sides are.
- press_other: how many copies are pressed another way, with the same three.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from patterns.engine.nesting import Nesting
from patterns.engine.nesting_forms import BANDED, BETWEEN_ROWS, FROM_STRIPS, IN_ROW, IN_UNIT, Form, InnerSeam
from patterns.engine.nesting_net import PressClass
from patterns.engine.parts import Point, Rows, Unit
from patterns.engine.pressing import OPEN
from patterns.engine.surds import Number
from patterns.engine.units.base import pair
from patterns.engine.units.strips import bands, canonical

HALF = Fraction(1, 2)
Data = dict[str, Any]


def pressed_part(nesting: Nesting, part: str) -> Data:
    """Give how a part is pressed; nothing where it has no seams that are pressed by choice."""
    form, classes = nesting.forms[part], nesting.classes[part]
    if not form.seams:
        return {}
    data = _pressed(form, classes[0].ways)
    for other in classes[1:]:
        data["press_other"] = {"count": other.count, **_pressed(form, other.ways)}
    return data


def pressed_operations(
    nesting: Nesting, unit: Unit, operations: Sequence[Data], *, method: str
) -> list[Data]:
    """Write into a unit's operations how its seams are pressed; strip sets before they are cut, too."""
    found = [dict(operation) for operation in operations]
    if unit.kind in BANDED and method == FROM_STRIPS:
        sets = [operation for operation in found if operation["op"] == "rows" and len(operation["rows"]) == 1]
        for operation, ways in zip(sets, set_ways(nesting, unit), strict=False):
            operation |= {"press": [list(ways)], "press_long": []}
    last, data = found[-1], pressed_part(nesting, unit.id)
    if last["op"] != "rows":
        last |= {key: row for key, row in data.items() if key not in ("press", "press_long")}
    elif data:
        is_joined = [len(row) > 1 for row in last["rows"]]  # segments come with their seams pressed
        press = [row if joined else [] for row, joined in zip(data["press"], is_joined, strict=True)]
        last |= {**data, "press": press}
    return found


def set_ways(nesting: Nesting, unit: Unit) -> list[tuple[int, ...]]:
    """Give how each strip set of a unit is pressed, in the order they are sewn."""
    form, ways = nesting.forms[unit.id], nesting.classes[unit.id][0].ways
    found: dict[object, tuple[int, ...]] = {}
    rows = _by_rows(form, ways, [len(band.strips) - 1 for band in bands(unit)])
    for band, row in zip(bands(unit), rows, strict=True):
        kept = canonical(band)
        found.setdefault(kept, tuple(row) if kept == band else tuple(-way for way in reversed(row)))
    return list(found.values())


def press_by_rows(form: Form, one: PressClass) -> tuple[list[list[int]], list[int]]:
    """Give the directions of the seams of each row, and of those between rows."""
    part = form.part
    counts = [len(row) - 1 for row in part.rows] if isinstance(part, Rows) else []
    return _by_rows(form, one.ways, counts), _ways(form, one.ways, BETWEEN_ROWS)


def _pressed(form: Form, ways: tuple[int, ...]) -> Data:
    part = form.part
    data: Data = {"pressed": [_arrow(form, seam, ways[seam.number]) for seam in form.seams]}
    if isinstance(part, Rows):
        counts = [len(row) - 1 for row in part.rows]
    elif isinstance(part, Unit) and part.kind in BANDED:
        counts = [len(band.strips) - 1 for band in bands(part)]
    else:
        return data
    return data | {
        "press": _by_rows(form, ways, counts),
        "press_long": _ways(form, ways, BETWEEN_ROWS),
    }


def _by_rows(form: Form, ways: tuple[int, ...], counts: Sequence[int]) -> list[list[int]]:
    rest = iter(_ways(form, ways, IN_ROW))
    return [list(itertools.islice(rest, count)) for count in counts]


def _ways(form: Form, ways: tuple[int, ...], order: int) -> list[int]:
    return [ways[seam.number] * seam.sign for seam in form.seams if seam.order == order]


def _arrow(form: Form, seam: InnerSeam, way: int) -> Data:
    x, y = seam.toward
    sign = way * seam.sign or 1
    row = {"at": pair(*_spot(form, seam)), "toward": pair(x * sign, y * sign)}
    return {**row, "open": True} if way == OPEN else row


def _spot(form: Form, seam: InnerSeam) -> Point:
    """Give the middle of the longest stretch of a seam that no earlier seam of the part ends in."""
    if seam.order != BETWEEN_ROWS:
        return _middle(seam.start, seam.end)
    y = seam.start[1]
    across = [other for other in form.seams if other.order not in (IN_UNIT, BETWEEN_ROWS)]
    ends = {other.start[0] for other in across if y in (other.start[1], other.end[1])}
    places: list[Number] = sorted({*ends, seam.start[0], seam.end[0]})
    start, end = max(itertools.pairwise(places), key=lambda stretch: stretch[1] - stretch[0])
    return _middle((start, y), (end, y))


def _middle(start: Point, end: Point) -> Point:
    return ((start[0] + end[0]) * HALF, (start[1] + end[1]) * HALF)
