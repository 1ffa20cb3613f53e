"""Templates and foundations at their own size: words off the joins, the grain, shapes laid on their side."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.drawing import RecordingCanvas, is_inside
from patterns.engine.drawing_true_size import AIR, Tile, draw_true_size, size_px
from patterns.engine.geometry import area
from patterns.engine.steps import Piece
from patterns.engine.true_size import TrueShape, foundation_shape, template_shape, turned

SEAM = Fraction(1, 4)
ACROSS = tuple((Fraction(x), Fraction(y)) for x, y in ((0, 0), (8, 0), (6, 2), (2, 2)))
FOUNDATION: dict[str, Any] = {
    "outline": [["0", "0"], ["6", "0"], ["6", "2"], ["0", "2"]],
    "patches": [
        {"of": "A1", "points": [["0", "0"], ["5", "0"], ["5", "2"], ["0", "2"]]},
        {"of": "B1", "points": [["5", "0"], ["6", "0"], ["6", "2"], ["5", "2"]]},
    ],
}


def template(outline: tuple[tuple[Fraction, Fraction], ...] = ACROSS) -> TrueShape:
    piece = Piece(id="A1", fabric="A", width=Fraction(9), length=Fraction(3), count=4, outline=outline)
    return template_shape(piece, SEAM)


def drawn(shape: TrueShape, tile: Tile) -> RecordingCanvas:
    canvas = RecordingCanvas()
    draw_true_size(canvas, shape, tile, words=("A1", "cut 4"))
    return canvas


def halves(shape: TrueShape) -> tuple[Tile, Tile]:
    """Split a shape in the middle of its width."""
    width, height = size_px(shape)
    half = (width - 2 * AIR) / 2
    size = (half + 2 * AIR, height)
    left = Tile(corner=(Fraction(0), Fraction(0)), size=size, joins=("", "", "a", ""))
    return left, Tile(corner=(half, Fraction(0)), size=size, joins=("a", "", "", ""))


def places(canvas: RecordingCanvas, words: str) -> list[Any]:
    return [call[1] for call in canvas.calls if call[0] == "text" and call[2] == words]


def test_each_part_of_a_split_template_has_the_name_well_off_the_join() -> None:
    shape = template()
    for tile in halves(shape):
        canvas = drawn(shape, tile)
        [(x, _)] = places(canvas, "A1")
        assert AIR + 30 <= x <= tile.size[0] - AIR - 30
        assert len(places(canvas, "cut 4")) == 1


def test_both_parts_have_the_letter_of_their_join_at_the_same_height_amid_the_shape() -> None:
    """A triangle 8 in wide and high: half of its width is crossed on 4 in and the seams."""
    shape = template(tuple((Fraction(x), Fraction(y)) for x, y in ((0, 8), (0, 0), (8, 8))))
    heights = []
    for tile in halves(shape):
        [(x, y)] = places(drawn(shape, tile), "a")
        assert min(abs(x - AIR), abs(x - tile.size[0] + AIR)) == 12
        heights.append(y)
    assert heights[0] == heights[1]
    assert heights[0] > size_px(shape)[1] / 2


def test_a_patch_is_numbered_in_every_part_that_has_room_for_it() -> None:
    shape = foundation_shape(FOUNDATION, SEAM, {"A1": "A", "B1": "B"})
    left, right = (drawn(shape, tile) for tile in halves(shape))
    assert (len(places(left, "1 A")), len(places(right, "1 A"))) == (1, 1)
    assert (len(places(left, "2 B")), len(places(right, "2 B"))) == (1, 0)  # it is printed in mirror image


def test_a_sliver_beyond_the_join_is_not_numbered() -> None:
    shape = foundation_shape(FOUNDATION, SEAM, {"A1": "A", "B1": "B"})
    height = size_px(shape)[1]
    sliver = Fraction(96 + 24 + 12)  # the seam, patch B and an eighth of an inch of patch A
    tile = Tile(corner=(Fraction(0), Fraction(0)), size=(sliver + 2 * AIR, height), joins=("", "", "a", ""))
    assert drawn(shape, tile).words() == ["2 B", "a"]


def test_a_shape_on_its_side_is_the_same_shape() -> None:
    shape = template()
    lying = turned(shape)
    assert size_px(lying) == (size_px(shape)[1], size_px(shape)[0])
    assert area(lying.cut.points) == area(shape.cut.points)
    assert turned(turned(lying)).cut.points == tuple((y, -x) for x, y in shape.cut.points)
    assert lying.is_turned
    assert not turned(lying).is_turned


@pytest.mark.parametrize("is_turned", [False, True])
def test_the_grain_runs_along_the_fabric_inside_the_shape(is_turned: bool) -> None:
    shape = turned(template()) if is_turned else template()
    width, height = size_px(shape)
    canvas = drawn(shape, Tile(corner=(Fraction(0), Fraction(0)), size=(width, height)))
    [line] = [call for call in canvas.calls if call[0] == "line"]
    start, end = line[1], line[2]
    assert start[not is_turned] != end[not is_turned]
    assert start[is_turned] == end[is_turned]
    outline = next(call[1] for call in canvas.calls if call[0] == "contour")
    assert all(is_inside(point, outline) for point in (start, end))
    [name] = places(canvas, "A1")
    assert abs(name[is_turned] - start[is_turned]) >= 30


def test_a_shape_too_small_for_a_grain_line_has_its_name_alone() -> None:
    small = tuple((x / 16, y / 16) for x, y in ACROSS)
    canvas = drawn(template(small), Tile(corner=(Fraction(0), Fraction(0)), size=size_px(template(small))))
    assert canvas.words() == ["A1"]
    assert not [call for call in canvas.calls if call[0] == "line"]
