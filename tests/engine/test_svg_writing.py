"""A block written as SVG is read back as the same block."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.errors import BadNumber
from patterns.engine.parts import Patch
from patterns.engine.surds import root
from patterns.engine.svg_reading import block_from_svg
from patterns.engine.svg_writing import block_as_svg, fill_of
from tests.engine.drawings import FOLDER, SLUGS, block, box, inches, patch
from tests.engine.random_drawings import random_block

F = Fraction


def eight_point_star() -> Block:
    """Eight diamonds of side 1, in a square of 2 + sqrt(2)."""
    low, high, side, middle = "1", "1+1r2", "2+1r2", "1+1/2r2"
    near, far = "1/2r2", "2+1/2r2"
    notches = [
        (middle, near), (high, low), (far, middle), (high, high),
        (middle, far), (low, high), (near, middle), (low, low),
    ]  # fmt: skip
    tips = [(low, 0), (high, 0), (side, low), (side, high), (high, side), (low, side), (0, high), (0, low)]
    corners = {1: (side, 0), 3: (side, side), 5: (0, side), 7: (0, 0)}
    diamonds = [patch("AB"[k % 2], (middle, middle), notches[k - 1], tips[k], notches[k]) for k in range(8)]
    ground = [
        patch("C", notches[k], tips[k], *([corners[k]] if k in corners else []), tips[(k + 1) % 8])
        for k in range(8)
    ]
    return block((side, side), *diamonds, *ground)


def unstated(picture: str) -> str:
    """Take from a picture what a drawing program would not write."""
    return re.sub(r' data-grid-[a-z-]+="[^"]*"', "", picture)


@pytest.mark.parametrize("slug", SLUGS)
def test_a_traditional_block_comes_back_equal(slug: str) -> None:
    drawn = block_from_data(json.loads((FOLDER / f"{slug}.json").read_text("utf-8")))
    assert block_from_svg(block_as_svg(drawn)) == drawn
    sized = inches(drawn, 7)
    assert block_from_svg(block_as_svg(sized)) == sized


@pytest.mark.parametrize("slug", SLUGS)
def test_without_its_grid_a_traditional_block_comes_back_in_proportion(slug: str) -> None:
    drawn = block_from_data(json.loads((FOLDER / f"{slug}.json").read_text("utf-8")))
    assert inches(block_from_svg(unstated(block_as_svg(drawn)))) == inches(drawn)


def test_an_eight_point_star_comes_back_exact() -> None:
    star = eight_point_star()
    assert block_from_svg(block_as_svg(star)) == star
    assert inches(block_from_svg(unstated(block_as_svg(star)))) == inches(star)
    assert block_from_svg(block_as_svg(inches(star, 12))) == inches(star, 12)


def test_a_star_of_rounded_decimals_comes_back_exact() -> None:
    rounded = re.sub(
        r"\d+\.\d+", lambda found: f"{float(found[0]):.4f}", unstated(block_as_svg(eight_point_star()))
    )
    assert inches(block_from_svg(rounded)) == inches(eight_point_star())


@given(st.integers(0, 10**6))
def test_random_blocks_come_back_equal(number: int) -> None:
    drawn = random_block(number)
    picture = block_as_svg(drawn)
    assert block_from_svg(picture) == drawn
    assert inches(block_from_svg(unstated(picture))) == inches(drawn)


@given(
    st.integers(1, 6).flatmap(
        lambda side: st.lists(
            st.tuples(st.sampled_from("ABCD"), st.sampled_from("ABCD"), st.booleans()),
            min_size=side * side,
            max_size=side * side,
        )
    ),
    st.sampled_from([F(1), F(100, 3), F(457, 10), F(96)]),
)
def test_random_half_squares_written_by_hand_are_read(
    units: list[tuple[str, str, bool]], cell: Fraction
) -> None:
    """Corners in decimals of a cell's pixels, three places."""
    side = round(len(units) ** 0.5)
    shapes, expected = [], []
    for number, (first, second, falls) in enumerate(units):
        row, column = divmod(number, side)
        corners = [(column, row), (column + 1, row), (column + 1, row + 1), (column, row + 1)]
        halves = (
            (corners[:3], [*corners[2:], corners[0]])
            if falls
            else (corners[1:], [*corners[3:], *corners[:2]])
        )
        for letter, half in zip((first, second), halves, strict=True):
            points = " ".join(f"{float(x * cell):.3f},{float(y * cell):.3f}" for x, y in half)
            shapes.append(f'<polygon data-letter="{letter}" points="{points}"/>')
            expected.append(Patch(letter, tuple((F(x), F(y)) for x, y in half)))
    whole = f"{float(side * cell):.3f}"
    read = block_from_svg(f'<svg viewBox="0 0 {whole} {whole}">{"".join(shapes)}</svg>')
    assert (read.width, read.height, list(read.patches)) == (side, side, expected)


