"""Drawings, looked at through a recording canvas: what is drawn, where, and what is left out."""

from __future__ import annotations

from fractions import Fraction

import pytest

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
from patterns.engine.drawing_blocks import draw_block, draw_unit
from patterns.engine.drawing_counts import Bar, BoltView, draw_bars, draw_bolt, draw_swatch, draw_tally
from patterns.engine.drawing_lines import MARK_STROKES, draw_dimension, draw_legend_mark
from patterns.engine.drawing_quilts import PartState, QuiltDrawing, QuiltPart, draw_quilt
from patterns.engine.drawing_steps import draw_step_picture
from patterns.engine.drawing_strips import draw_strip_plan
from patterns.engine.hatches import INK, WHITE, Cloth, contrast, edge_colour, hatch_colour, hatch_tile, mix
from patterns.engine.parts import Hand, Patch, Unit, UnitKind
from patterns.engine.steps import Facet, Mark, MarkKind, Picture
from patterns.engine.strips import Cut, Strip, StripPlan
from patterns.engine.surds import root

F = Fraction

FOG = Cloth("A", "#F0EFE7", 0, "Fog")
DEEP = Cloth("B", "#1F3A54", 1, "Deep Water")
KELP = Cloth("C", "#4F7F6A", 2, "Kelp")
CLOTHS = {cloth.letter: cloth for cloth in (FOG, DEEP, KELP)}
PALETTE = ("#F0EFE7", "#1F3A54", "#4F7F6A", "#E4B63F", "#CF7F8C", "#8A97B3", "#B9A98A", "#B9CBCB")
PALETTE += ("#000000", "#FFFFFF", "#777777", "#808080", "#FF0000", "#00FF00", "#0000FF", "#A8281E")


def points(text: str) -> tuple[tuple[F, F], ...]:
    """Read "0,0 4,0 4,4" as points."""
    return tuple((F(x), F(y)) for x, y in (pair.split(",") for pair in text.split()))


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


@pytest.mark.parametrize("ground", PALETTE)
def test_hatch_stands_out_3_to_1_and_no_smaller_mix_does(ground: str) -> None:
    assert contrast(ground, hatch_colour(ground)) >= 3  # WCAG 2.2, 1.4.11
    toward = max((INK, WHITE), key=lambda end: contrast(ground, end))
    steps = [mix(ground, toward, F(percent, 100)) for percent in range(101)]
    first = next(step for step in steps if contrast(ground, step) >= 3)
    assert first == hatch_colour(ground)


def test_contrast_agrees_with_published_pairs() -> None:
    assert contrast("#000000", "#FFFFFF") == 21  # WCAG 2.2, definition of contrast ratio
    assert (
        F(447, 100) < contrast("#777777", "#FFFFFF") < F(449, 100)
    )  # 4.48, WebAIM, Contrast and Color Accessibility


def test_edges_are_ink_but_pale_on_very_dark_cloth() -> None:
    assert edge_colour("#4F7F6A") == INK
    assert edge_colour("#1F3A54") == "#DCE2E7"


def test_thirty_two_hatches_differ() -> None:
    tiles = [hatch_tile(number) for number in range(32)]
    assert len({(tile.lines, tile.dots, tile.turned) for tile in tiles}) == 32


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


def cut(label: str, x: str, *, size: str) -> Cut:
    width, length = size.split()
    return Cut(label=label, x=F(x), y=F(0), width=F(width), length=F(length), turned=False)


def plan() -> StripPlan:
    """Lay out two strips: one with a piece that is cut down, one cut three times.

    AAAAABBBB.   strip 1, 5 in high, B cut down to 4
    CCCCCCCC..   strip 2, 4 in high, three of them
    """
    return StripPlan(
        total_length=F(17),  # 5 + 3 * 4
        lower_bound=F(17),
        needs_width=F(9),
        usable_width=F(10),
        strips=(
            Strip(height=F(5), repeat=1, cuts=(cut("A1", "0", size="5 5"), cut("A2", "5", size="4 4"))),
            Strip(height=F(4), repeat=3, cuts=(cut("A3", "0", size="4 4"), cut("A3", "4", size="4 4"))),
        ),
    )


def test_strip_plan_is_to_scale_with_every_piece_named() -> None:
    canvas = RecordingCanvas()
    draw_strip_plan(canvas, plan(), cloth=FOG, width_px=456)  # 40 px an inch, 46 left, 10 right
    assert canvas.size == (456, 32 + 5 * 40 + 18 + 4 * 40 + 8)
    assert ("polygon", points("46,32 246,32 246,232 46,232"), "#F0EFE7", None) in canvas.calls
    words = ["A1", "A2", "5", "A3", "A3", "4", "3 strips like this", "usable width 10 in"]
    assert canvas.words() == words
    trimmed = [call for call in canvas.calls if call[0] == "hatch" and call[2] == ""]
    assert len(trimmed) == 1  # only the first strip has a piece that is cut down


