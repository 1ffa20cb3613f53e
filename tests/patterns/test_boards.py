"""The drawing board: what is typed is read exactly, a board is plain data, letters stay where they lay."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction

import pytest

from patterns.domain.boards import Board, board_as_data, board_from_data, board_of, point_text, read_point
from patterns.engine.arcs import BadArc
from patterns.engine.errors import DrawingError, SeamOutside
from patterns.engine.parts import Point
from patterns.engine.seam_lines import Seam
from tests.engine.applique_samples import sample
from tests.engine.drawings import SLUGS, traditional

F = Fraction


def seam(start: str, end: str) -> Seam:
    return Seam(start=read_point(start), end=read_point(end))


@pytest.mark.parametrize(
    ("text", "point"),
    [
        ("3, 1", (3, 1)),
        ("1 1/2,2", (F(3, 2), 2)),
        ("0.5; 2½", (F(1, 2), F(5, 2))),
        (" 3/2 , 0", (F(3, 2), 0)),
    ],
)
def test_points_are_read_as_they_are_typed(text: str, point: Point) -> None:
    assert read_point(text) == point


@pytest.mark.parametrize(
    "text", ["", "3", "3 1", "a, 1", "1, ", "1/0, 1", "-1, 2", "1/997, 0", "1" * 30 + ", 2", "r2, 1"]
)
def test_what_is_no_point_is_refused(text: str) -> None:
    with pytest.raises(ValueError):
        read_point(text)


def test_a_point_is_said_as_it_is_typed() -> None:
    assert point_text((F(3, 2), F(2))) == "1 1/2, 2"


@pytest.mark.parametrize("slug", SLUGS)
def test_a_block_goes_over_the_board_and_plain_data_and_back(slug: str) -> None:
    block = traditional(slug)
    board = board_of(block)
    back = board_from_data(json.loads(json.dumps(board_as_data(board))))
    assert back == board
    assert board_of(back.block()) == board
    assert (back.name, back.names, back.category) == (block.name, block.names, block.category)


def test_the_shapes_of_a_drawing_stay_on_the_board() -> None:
    drawn = sample("four-petals")
    board = board_from_data(json.loads(json.dumps(board_as_data(board_of(drawn)))))
    assert board.block().applique == drawn.applique
    assert board.with_seams((*board.seams, seam("0, 2", "8, 2"))).applique
    with pytest.raises(DrawingError) as error:
        board.sized(F(6), F(8))
    assert error.value.kind in ("outside", "seam-outside")


@pytest.mark.parametrize(("slug", "curves"), [("drunkards-path", 1), ("polka-dot", 4)])
def test_a_curved_block_has_a_seam_for_each_quarter_circle(slug: str, curves: int) -> None:
    block = traditional(slug)
    board = board_of(block)
    assert len([each for each in board.seams if each.centre]) == curves
    back = board_from_data(json.loads(json.dumps(board_as_data(board))))
    assert back == board
    drawn = {(patch.fabric, frozenset(patch.points)) for patch in back.block().patches}
    assert drawn == {(patch.fabric, frozenset(patch.points)) for patch in block.patches}


def test_a_quarter_circle_is_drawn_round_its_centre() -> None:
    curved = replace(seam("2, 0", "0, 2"), centre=read_point("0, 0"))
    board = Board(width=F(3), height=F(3)).with_seams((curved,))
    assert board_of(board.block()).seams == (replace(curved, start=curved.end, end=curved.start),)
    assert [len(patch.points) for patch in board.divided().patches] == [13, 15]


@pytest.mark.parametrize("centre", ["1, 1", "0, 1", "2, 0"])
def test_what_is_no_quarter_circle_is_refused_at_its_centre(centre: str) -> None:
    curved = replace(seam("2, 0", "0, 2"), centre=read_point(centre))
    with pytest.raises(BadArc) as error:
        Board().with_seams((curved,))
    assert error.value.where == curved.centre


def test_a_quarter_circle_that_leaves_the_grid_is_refused() -> None:
    curved = replace(seam("1, 0", "0, 3"), centre=read_point("2, 2"))
    with pytest.raises(SeamOutside):
        Board().with_seams((curved,))


def test_letters_stay_when_a_seam_is_drawn_and_taken_back() -> None:
    halves = Board().with_seams((seam("2, 0", "2, 4"),)).lettered({(F(3), F(1)): "B"})
    cut = halves.with_seams((*halves.seams, seam("2, 2", "4, 2")))
    assert [patch.fabric for patch in cut.divided().patches] == ["A", "B", "B"]
    assert cut.with_seams(halves.seams).divided().patches == halves.divided().patches


def test_the_last_letter_chosen_counts() -> None:
    board = Board().lettered({(F(1), F(1)): "B"}).lettered({(F(3), F(3)): "C"})
    assert board.divided().patches[0].fabric == "C"


def test_a_smaller_grid_refuses_the_seam_that_does_not_fit() -> None:
    board = Board().with_seams((seam("0, 0", "4, 4"),))
    with pytest.raises(SeamOutside) as fault:
        board.sized(F(3), F(4))
    assert fault.value.where == (4, 4)
    assert board.sized(F(5), F(5)).divided().loose[0].places == ((4, 4),)


def test_a_crossing_that_no_file_can_hold_is_refused_at_once() -> None:
    board = Board().with_seams((seam("1/47, 0", "2, 3 5/43"),))
    with pytest.raises(DrawingError):
        board.with_seams((*board.seams, seam("4, 1/41", "0, 4")))
