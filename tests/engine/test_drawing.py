"""Drawings, looked at through a recording canvas: what is drawn, where, and what is left out."""

from __future__ import annotations

from fractions import Fraction

from patterns.engine.drawing import (
    AHEAD,
    RED,
    THIN,
    Frame,
    RecordingCanvas,
    Stroke,
    clearance_squared,
    inner_point,
    is_inside,
    rational,
)
from patterns.engine.drawing_blocks import draw_block, draw_plate, draw_unit
from patterns.engine.drawing_lines import MARK_STROKES, draw_dimension
from patterns.engine.drawing_quilts import PartState, QuiltDrawing, QuiltPart, draw_quilt
from patterns.engine.drawing_steps import draw_step_picture
from patterns.engine.hatches import INK, WHITE, mix
from patterns.engine.parts import Hand, Patch, Unit, UnitKind
from patterns.engine.steps import Facet, Mark, MarkKind, Picture
from patterns.engine.surds import root
from tests.engine.cloths import CLOTHS, points

F = Fraction

HALF_SQUARE = Unit(
    id="u1",
    kind=UnitKind.HALF_SQUARE,
    width=F(4),
    height=F(4),
    fabrics=("A", "B"),
    hand=Hand.EITHER,
    patches=(Patch("A", points("0,0 4,4 0,4")), Patch("B", points("0,0 4,0 4,4"))),
)


def test_half_square_triangle_is_drawn_ground_hatch_edges_letters() -> None:
    canvas = RecordingCanvas()
    draw_unit(canvas, HALF_SQUARE, cloths=CLOTHS, width_px=82)  # 80 px for 4 in, 1 px of air on each side
    left, right = points("1,1 81,81 1,81"), points("1,1 81,1 81,81")
    assert canvas.size == (82, 82)
    assert canvas.calls[:6] == [
        ("polygon", left, "#F0EFE7", None),
        ("hatch", left, "A", F(4)),
        ("polygon", right, "#1F3A54", None),
        ("hatch", right, "B", F(4)),
        ("polygon", right, "", Stroke("#DCE2E7", F(9, 10))),  # pale edges first, ink over them
        ("polygon", left, "", Stroke(INK, F(9, 10))),
    ]
    assert canvas.words() == ["A", "B"]
    assert canvas.calls[6][1] == (F(27667, 1000), F(54333, 1000))  # the centre of gravity, to a thousandth


def test_a_plate_is_one_flat_shape_for_each_letter_and_fits_into_its_square() -> None:
    patches = [
        Patch("B", points("0,0 2,0 2,4")),
        Patch("A", points("0,0 2,4 0,4")),
        Patch("B", points("0,4 2,4 1,8")),
    ]
    canvas = RecordingCanvas()
    draw_plate(canvas, patches, (F(2), F(8)), cloths=CLOTHS, width_px=82)  # 10 px for an inch
    assert canvas.size == (22, 82)
    edge = Stroke(INK, F(2, 5))
    assert canvas.calls == [
        ("polygons", (points("1,1 21,1 21,41"), points("1,41 21,41 11,81")), "#1F3A54", edge),
        ("polygons", (points("1,1 21,41 1,41"),), "#F0EFE7", edge),
    ]


def test_many_small_patches_have_neither_letters_nor_hatch() -> None:
    patches = [Patch("B", points(f"{x},0 {x + 1},0 {x + 1},1 {x},1")) for x in range(10)]
    canvas = RecordingCanvas()
    draw_block(canvas, patches, (F(10), F(1)), cloths=CLOTHS, width_px=72)  # 7 px each
    assert [call for call in canvas.calls if call[0] in ("hatch", "text")] == []


def test_a_letter_without_cloth_is_drawn_white() -> None:
    canvas = RecordingCanvas()
    draw_block(canvas, [Patch("Z", points("0,0 1,0 1,1 0,1"))], (F(1), F(1)), cloths={}, width_px=52)
    assert canvas.calls[0][2] == "#FFFFFF"


def test_surds_are_laid_to_thousandths_of_a_pixel() -> None:
    frame = Frame(scale=F(100))
    assert frame.at((root(2), F(0))) == (F(142421, 1000), F(1))  # 1 + 141.421
    assert rational(F(1, 3)) == F(1, 3)


def test_inner_point_lies_inside_even_where_the_centre_of_gravity_does_not() -> None:
    hook = points("0,0 30,0 30,4 4,4 4,30 0,30")
    spot = inner_point(hook)
    assert is_inside(spot, hook)
    assert clearance_squared(spot, hook) >= 1


