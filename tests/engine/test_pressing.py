"""Pressing: seams nest where rows meet; what is free goes to the plain or the dark."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from patterns.engine.methods import Style
from patterns.engine.parts import Part, Placed, Rows
from patterns.engine.pressing import arrows, press_long, press_rows, press_words
from patterns.engine.steps import Phrase
from tests.engine.drawn import SLUGS, recipe
from tests.engine.unit_samples import half_square, square

PARTS: dict[str, Part] = {"plain": square(3), "dark": square(3, "B"), "pieced": half_square(3)}


def rows(*names: str) -> Rows:
    """Lay parts out, one word a row: p plain, d dark, x pieced."""
    part = {"p": "plain", "d": "dark", "x": "pieced"}
    placed = tuple(
        tuple(Placed(part=part[c], at=(Fraction(3 * x), Fraction(3 * y)), turn=0) for x, c in enumerate(row))
        for y, row in enumerate(names)
    )
    return Rows(id="r", width=Fraction(9), height=Fraction(9), rows=placed)


def test_seams_go_to_the_plain_neighbour() -> None:
    assert press_rows(rows("pxp", "xpx", "pxp"), PARTS, Style()) == [[-1, 1], [1, -1], [-1, 1]]


def test_seams_go_to_the_darker_of_two_plain_ones() -> None:
    assert press_rows(rows("pd"), PARTS, Style()) == [[1]]
    assert press_rows(rows("pd"), PARTS, Style(dark={"A": 2, "B": 1})) == [[-1]]


def test_without_a_reason_rows_alternate() -> None:
    assert press_rows(rows("xxx", "xxx"), PARTS, Style()) == [[1, 1], [-1, -1]]


def test_long_seams_go_to_the_row_with_less_bulk() -> None:
    assert press_long(rows("x", "p"), PARTS) == [1]
    assert press_long(rows("p", "x"), PARTS) == [-1]


def test_arrows_are_written_row_by_row() -> None:
    assert arrows([[-1, 1], [1, -1], [-1, 1]]) == "1, 3: ← →; 2: → ←"
    assert arrows([[1]]) == "→"


def test_seams_that_meet_nest_in_every_block() -> None:
    for slug in SLUGS:
        for step in recipe(slug).steps:
            for operation in step.operations:
                if _is_nine(operation):
                    upper, middle, lower = operation["press"]
                    assert upper == [-way for way in middle] == lower


def _is_nine(operation: Mapping[str, Any]) -> bool:
    """Say whether an operation joins three rows of three alike columns, as in most blocks drawn here."""
    return operation["op"] == "rows" and [len(row) for row in operation["rows"]] == [3, 3, 3]


def test_plain_pieces_below_each_other_have_no_seams_to_pin() -> None:
    column = [PARTS["plain"], PARTS["dark"]]
    assert press_words([[], []], [1], parts=column)[0] == Phrase("Sew them together, one below the other.")
    pinned = Phrase("Sew them together, pinned where seams meet.")
    assert press_words([[], []], [1], parts=[*column, PARTS["pieced"]])[0] == pinned
    assert press_words([[], []], [1])[0] == pinned
