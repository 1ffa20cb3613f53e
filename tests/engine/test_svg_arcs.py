"""Quarter and half circles in SVG paths: snapped by their ends, exact between, and written back the same."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.arcs import POINTS
from patterns.engine.blocks import Block, block_from_data
from patterns.engine.errors import DrawingError
from patterns.engine.surds import parse_number
from patterns.engine.svg_arcs import folded
from patterns.engine.svg_reading import block_from_svg, svg_as_data
from patterns.engine.svg_writing import block_as_svg
from tests.engine.drawings import FOLDER, TRADITIONAL, inches

CURVED = [slug for slug in TRADITIONAL if '"arc"' in (FOLDER / f"{slug}.json").read_text("utf-8")]
INNER = 'fill="red" d="M0 0H60A60 60 0 0 1 0 60Z"'
OUTER = 'fill="blue" d="M60 0H90V90H0V60A60 60 0 0 0 60 0Z"'
PATH: dict[str, Any] = {
    "grid": [3, 3],
    "patches": [
        {"fabric": "A", "points": [[0, 0], [2, 0], {"arc": [0, 0]}, [0, 2]]},
        {"fabric": "B", "points": [[2, 0], [3, 0], [3, 3], [0, 3], [0, 2], {"arc": [0, 0]}]},
    ],
}


def picture(*shapes: str, side: int = 90) -> str:
    body = "".join(shape if shape.startswith("<") else f"<path {shape}/>" for shape in shapes)
    return f'<svg viewBox="0 0 {side} {side}">{body}</svg>'


def drunkards_path() -> Block:
    return block_from_data({"name": "Block", **PATH})


def read(*shapes: str) -> Block:
    return inches(block_from_svg(picture(*shapes)), 3)


def fault(*shapes: str) -> tuple[str, Any]:
    with pytest.raises(DrawingError) as error:
        block_from_svg(picture(*shapes))
    return error.value.kind, error.value.where


# ---- reading


def test_a_quarter_circle_of_a_path_is_the_drawing_file_s() -> None:
    found = svg_as_data(picture(INNER, OUTER))
    assert found["patches"][0]["points"] == [["0", "0"], ["2", "0"], {"arc": ["0", "0"]}, ["0", "2"]]
    assert block_from_svg(picture(INNER, OUTER)) == drunkards_path()


@pytest.mark.parametrize(
    "inner",
    [
        "m0 0h60a60 60 0 01-60 60z",  # relative, both signs of the arc run into the next number
        "M0 0H60A60,60,0,0,1,0,60L0 0",
        "M0 0H60A-60 60 45 011e-9 60z",  # a negative radius counts as it is without its sign (SVG 1.1, F.6.2)
        "M0 0V60A60 60 0 0 0 60 0z",
        "M60 0A60 60 0 0 1 0 60V0z",
        "M0 0H60.04A60 60 0 0 1 0 59.97z",
        "M0 0H60A60.1 60.1 0 0 1 0 60z",
    ],
)
def test_one_quarter_circle_in_every_notation(inner: str) -> None:
    found = read(f'fill="red" d="{inner}"', OUTER)
    assert {frozenset(patch.points) for patch in found.patches} == {
        frozenset(patch.points) for patch in drunkards_path().patches
    }


@pytest.mark.parametrize(
    "transform",
    [
        "translate(10 20) scale(2)",
        "rotate(90)",
        "scale(-1 1)",
        "matrix(0 -3 3 0 5 5)",
        "scale(1 -1) rotate(270)",
    ],
)
def test_turned_mirrored_and_scaled_as_a_whole(transform: str) -> None:
    shapes = f'<svg><g transform="{transform}"><path {INNER}/><path {OUTER}/></g></svg>'
    found = inches(block_from_svg(shapes), 3)
    assert any(
        {frozenset(p.points) for p in found.patches} == {frozenset(p.points) for p in drawn.patches}
        for drawn in (drunkards_path().turned(turn) for turn in range(4))
    )


def test_half_a_circle_is_two_quarters() -> None:
    """A half disc of radius 1 on the lower edge of a 2 x 2 in ground, the middle of its arc a corner."""
    half = 'fill="red" d="M0 90A45 45 0 0 1 90 90z"'
    ground = 'fill="blue" d="M0 90V0H90V90A45 45 0 0 0 0 90"'
    found = block_from_svg(picture(half, ground))
    disc = found.patches[0].points
    assert len(disc) == 2 * (POINTS - 2) + 3
    assert len([centre for _, centre in folded(disc) if centre]) == 2
    top = min(y for _, y in disc) / found.height
    assert top == Fraction(1, 2)
    assert block_from_svg(block_as_svg(found)) == found


def test_an_arc_too_small_for_its_ends_is_half_a_circle() -> None:
    """It is drawn as large as it must be (SVG 1.1, F.6.6); here by no more than rounding."""
    half = 'fill="red" d="M0 90A44.99 44.99 0 0 1 90 90z"'
    ground = 'fill="blue" d="M0 90V0H90V90A45 45 0 0 0 0 90"'
    assert len(block_from_svg(picture(half, ground)).patches) == 2


def test_an_arc_without_radius_is_straight() -> None:
    found = read('fill="red" d="M0 0H90A0 5 0 0 1 0 90z"', 'fill="blue" d="M90 0V90H0z"')
    assert [len(patch.points) for patch in found.patches] == [3, 3]


# ---- refused


@pytest.mark.parametrize(
    ("path", "where"),
    [
        ("M0 0H60A60 50 0 0 1 0 60Z", "path[0].d"),  # an ellipse
        ("M0 0H60C60 33 33 60 0 60Z", "path[0].d"),
        ("M0 0H60Q60 60 0 60Z", "path[0].d"),
        ("M0 0H60S60 60 0 60Z", "path[0].d"),
        ("M0 0H60T0 60Z", "path[0].d"),
        ("M0 0H60A70 70 0 0 1 0 60Z", "path[0] 60,0"),  # less than a quarter
        ("M0 0H60A60 60 0 1 1 0 60Z", "path[0] 60,0"),  # three quarters
        ("M0 0H60A20 20 0 0 1 0 60Z", "path[0] 60,0"),  # too small for its ends by far
    ],
)
def test_other_curves_are_refused_with_their_place(path: str, where: str) -> None:
    assert fault(f'fill="red" d="{path}"', OUTER) == ("curve", where)


def test_a_stretched_circle_is_an_ellipse() -> None:
    shapes = f'<g transform="scale(1 2)"><path id="fan" {INNER}/></g>'
    assert fault(shapes) == ("curve", "path#fan")


def test_the_other_way_round_leaves_a_gap() -> None:
    assert fault(INNER.replace("0 0 1", "0 0 0"), OUTER)[0] in ("gap", "overlap")


@pytest.mark.parametrize(
    "numbers", ["60 60 0 2 1 0 60", "60 60 0 0 .5 0 60", "60 60 0 0 1 0", "60 60 x 0 1 0 60"]
)
def test_arcs_that_cannot_be_read_are_named(numbers: str) -> None:
    assert fault(f'fill="red" d="M0 0H60A{numbers}Z"', OUTER) == ("bad-svg", "path[0].d")


def test_the_remedy_tells_what_is_read() -> None:
    with pytest.raises(DrawingError) as error:
        block_from_svg(picture('d="M0 0C1 1 2 2 0 9"'))
    assert error.value.as_data()["remedy"] == "draw-straight-or-quarter-circles"


# ---- written and read back


def test_there_are_curved_blocks() -> None:
    assert {"drunkards-path", "polka-dot"} <= set(CURVED)


@pytest.mark.parametrize("slug", CURVED)
@pytest.mark.parametrize("turn", range(4))
def test_a_curved_block_comes_back_equal(slug: str, turn: int) -> None:
    drawn = block_from_data(json.loads((FOLDER / f"{slug}.json").read_text("utf-8"))).turned(turn)
    written = block_as_svg(drawn)
    assert " A" in written
    assert len(written) < 5_000
    assert block_from_svg(written) == drawn
    sized = inches(drawn, 7)
    assert block_from_svg(block_as_svg(sized)) == sized
    plain = re.sub(r' data-grid-[a-z-]+="[^"]*"', "", written)
    assert inches(block_from_svg(plain)) == inches(drawn)


def test_a_radius_with_a_root_is_read_back() -> None:
    """A quarter circle over a slanted chord: its centre is no corner, and its radius is sqrt(5)."""
    arc = {"arc": [1, 0]}
    data = {
        "name": "Fan",
        "grid": [3, 3],
        "patches": [
            {"fabric": "A", "points": [[3, 1], arc, [0, 2], [0, 0], [3, 0]]},
            {"fabric": "B", "points": [[3, 1], [3, 3], [0, 3], [0, 2], arc]},
        ],
    }
    drawn = block_from_data(data)
    written = block_as_svg(drawn)
    assert "A2.236067977" in written
    assert block_from_svg(written) == drawn


def test_an_outline_that_starts_within_an_arc_comes_back_too() -> None:
    data = {"name": "Block", **json.loads(json.dumps(PATH))}
    data["patches"][0]["points"] = [{"arc": [0, 0]}, [0, 2], [0, 0], [2, 0]]
    drawn = block_from_data(data)
    assert parse_number("0") not in drawn.patches[0].points[0]
    assert block_from_svg(block_as_svg(drawn)) == drawn
