"""Units are recognised from their shapes, in the frame that parts.Unit states, fabrics in one order only."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.assembly import sewing_order
from patterns.engine.parts import Hand, Unit, UnitKind
from tests.engine.drawings import Drawing, block, box, inches, patch

TOP, RIGHT, BOTTOM, LEFT = (
    ((0, 0), (2, 0), (1, 1)),
    ((2, 0), (2, 2), (1, 1)),
    ((2, 2), (0, 2), (1, 1)),
    ((0, 2), (0, 0), (1, 1)),
)


def unit(grid: tuple[int, int], *patches: Drawing, turn: int = 0, size: int = 4) -> Unit:
    """Draw one unit, turn it, and see what it is taken for."""
    assembly = sewing_order(inches(block(grid, *patches), size).turned(turn))
    (found,) = assembly.parts
    assert isinstance(found, Unit)
    assert assembly.make == {found.id: 1}
    return found


def half_square(below: str, above: str, turn: int = 0) -> Unit:
    patches = patch(below, (0, 0), (2, 2), (0, 2)), patch(above, (0, 0), (2, 0), (2, 2))
    return unit((2, 2), *patches, turn=turn)


def quarter_square(fabrics: str, turn: int = 0) -> Unit:
    pairs = zip(fabrics, (TOP, RIGHT, BOTTOM, LEFT), strict=True)
    return unit((2, 2), *(patch(fabric, *points) for fabric, points in pairs), turn=turn)


def three_patch(half: str, top: str, right: str) -> Unit:
    return unit((2, 2), patch(half, (0, 0), (2, 2), (0, 2)), patch(top, *TOP), patch(right, *RIGHT))


def geese(goose: str, left: str, right: str, *, turn: int = 0) -> Unit:
    patches = (
        patch(goose, (0, 1), (1, 0), (2, 1)),
        patch(left, (0, 0), (1, 0), (0, 1)),
        patch(right, (1, 0), (2, 0), (2, 1)),
    )
    return unit((2, 1), *patches, turn=turn)


@pytest.mark.parametrize("turn", range(4))
def test_a_half_square_is_one_unit_however_it_is_turned(turn: int) -> None:
    found = half_square("B", "A", turn)
    assert found.kind is UnitKind.HALF_SQUARE
    assert (found.fabrics, found.hand) == (("A", "B"), Hand.EITHER)
    below, above = found.patches
    assert (below.fabric, set(below.points)) == ("A", {(0, 0), (4, 4), (0, 4)})
    assert (above.fabric, set(above.points)) == ("B", {(0, 0), (4, 0), (4, 4)})


def test_quarter_squares_start_with_the_first_letter_and_have_a_hand() -> None:
    assert quarter_square("BABA").fabrics == ("A", "B", "A", "B")
    one, other = quarter_square("CDAB"), quarter_square("CBAD")
    assert (one.fabrics, one.hand) == (("A", "B", "C", "D"), Hand.LEFT)
    assert (other.fabrics, other.hand) == (("A", "D", "C", "B"), Hand.RIGHT)
    assert quarter_square("ABAC").hand is Hand.EITHER  # equal to its mirror image
    assert quarter_square("AABB").hand is Hand.EITHER


@given(st.sampled_from([*permutations("ABCD"), *permutations("AABC")]), st.integers(0, 3))
def test_a_turn_changes_neither_fabrics_nor_hand(fabrics: tuple[str, ...], turn: int) -> None:
    assert quarter_square("".join(fabrics), turn) == quarter_square("".join(fabrics))


def test_a_three_patch_is_left_or_right_by_the_letters_of_its_small_triangles() -> None:
    left, right = three_patch("D", "A", "B"), three_patch("D", "B", "A")
    assert left.kind is UnitKind.THREE_PATCH
    assert (left.fabrics, left.hand) == (("D", "A", "B"), Hand.LEFT)
    assert (right.fabrics, right.hand) == (("D", "B", "A"), Hand.RIGHT)
    assert three_patch("D", "A", "A").hand is Hand.EITHER


@pytest.mark.parametrize("turn", range(4))
def test_geese_point_up_goose_first(turn: int) -> None:
    found = geese("A", "B", "B", turn=turn)
    assert found.kind is UnitKind.FLYING_GEESE
    assert (found.fabrics, found.hand) == (("A", "B", "B"), Hand.EITHER)
    assert set(found.patches[0].points) == {(0, 2), (2, 0), (4, 2)}


def test_geese_with_two_wings_have_a_hand() -> None:
    assert geese("A", "B", "C").hand is Hand.LEFT
    assert geese("A", "C", "B").hand is Hand.RIGHT


def test_a_goose_whose_point_is_off_the_middle_is_no_goose() -> None:
    patches = (
        patch("A", (0, 2), (1, 0), (4, 2)),
        patch("B", (0, 0), (1, 0), (0, 2)),
        patch("B", (1, 0), (4, 0), (4, 2)),
    )
    parts = sewing_order(inches(block((4, 2), *patches))).parts
    assert UnitKind.FLYING_GEESE not in {part.kind for part in parts if isinstance(part, Unit)}


def test_square_in_a_square_names_its_centre_then_the_corners_from_the_first_letter_on() -> None:
    corners = [
        ((0, 0), (1, 0), (0, 1)),
        ((1, 0), (2, 0), (2, 1)),
        ((2, 1), (2, 2), (1, 2)),
        ((1, 2), (0, 2), (0, 1)),
    ]
    patches = [patch(fabric, *points) for fabric, points in zip("CADB", corners, strict=True)]
    found = unit((2, 2), patch("E", (1, 0), (2, 1), (1, 2), (0, 1)), *patches)
    assert found.kind is UnitKind.SQUARE_IN_A_SQUARE
    assert (found.fabrics, found.hand) == (("E", "A", "D", "B", "C"), Hand.RIGHT)


def test_strips_lie_side_by_side_from_the_first_letter_on() -> None:
    found = unit((3, 3), box("C", 0, 0, width=3), box("B", 0, 1, width=3), box("A", 0, 2, width=3), size=3)
    assert found.kind is UnitKind.STRIP_SET
    assert (found.fabrics, found.hand) == (("A", "B", "C"), Hand.EITHER)
    assert [min(strip.points) for strip in found.patches] == [(0, 0), (1, 0), (2, 0)]


def test_strips_may_be_of_unequal_width_but_two_such_are_only_two_pieces() -> None:
    wide = (box("A", 0, 0, height=4), box("B", 1, 0, width=2, height=4), box("A", 3, 0, height=4))
    assert unit((4, 4), *wide).kind is UnitKind.STRIP_SET
    two = block((4, 4), box("A", 0, 0, height=4), box("B", 1, 0, width=3, height=4))
    assert [part.id for part in sewing_order(inches(two)).parts] == ["rectangle-1", "rectangle-2", "block"]


def test_more_than_nine_strips_are_divided() -> None:
    strips = [box("AB"[x % 2], x, 0, height=10) for x in range(10)]
    kinds = {
        part.kind for part in sewing_order(inches(block((10, 10), *strips))).parts if isinstance(part, Unit)
    }
    assert kinds == {UnitKind.STRIP_SET}


def test_strips_of_one_fabric_are_no_strip_set() -> None:
    same = block((2, 2), box("A", 0, 0, height=2), box("A", 1, 0, height=2))
    assert [part.id for part in sewing_order(inches(same)).parts] == ["rectangle-1", "block"]


def test_four_and_nine_patches_are_listed_row_by_row() -> None:
    four = unit((2, 2), *(box("ABBA"[x + 2 * y], x, y) for y in range(2) for x in range(2)))
    assert (four.kind, four.fabrics) == (UnitKind.FOUR_PATCH, ("A", "B", "B", "A"))
    nine = unit((3, 3), *(box("BA"[(x + y) % 2], x, y) for y in range(3) for x in range(3)), size=9)
    assert (nine.kind, nine.fabrics) == (UnitKind.NINE_PATCH, tuple("BABABABAB"))


def test_a_rectangle_lies_with_its_long_side_across() -> None:
    tall = unit((1, 2), box("A", 0, 0, height=2))
    assert (tall.kind, tall.width, tall.height) == (UnitKind.RECTANGLE, 4, 2)


def test_triangles_of_one_fabric_only_are_still_triangles() -> None:
    assert half_square("A", "A").kind is UnitKind.HALF_SQUARE
    assert quarter_square("AAAA").kind is UnitKind.QUARTER_SQUARE