def two_blocks() -> QuiltDrawing:
    parts = [
        QuiltPart(key=key, number=number, outlines=(points(square),), patches=(Patch("B", points(square)),))
        for key, number, square in (("one", 1, "0,0 10,0 10,10 0,10"), ("two", 2, "10,0 20,0 20,10 10,10"))
    ]
    return QuiltDrawing(size=(F(20), F(10)), parts=tuple(parts))


def test_quilt_shows_ahead_as_number_released_as_lines_sewn_as_cloth() -> None:
    canvas = RecordingCanvas()
    states = {"one": PartState.RELEASED, "two": PartState.AHEAD}
    draw_quilt(canvas, two_blocks(), cloths=CLOTHS, states=states, width_px=202)
    assert ("polygon", points("1,1 101,1 101,101 1,101"), WHITE, THIN) in canvas.calls
    assert ("polygon", points("101,1 201,1 201,101 101,101"), WHITE, AHEAD) in canvas.calls
    assert canvas.words() == ["2"]
    sewn = RecordingCanvas()
    draw_quilt(sewn, two_blocks(), cloths=CLOTHS, states={}, width_px=202)
    assert [call[0] for call in sewn.calls].count("hatch") == 2
    assert sewn.words() == []


def test_quilt_names_its_sizes_on_dimension_lines() -> None:
    canvas = RecordingCanvas()
    measures = ("20 in finished", "10 in finished")
    draw_quilt(canvas, two_blocks(), cloths=CLOTHS, states={}, width_px=225, measures=measures)
    assert canvas.words() == ["20 in finished", "10 in finished"]
    assert canvas.size == (225, 125)  # 24 px for the dimension lines, 1 px at the other side


def test_step_picture_draws_marks_as_the_legend_says() -> None:
    square = points("0,0 4,0 4,4 0,4")
    picture = Picture(
        facets=(Facet(fabric="B", points=square, label="B1"),),
        marks=(
            Mark(MarkKind.SEAM, (F(0), F(0)), (F(4), F(4))),
            Mark(MarkKind.MEASURE, (F(2), F(2)), (F(2), F(2))),
            Mark(MarkKind.PRESS, (F(1), F(3)), (F(2), F(3))),
        ),
        size=(F(9, 2), F(9, 2)),
    )
    canvas = RecordingCanvas()
    draw_step_picture(canvas, picture, cloths=CLOTHS, width_px=196)
    seam = MARK_STROKES[MarkKind.SEAM]
    assert (seam.colour, seam.dashes) == (RED, (F(11, 2), F(3)))
    assert ("line", (F(30), F(30)), (F(190), F(190)), seam) in canvas.calls
    assert canvas.words() == ["B1", "4 1/2 in", "4 1/2 in"]
    arrow = [call for call in canvas.calls if call[0] == "polygon" and call[2] == INK]
    assert len(arrow) == 1
    assert len(arrow[0][1]) == 7


def test_step_label_stands_where_its_piece_is_seen() -> None:
    below, above = points("0,0 8,0 8,8 0,8"), points("0,0 5,0 5,8 0,8")
    facets = (Facet(fabric="B", points=below, label="B1"), Facet(fabric="A", points=above, label="A1"))
    canvas = RecordingCanvas()
    draw_step_picture(canvas, Picture(facets=facets), cloths=CLOTHS, width_px=172)
    discs = [call[1] for call in canvas.calls if call[0] == "disc"]
    assert discs[0][0] > 6 + 5 * 20  # the part of B1 that A1 does not cover


def test_the_back_of_a_cloth_is_pale_and_has_no_hatch() -> None:
    facet = Facet(fabric="B", points=points("0,0 4,0 4,4 0,4"), wrong_side=True)
    canvas = RecordingCanvas()
    draw_step_picture(canvas, Picture(facets=(facet,)), cloths=CLOTHS, width_px=172)
    assert [call[0] for call in canvas.calls] == ["polygon"]
    assert canvas.calls[0][2] == mix("#1F3A54", WHITE, F(3, 5))


def test_no_picture_of_a_step_is_taller_than_asked() -> None:
    facet = Facet(fabric="A", points=points("0,0 1,0 1,20 0,20"))
    canvas = RecordingCanvas()
    draw_step_picture(canvas, Picture(facets=(facet,)), cloths=CLOTHS, width_px=172, tallest_px=112)
    assert canvas.size == (17, 112)


def test_a_short_upright_dimension_has_level_words() -> None:
    canvas = RecordingCanvas()
    draw_dimension(canvas, (F(50), F(0)), (F(50), F(10)), words="1 1/2")
    assert [(call[3].anchor, call[3].turned) for call in canvas.calls if call[0] == "text"] == [
        ("end", False)
    ]
