"""Placed blocks and the whole top, drawn in quilt letters and finished inches."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from bom.domain.drawings import placed_drawing
from bom.domain.quilt_tops import quilt_top
from bom.errors import ProgramError
from patterns.engine.surds import root
from patterns.models import PlacedBlock, Quilt
from tests.factories import make_block, make_program, make_user, place

pytestmark = pytest.mark.django_db

CORNER = {
    "name": "Corner",
    "grid": [2, 2],
    "patches": [
        {"fabric": "A", "points": [[0, 0], [1, 0], [1, 1], [0, 1]]},
        {"fabric": "B", "points": [[1, 0], [2, 0], [2, 2], [0, 2], [0, 1], [1, 1]]},
    ],
}


def placed_corner(**fields: Any) -> PlacedBlock:
    """Put a block with one square corner beside the others of the small quilt."""
    quilt = Quilt.objects.get(pk=make_program().quilt_id)
    made = place(quilt, make_block(CORNER, make_user()), 7, **fields)
    return PlacedBlock.objects.select_related("quilt", "block").get(pk=made.pk)


def test_letters_are_the_quilts_and_sizes_finished_inches() -> None:
    drawing = placed_drawing(placed_corner(letters={"A": "D", "B": "C"}))
    assert (drawing.width, drawing.height, drawing.letters) == (6, 6, ("C", "D"))
    square = next(patch for patch in drawing.patches if patch.fabric == "D")
    assert set(square.points) == {(0, 0), (3, 0), (3, 3), (0, 3)}


def test_a_turn_is_clockwise() -> None:
    drawing = placed_drawing(placed_corner(turn=1))
    square = next(patch for patch in drawing.patches if patch.fabric == "A")
    assert set(square.points) == {(3, 0), (6, 0), (6, 3), (3, 3)}  # from top left to top right


def test_smaller_block_gets_a_frame_that_fills_its_place() -> None:
    drawing = placed_drawing(placed_corner(own_size="5", frame_letter="C"))
    frame = [patch.points for patch in drawing.patches if patch.fabric == "C"]
    half = Fraction(1, 2)  # (6 - 5) / 2 on every side
    assert frame[0] == ((0, 0), (6, 0), (6, half), (0, half))
    assert frame[2] == ((0, half), (half, half), (half, 6 - half), (0, 6 - half))
    assert (drawing.width, drawing.height, len(frame)) == (6, 6, 4)


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"own_size": "7"}, "own_size"),
        ({"own_size": "5"}, "frame_letter"),
        ({"letters": {"A": "A"}}, "letters"),
    ],
)
def test_a_block_that_does_not_fit_names_the_field(fields: dict[str, Any], field: str) -> None:
    with pytest.raises(ProgramError) as caught:
        placed_drawing(placed_corner(**fields))
    assert caught.value.field == field
    assert "Corner" in caught.value.remedy


def test_a_block_that_is_not_square_is_refused() -> None:
    placed = placed_corner()
    placed.block.drawing = {
        **CORNER,
        "grid": [2, 3],
        "patches": [{"fabric": "A", "points": [[0, 0], [2, 0], [2, 3], [0, 3]]}],
    }
    with pytest.raises(ProgramError) as caught:
        placed_drawing(placed)
    assert caught.value.field == "drawing"


def test_straight_top_with_sashing_and_border() -> None:
    """3 x 6 + 2 x 2 = 22 by 6, and 3 in of border on every side."""
    top = quilt_top(Quilt.objects.get(pk=make_program().quilt_id))
    assert (top.width, top.height) == (28, 12)
    assert Counter(patch.fabric for patch in top.joining) == {"D": 2}
    assert Counter(patch.fabric for patch in top.border_strips) == {"A": 4}
    assert [block.name for block in top.blocks] == ["Ohio Star", "Sawtooth Star", "Nine Patch"]


def test_on_point_fills_empty_places_between_with_plain_squares() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(
        setting="on point", rows=5, columns=1, triangle_letter="A", sashing_width="0", border_width="0"
    )
    program.quilt.placed_blocks.filter(column=1).update(row=2, column=0)
    program.quilt.placed_blocks.filter(column=2).update(row=4, column=0)
    top = quilt_top(Quilt.objects.get(pk=program.quilt_id))
    assert (top.width, top.height) == (6 * root(2), 18 * root(2))


def test_an_empty_place_is_named_as_a_person_counts() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(columns=4)
    with pytest.raises(ProgramError) as caught:
        quilt_top(Quilt.objects.get(pk=program.quilt_id))
    assert (caught.value.field, caught.value.facts) == ("rows", {"row": 1, "column": 4})


@pytest.mark.parametrize("field", ["sashing_letter", "border_letter"])
def test_a_part_without_its_letter_is_named(field: str) -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(**{field: ""})
    with pytest.raises(ProgramError) as caught:
        quilt_top(Quilt.objects.get(pk=program.quilt_id))
    assert caught.value.field == field