def test_strip_plan_shows_what_is_left_of_the_fabric() -> None:
    one = StripPlan(
        total_length=F(5), lower_bound=F(5), needs_width=F(9), usable_width=F(10), strips=plan().strips[:1]
    )
    canvas = RecordingCanvas()
    draw_strip_plan(canvas, one, cloth=FOG, width_px=456, given_length=F(9))
    assert canvas.size == (456, 32 + 9 * 40 + 8)
    assert ("polygon", points("46,232 446,232 446,392 46,392"), "", AHEAD) in canvas.calls


def test_narrow_pieces_are_named_together() -> None:
    cuts = tuple(cut("A1", str(x), size="1 1") for x in range(8))
    narrow = StripPlan(
        total_length=F(1),
        lower_bound=F(1),
        needs_width=F(8),
        usable_width=F(40),
        strips=(Strip(height=F(1), repeat=1, cuts=cuts),),
    )
    canvas = RecordingCanvas()
    draw_strip_plan(canvas, narrow, cloth=FOG, width_px=456)
    assert "8 A1" in canvas.words()
    assert "A1" not in canvas.words()


def test_bolt_counts_cuts_from_the_free_end() -> None:
    canvas = RecordingCanvas()
    bolt = BoltView(length=F(100), cuts=(F(9),) * 11, done=3)
    draw_bolt(canvas, bolt, cloth=DEEP, width_px=426)  # 4 px an inch
    assert canvas.words() == ["4", "5", "10"]  # the next cut in red, then every fifth that has room
    red = next(call for call in canvas.calls if call[0] == "line")
    assert red[1][0] == 422 - 4 - 4 * 36  # 1 in to straighten, then four cuts of 9 in
    assert [call[0] for call in canvas.calls].count("hatch") == 8


@pytest.mark.parametrize(("done", "total"), [(0, 0), (3, 7), (7, 7), (9, 7)])
def test_tally_has_a_stroke_for_each_and_strong_ones_for_those_done(done: int, total: int) -> None:
    canvas = RecordingCanvas()
    draw_tally(canvas, done=done, total=total, width_px=340)
    strong = [call for call in canvas.calls if call[3].colour == INK]
    assert (len(strong), len(canvas.calls)) == (done, max(done, total))


def test_bars_stack_their_parts_and_show_the_mean() -> None:
    canvas = RecordingCanvas()
    bars = [Bar(label="1", parts=(F(1), F(3)), words="4"), Bar(label="2", parts=(), words="rest")]
    draw_bars(canvas, bars, width_px=244, mean=F(2))
    assert canvas.words() == ["2", "4", "4", "1", "rest", "2"]
    heights = [call[1][2][1] - call[1][0][1] for call in canvas.calls if call[0] == "polygon"]
    assert heights == [23, 69]  # 92 px for the tallest: 1 and 3 of 4
    assert canvas.calls[-1][3].colour == RED


def test_swatch_and_legend_have_their_own_size() -> None:
    swatch, legend = RecordingCanvas(), RecordingCanvas()
    draw_swatch(swatch, KELP)
    draw_legend_mark(legend, MarkKind.PENCIL)
    assert (swatch.size, swatch.words()) == ((34, 26), ["C"])
    assert legend.calls == [("line", (F(3), F(7)), (F(31), F(7)), MARK_STROKES[MarkKind.PENCIL])]


def test_a_short_upright_dimension_has_level_words() -> None:
    canvas = RecordingCanvas()
    draw_dimension(canvas, (F(50), F(0)), (F(50), F(10)), words="1 1/2")
    assert [(call[3].anchor, call[3].turned) for call in canvas.calls if call[0] == "text"] == [
        ("end", False)
    ]


def test_no_words_are_set_below_twelve_pixels() -> None:
    canvas = RecordingCanvas()
    draw_strip_plan(canvas, plan(), cloth=FOG, width_px=300)
    draw_bolt(canvas, BoltView(length=F(100), cuts=(F(9),) * 11), cloth=DEEP, width_px=300)
    draw_bars(canvas, [Bar(label="1", parts=(F(1),), words="1")], width_px=100)
    assert min(call[3].size for call in canvas.calls if call[0] == "text") >= 12