def test_words_come_back() -> None:
    drawn = replace(
        block((2, 1), box("A", 0, 0), box("AB", 1, 0)),
        name='Dora\'s <Star> & "Co" – é',
        names=("One", 'Tw"o\n&', "Three\t"),
        category="stars & <b>",
    )
    assert block_from_svg(block_as_svg(drawn)) == drawn


def test_characters_that_xml_cannot_hold_are_left_out() -> None:
    drawn = replace(block((1, 1), box("A", 0, 0)), name="Star\x00\x1b\ud800 5\ufffe")
    assert block_from_svg(block_as_svg(drawn)).name == "Star 5"


def test_a_picture_is_plain_and_whole_numbers_stay_whole() -> None:
    drawn = block(("3/2", 1), patch("A", (0, 0), ("3/2", 0), ("3/2", 1), (0, 1)))
    assert block_as_svg(drawn) == (
        '<svg xmlns="http://www.w3.org/2000/svg" width="600" height="400" viewBox="0 0 3 2" '
        'data-grid-parts="2" data-grid-root="1" data-grid-most-roots="0" data-grid-width="3 0">\n'
        "<title>Trial</title>\n"
        f'<polygon data-letter="A" fill="{fill_of("A")}" points="0,0 3,0 3,2 0,2"/>\n'
        "</svg>\n"
    )


def test_a_corner_moved_in_a_written_picture_is_read_where_it_is_now() -> None:
    drawn = block((4, 2), box("A", 0, 0, width=2, height=2), box("B", 2, 0, width=2, height=2))
    moved = block_as_svg(drawn).replace("2,0", "1.5,0").replace("2,2", "1.5,2")
    read = block_from_svg(moved)
    assert read.patches[0].points[1][0] / read.width == F(3, 8)


def test_every_letter_has_its_colour() -> None:
    letters = [a + b for a in ("", "A", "B", "C") for b in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"]
    assert len({fill_of(letter) for letter in letters}) == len(letters)
    assert all(re.fullmatch("#[0-9a-f]{6}", fill_of(letter)) for letter in letters)


def test_two_kinds_of_roots_are_refused() -> None:
    drawn = block((1, 1), box("A", 0, 0))
    with pytest.raises(BadNumber):
        block_as_svg(replace(drawn, width=root(2), height=root(3)))


@pytest.mark.parametrize(
    "stated",
    [
        'data-grid-parts="0" data-grid-root="1" data-grid-most-roots="0" data-grid-width="2 0"',
        'data-grid-parts="1" data-grid-root="99999" data-grid-most-roots="0" data-grid-width="2 0"',
        'data-grid-parts="1" data-grid-root="2" data-grid-most-roots="99999" data-grid-width="2 0"',
        'data-grid-parts="1" data-grid-root="1" data-grid-most-roots="0" data-grid-width="-2 0"',
        'data-grid-parts="x" data-grid-root="1" data-grid-most-roots="0" data-grid-width="2 0"',
        'data-grid-width="300"',
    ],
)
def test_a_grid_that_makes_no_sense_is_passed_over(stated: str) -> None:
    drawn = block((2, 1), box("A", 0, 0), box("B", 1, 0))
    picture = unstated(block_as_svg(drawn)).replace("<svg ", f"<svg {stated} ")
    assert block_as_data(block_from_svg(picture)) == block_as_data(drawn)
