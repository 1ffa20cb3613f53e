"""The sewing table by itself: its plane geometry, its operations, and what it refuses."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.rebuilding.faults import Rule, SewingFault
from patterns.engine.rebuilding.plane import (
    Line,
    area,
    clip,
    hull,
    inside,
    line_through,
    meeting,
    rectangle,
    reflect,
    tidy,
    turn_onto,
)
from patterns.engine.rebuilding.table import Table
from patterns.engine.rebuilding.works import cloth
from patterns.engine.surds import root

N = Fraction
SQUARE = rectangle(N(4), N(4))


def point(x: object, y: object) -> tuple[Fraction, Fraction]:
    return (N(x), N(y))


def table(**pieces: tuple[str, int]) -> Table:
    """Lay squares on a table: name = (letter, side), five of each."""
    found = Table(N(1, 4))
    for name, (letter, side) in pieces.items():
        found.put(name, cloth(letter, width=N(side), length=N(side), piece=name), 5)
    return found


def stack(**changes: Any) -> dict[str, Any]:
    diagonal = {"from": "top left", "to": "bottom right"}
    return {
        "op": "stack",
        "base": "p",
        "top": [{"ref": "q", "corner": "every"}],
        "sew": [{**diagonal, "offset": "1/4"}, {**diagonal, "offset": "-1/4"}],
        "cut": [{**diagonal, "offset": "0"}],
        "seam": "s1",
        "gives": [{"id": "u", "at": "each"}],
    } | changes


def refused(found: Table, operation: dict[str, Any]) -> Rule:
    with pytest.raises(SewingFault) as fault:
        found.sew(operation)
    return fault.value.rule


def test_near_side_of_a_line_is_its_left() -> None:
    line = line_through(point(0, 0), point(4, 0))
    assert line.height(point(1, -1)) < 0 < line.height(point(1, 1))
    assert line.moved(N(1, 2)).height(point(0, N(1, 2))) == 0


def test_clip_reflect_and_area_are_exact() -> None:
    diagonal = line_through(point(0, 0), point(4, 4))
    half = clip(SQUARE, diagonal)
    assert area(half) == 8
    assert {reflect(diagonal, p) for p in half} == {point(0, 0), point(0, 4), point(4, 4)}
    assert clip(SQUARE, Line(point(1, 0), N(-1))) == ()
    assert clip(SQUARE, Line(point(1, 0), N(9))) is SQUARE


def test_meeting_of_parallel_lines_is_none() -> None:
    assert meeting(Line(point(1, 0), N(1)), Line(point(2, 0), N(4))) is None
    assert meeting(Line(point(1, 0), N(1)), Line(point(0, 1), N(2))) == point(1, 2)


def test_tidy_drops_straight_corners_and_begins_at_the_same_corner() -> None:
    loose = (point(4, 4), point(0, 4), point(0, 0), point(2, 0), point(4, 0), point(4, 0))
    assert tidy(loose) == tidy(loose[::-1]) == SQUARE


def test_hull_and_inside() -> None:
    assert hull([*SQUARE, point(1, 1), point(2, 0)]) == SQUARE
    assert inside(SQUARE, point(4, 2))
    assert not inside(SQUARE, point(5, 2))


def test_eighth_of_a_turn_is_exact() -> None:
    turn = turn_onto(point(1, 0), point(1, 1))
    assert turn.cos == turn.sin == root(2) / 2


def test_two_triangles_of_a_square_are_alike_and_lie_with_the_square_corner_top_left() -> None:
    found = table(p=("A", 4))
    found.to_cut["p"] = "cut once diagonally"
    found.sew({"op": "cut", "of": "p", "along": "one diagonal", "gives": "t"})
    work, count = found.stock["t"]
    assert count == 2
    assert set(work.facets[0].points) == {point(0, 0), point(4, 0), point(0, 4)}


def test_pair_of_squares_gives_two_half_squares_from_one_of_each() -> None:
    found = table(p=("A", 4), q=("B", 4))
    found.sew(stack())
    assert found.stock["u"][1] == 2
    assert found.stock["p"][1] == found.stock["q"][1] == 4
    assert sorted(facet.letter for facet in found.stock["u"][0].facets) == ["A", "B"]


def test_layers_of_unlike_size_do_not_lie_corner_on_corner() -> None:
    assert refused(table(p=("A", 4), q=("B", 3)), stack()) is Rule.CORNER


def test_cut_beside_the_line_leaves_no_allowance() -> None:
    beside = [{"from": "top left", "to": "bottom right", "offset": "1/8"}]
    assert refused(table(p=("A", 4), q=("B", 4)), stack(cut=beside)) is Rule.ALLOWANCE


def test_parts_that_are_not_cut_apart_are_sewn_shut() -> None:
    assert refused(table(p=("A", 4), q=("B", 4)), stack(cut=[])) in (Rule.OPEN, Rule.ALLOWANCE)


def test_one_seam_too_few_leaves_loose_layers() -> None:
    once = [{"from": "top left", "to": "bottom right", "offset": "1/4"}]
    assert refused(table(p=("A", 4), q=("B", 4)), stack(sew=once)) is Rule.OPEN


def test_more_than_there_is_cannot_be_taken() -> None:
    assert refused(table(p=("A", 4), q=("B", 4)), stack(times=6)) is Rule.COUNT
    assert refused(table(p=("A", 4)), stack()) is Rule.COUNT


def test_unknown_operation_is_refused() -> None:
    assert refused(table(p=("A", 4)), {"op": "glue"}) is Rule.READABLE


def test_rows_need_equal_edges() -> None:
    found = table(p=("A", 4), q=("B", 3))
    rows = {"op": "rows", "rows": [[["p", 0], ["q", 0]]], "seam": "1/4", "gives": "r"}
    assert refused(found, rows) is Rule.EDGES


def test_strip_set_is_cut_no_oftener_than_it_is_long() -> None:
    found = table(p=("A", 4))
    assert (
        refused(found, {"op": "across", "of": "p", "every": "3/2", "pieces": 3, "gives": "s"}) is Rule.COVER
    )
    assert found.stock["p"][1] == 4
