"""The block drawing file: what is read, what is refused and by which name; turning, mirroring, sizes."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.blocks import block_as_data, block_from_data
from patterns.engine.errors import BadSize, DrawingError, UnknownLetter
from patterns.engine.geometry import area
from patterns.engine.partition import check_partition
from patterns.engine.surds import root
from tests.engine.drawings import SLUGS, block, box, drawing, patch, traditional

TWO = (box("A", 0, 0), box("B", 1, 0))


def refusal(data: Any) -> tuple[str, str]:
    with pytest.raises(DrawingError) as error:
        block_from_data(data)
    found = error.value.as_data()
    return found["error"], found["where"]


@pytest.mark.parametrize("slug", SLUGS)
def test_a_traditional_block_is_written_as_it_was_read(slug: str) -> None:
    drawn = traditional(slug)
    assert block_from_data(json.loads(json.dumps(block_as_data(drawn)))) == drawn


def test_whole_numbers_stay_numbers_and_others_become_text() -> None:
    data = drawing(("3/2", 1), patch("A", (0, 0), ("3/2", 0), ("3/2", 1), (0, 1)))
    assert block_as_data(block_from_data(data))["grid"] == ["3/2", 1]


def test_a_root_is_read_exactly() -> None:
    drawn = block(("1+1/2r2", 1), patch("A", (0, 0), ("1+1/2r2", 0), ("1+1/2r2", 1), (0, 1)))
    assert drawn.width == 1 + root(2) / 2


@pytest.mark.parametrize(
    ("data", "kind", "where"),
    [
        ([], "bad-field", "drawing"),
        ({"name": "X", "patches": list(TWO)}, "bad-field", "grid"),
        ({"grid": [2, 1], "patches": list(TWO)}, "bad-field", "name"),
        ({"name": " ", "grid": [2, 1], "patches": list(TWO)}, "bad-field", "name"),
        ({"name": "X", "grid": [2, 1], "patches": []}, "bad-field", "patches"),
        ({"name": "X", "grid": [2], "patches": list(TWO)}, "bad-field", "grid"),
        ({"name": "X", "grid": [0, 1], "patches": list(TWO)}, "bad-size", "grid"),
        ({"name": "X", "grid": [-2, 1], "patches": list(TWO)}, "bad-size", "grid"),
        (drawing((2, 1), *TWO) | {"tiles": 1}, "unknown-field", "tiles"),
        (drawing((2, 1), *TWO) | {"names": "Y"}, "bad-field", "names"),
        (drawing((2, 1), *TWO) | {"names": [3]}, "bad-field", "names[0]"),
        (drawing((2, 1), *TWO) | {"category": 3}, "bad-field", "category"),
        (drawing((2, 1), TWO[0], 7), "bad-field", "patches[1]"),
        (drawing((2, 1), TWO[0], TWO[1] | {"turn": 1}), "unknown-field", "patches[1].turn"),
        (drawing((2, 1), TWO[0], {"fabric": "B"}), "bad-field", "patches[1].points"),
        (drawing((2, 1), patch("a", (0, 0), (1, 0), (1, 1))), "bad-letter", "patches[0].fabric"),
        (drawing((2, 1), patch("ABCD", (0, 0), (1, 0), (1, 1))), "bad-letter", "patches[0].fabric"),
        (drawing((2, 1), patch("A", (0, 0), (1, 0))), "bad-field", "patches[0].points"),
        (drawing((2, 1), patch("A", (0, 0), (1.5, 0), (1, 1))), "bad-number", "patches[0].points[1][0]"),
        (drawing((2, 1), patch("A", (0, 0), (True, 0), (1, 1))), "bad-number", "patches[0].points[1][0]"),
        (drawing((2, 1), patch("A", (0, None), (1, 0), (1, 1))), "bad-number", "patches[0].points[0][1]"),
    ],
)
def test_what_is_wrong_with_a_file_is_named(data: Any, kind: str, where: str) -> None:
    assert refusal(data) == (kind, where)


@pytest.mark.parametrize(
    "text", ["", "x", "1.5", "2 1/2", "1/0", "--1", "1e9", "1e999999999", "9" * 40, "1/12345", "1r", "٣"]
)
def test_text_that_is_no_short_exact_number_is_refused(text: str) -> None:
    data = drawing((2, 1), patch("A", (0, 0), (text, 0), (1, 1)))
    assert refusal(data) == ("bad-number", "patches[0].points[1][0]")


def test_two_different_roots_in_one_drawing_are_refused() -> None:
    data = drawing((2, "1r2"), patch("A", (0, 0), (2, 0), (2, "1r3"), (0, 1)))
    assert refusal(data) == ("bad-number", "patches[0].points[2]")


def test_letters_are_listed_a_to_z_then_aa() -> None:
    assert block((3, 1), box("AA", 0, 0), box("C", 1, 0), box("B", 2, 0)).letters == ("B", "C", "AA")


def test_a_letter_without_a_translation_is_named() -> None:
    drawn = block((2, 1), *TWO)
    assert drawn.relettered({"A": "C", "B": "C"}).letters == ("C",)
    with pytest.raises(UnknownLetter) as error:
        drawn.relettered({"A": "C"})
    assert (error.value.where, error.value.patches) == ("B", (1,))


def test_a_quarter_turn_is_clockwise_and_exchanges_the_sides() -> None:
    turned = block((2, 1), *TWO).turned(1)
    assert (turned.width, turned.height) == (1, 2)
    assert turned.patches[0].points[0] == (1, 0)  # the top left corner of A is now at the top right
    assert turned.patches[1].fabric == "B"


@pytest.mark.parametrize("slug", ["sailboat", "log-cabin", "turnstile"])
def test_four_turns_or_two_mirrors_change_nothing(slug: str) -> None:
    drawn = traditional(slug)
    assert drawn.turned(4) == drawn.turned(1).turned(3) == drawn
    assert drawn.mirrored().mirrored() == drawn
    assert drawn.mirrored() != drawn
    check_partition(drawn.width, drawn.height, drawn.mirrored().patches)


@given(st.fractions(min_value=Fraction(1, 4), max_value=30, max_denominator=16))
def test_patches_fill_the_block_at_any_size(size: Fraction) -> None:
    drawn = traditional("ohio-star").at_size(size, size)
    assert sum(area(patch.points) for patch in drawn.patches) == size * size


def test_a_size_must_be_above_zero() -> None:
    with pytest.raises(BadSize):
        block((2, 1), *TWO).at_size(Fraction(12), Fraction(0))


def test_more_patches_than_a_block_can_have_are_refused_by_their_count() -> None:
    with pytest.raises(DrawingError) as error:
        block_from_data(drawing((100, 100), *[box("A", 0, 0)] * 10_000))
    assert error.value.as_data() == {
        "error": "too-many-patches",
        "where": "patches",
        "remedy": "draw-fewer-patches",
        "patches": [],
        "count": 10_000,
        "most": 1500,
    }


def test_more_corners_than_a_block_can_have_are_refused() -> None:
    comb = patch("A", *[(n, n % 2) for n in range(20)], *[(n, 3 + n % 2) for n in range(19, -1, -1)])
    assert refusal(drawing((19, 4), *[comb] * 251)) == ("too-large", "patches")
