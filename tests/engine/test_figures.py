"""Drawings beyond rows: diamonds, partial seams, set-in seams and templates get their order, and sew back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block
from patterns.engine.geometry import tidied
from patterns.engine.layout import laid_out
from patterns.engine.parts import Assembly, Fitted, Order, SeamKind, Unit
from tests.engine import figure_drawings as drawn


def sewn_back(block: Block, order: Assembly) -> bool:
    laid = Counter((each.fabric, tidied(each.points)) for each in laid_out(order))
    return laid == Counter((each.fabric, tidied(each.points)) for each in block.patches)


def seams(order: Assembly) -> Counter[str]:
    found: Counter[str] = Counter()
    for part in order.parts:
        if isinstance(part, Fitted):
            found.update({str(seam.kind): order.make[part.id] for seam in part.seams})
    return found


def units(order: Assembly) -> Counter[str]:
    found: Counter[str] = Counter()
    for part in order.parts:
        if isinstance(part, Unit):
            found[str(part.kind)] += order.make[part.id]
    return found


@pytest.mark.parametrize(
    ("draw", "order", "kinds"),
    [
        (drawn.eight_point_star, Order.SET_IN_SEAM, {"diamond": 8, "square": 4, "triangle": 4}),
        (drawn.bright_hopes, Order.PARTIAL_SEAM, {"square": 1, "rectangle": 4}),
        (drawn.attic_window, Order.SET_IN_SEAM, {"square": 1, "template": 2}),
        (drawn.economy, Order.STRAIGHT, {"four-patch": 1, "triangle": 4}),
        (drawn.spool, Order.SET_IN_SEAM, {"square": 1, "template": 4}),
        (drawn.ell, Order.SET_IN_SEAM, {"square": 1, "template": 1}),
    ],
)
def test_each_gets_its_order_and_units(
    draw: Callable[[], Block], order: Order, kinds: dict[str, int]
) -> None:
    block = draw()
    found = sewing_order(block)
    assert sewn_back(block, found)
    assert (found.order, units(found)) == (order, kinds)
    assert sewing_order(block) == found


def test_the_corners_of_an_eight_point_star_are_set_in_last() -> None:
    """Diamond and triangle, set in the other diamond; halves; one seam (sewing orders are from memory)."""
    order = sewing_order(drawn.eight_point_star())
    whole = order.parts[-1]
    assert isinstance(whole, Fitted)
    assert [placed.part for placed in whole.placed] == ["part-4", *["square-1"] * 4]
    assert {(seam.kind, len(seam.path)) for seam in whole.seams} == {(SeamKind.SET_IN, 3)}
    assert (order.make["part-2"], order.make["part-3"], order.make["part-4"]) == (4, 2, 1)


def test_a_round_of_rectangles_is_begun_and_closed() -> None:
    whole = sewing_order(drawn.bright_hopes()).parts[-1]
    assert isinstance(whole, Fitted)
    first, *others, last = whole.seams
    assert (first.kind, first.part, last.kind, last.part) == (SeamKind.PARTIAL, 1, SeamKind.CLOSING, 1)
    assert {seam.kind for seam in others} == {SeamKind.STRAIGHT}
    start, stop, end = first.path
    assert (abs(start[1] - stop[1]), abs(stop[1] - end[1])) == (2, 2)
    assert last.path[0] == stop
