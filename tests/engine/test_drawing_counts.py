"""Drawings of what is counted: strip plans, bolts, tallies and bars, looked at through a recording canvas."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.drawing import AHEAD, RED, RecordingCanvas
from patterns.engine.drawing_counts import Bar, BoltView, draw_bars, draw_bolt, draw_swatch, draw_tally
from patterns.engine.drawing_lines import MARK_STROKES, draw_legend_mark
from patterns.engine.drawing_strips import draw_strip_plan
from patterns.engine.hatches import INK
from patterns.engine.steps import MarkKind
from patterns.engine.strips import Cut, Strip, StripPlan
from tests.engine.cloths import DEEP, FOG, KELP, points

F = Fraction


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


def test_no_words_are_set_below_twelve_pixels() -> None:
    canvas = RecordingCanvas()
    draw_strip_plan(canvas, plan(), cloth=FOG, width_px=300)
    draw_bolt(canvas, BoltView(length=F(100), cuts=(F(9),) * 11), cloth=DEEP, width_px=300)
    draw_bars(canvas, [Bar(label="1", parts=(F(1),), words="1")], width_px=100)
    assert min(call[3].size for call in canvas.calls if call[0] == "text") >= 12
