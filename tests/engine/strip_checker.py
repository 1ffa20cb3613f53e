"""An independent look at strip plans, from nothing but their plain data."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from patterns.engine.measure import inches

if TYPE_CHECKING:
    from collections.abc import Iterable
    from fractions import Fraction

    from patterns.engine.strips import Demand


def check_plan(data: dict[str, Any], demands: Iterable[Demand], *, usable_width: Fraction) -> None:
    """Assert that the pieces fit, do not overlap, are cut edge to edge, and are those asked for."""
    wanted = {demand.label: demand for demand in demands if demand.count}
    given: Counter[str] = Counter()
    total = inches(0)
    for strip in data["strips"]:
        height = inches(strip["height"])
        total += height * strip["repeat"]
        boxes = []
        for cut in strip["cuts"]:
            demand = wanted[cut["label"]]
            x, y, width, length = (inches(cut[name]) for name in ("x", "y", "width", "length"))
            as_written = (demand.length, demand.width) if cut["turned"] else (demand.width, demand.length)
            assert (width, length) == as_written
            assert demand.may_turn or not cut["turned"]
            assert x + width <= inches(data["needs_width"]) <= usable_width
            assert y + length <= height
            boxes.append((x, y, width, length))
            given[cut["label"]] += 0 if cut.get("surplus") else strip["repeat"]
        check_edge_to_edge(sorted(boxes))
    assert total == inches(data["total_length"]) >= inches(data["lower_bound"])
    assert data["proven"] == (data["total_length"] == data["lower_bound"])
    assert given == Counter({label: demand.count for label, demand in wanted.items()})


def check_edge_to_edge(boxes: list[tuple[Fraction, Fraction, Fraction, Fraction]]) -> None:
    """Assert that each piece begins where the one beside or below it ends: one knife line each."""
    assert boxes[0][:2] == (0, 0)
    for (x, y, width, length), (next_x, next_y, next_width, _) in pairwise(boxes):
        beside = (next_x, next_y) == (x + width, 0)
        above = (next_x, next_y, next_width) == (x, y + length, width)
        assert beside or above
