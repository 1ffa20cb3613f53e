"""Drawings that count: a bolt with its cuts, tally marks of five, hours as bars, a swatch."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from patterns.engine.drawing import (
    BOLD_LETTERS,
    EDGE,
    GREY,
    NOTE,
    RED,
    THIN,
    Canvas,
    Lettering,
    Stroke,
    below,
    box,
    text_width,
    thousandth,
)
from patterns.engine.drawing_blocks import draw_ground
from patterns.engine.hatches import INK, WHITE, Cloth, mix
from patterns.engine.measure import write_inches

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

_FIVE = 5
_LINES = 8  # of a chart's scale, at most
_NUMBER_ROOM = 20  # px between numbers of cuts
_BOLT_LEFT, _BOLT_TOP, _BOLT_FOOT = Fraction(22), Fraction(6), Fraction(58)
_DONE = Stroke(INK, Fraction(14, 5))
_TO_DO = Stroke(GREY, Fraction(3, 2))
_CUT_AWAY = Stroke(GREY, Fraction(4, 5), (Fraction(2), Fraction(2)))


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltView:
    """A bolt on the table, inches: its length, the cuts from the free end in order, how many are done."""

    length: Fraction
    cuts: tuple[Fraction, ...]
    done: int = 0
    straighten: Fraction = Fraction(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar of a chart: words below, parts stacked from the foot, words above."""

    label: str
    parts: tuple[Fraction, ...]
    words: str


def draw_swatch(canvas: Canvas, cloth: Cloth, *, width_px: int = 34, height_px: int = 26) -> None:
    """Draw a swatch with its letter in a white box."""
    width, height = Fraction(width_px), Fraction(height_px)
    canvas.page(width, height)
    half = Fraction(1, 2)
    outline = box((half, half), (width - half, height - half))
    draw_ground(canvas, outline, cloth=cloth, tile=Fraction(5))
    canvas.polygon(outline, edge=Stroke(INK, Fraction(1)))
    middle = (width / 2, height / 2)
    room = max(text_width(cloth.letter, Fraction(13)) + 5, Fraction(15)) / 2
    canvas.polygon(box((middle[0] - room, middle[1] - 8), (middle[0] + room, middle[1] + 8)), fill=WHITE)
    style = Lettering(size=Fraction(13), bold=True)
    canvas.text(below(middle, style.size), cloth.letter, style=style)


def draw_bolt(canvas: Canvas, bolt: BoltView, *, cloth: Cloth, width_px: int) -> None:
    """Draw a bolt: roll at the left, free end at the right, cuts counted from the free end.

    Cut pieces are dashed, the next cut is a red line, every fifth cut is numbered.
    """
    right, last_number = Fraction(width_px - 4), Fraction(width_px)
    canvas.page(Fraction(width_px), _BOLT_FOOT + 22)
    ground = mix(cloth.colour, WHITE, Fraction(18, 25))
    canvas.polygon(box((_BOLT_LEFT, _BOLT_TOP), (right, _BOLT_FOOT)), fill=ground, edge=THIN)
    canvas.disc((Fraction(13), Fraction(32)), (Fraction(9), Fraction(26)), fill=cloth.colour, edge=EDGE)
    canvas.disc((Fraction(13), Fraction(32)), (Fraction(3), Fraction(10)), fill=WHITE, edge=THIN)
    scale = (right - _BOLT_LEFT) / bolt.length
    end = right - bolt.straighten * scale
    for number, cut in enumerate(bolt.cuts, start=1):
        start = end - cut * scale
        ends = (thousandth(start), thousandth(end))
        _draw_cut_of_bolt(canvas, ends, cloth=cloth, done=number <= bolt.done)
        middle = thousandth((start + end) / 2)
        if number == bolt.done + 1:
            _draw_next_cut(canvas, ends[0], middle=middle, number=number)
            last_number = middle
        elif number % _FIVE == 0 and last_number - middle > _NUMBER_ROOM and number != bolt.done:
            canvas.text((middle, _BOLT_FOOT + 18), str(number), style=Lettering(colour=NOTE))
            last_number = middle
        end = start


def draw_tally(canvas: Canvas, *, done: int, total: int, width_px: int) -> None:
    """Draw strokes in fives, those done strong; as many fives to a line as the width holds."""
    per_line = max(1, width_px // 48)
    fives = -(-max(total, done) // _FIVE)
    lines = max(1, -(-fives // per_line))
    canvas.page(Fraction(min(fives, per_line) * 48 or 48), Fraction(lines * 40 - 4))
    for stroke in range(max(total, done)):
        five, place = divmod(stroke, _FIVE)
        x, y = Fraction(4 + 48 * (five % per_line)), Fraction(40 * (five // per_line))
        look = _DONE if stroke < done else _TO_DO
        if place == _FIVE - 1:
            canvas.line((x - 2, y + 28), (x + 34, y + 8), stroke=look)
        else:
            canvas.line((x + 4 + 8 * place, y + 4), (x + 4 + 8 * place, y + 32), stroke=look)


def draw_bars(
    canvas: Canvas,
    bars: Sequence[Bar],
    *,
    width_px: int,
    mean: Fraction | None = None,
    scale_words: Callable[[Fraction], str] = write_inches,
) -> None:
    """Draw bars side by side; the first part plain, the others hatched; the mean as a dashed red line."""
    foot, tallest = Fraction(120), max((sum(bar.parts) for bar in bars), default=Fraction(0)) or Fraction(1)
    canvas.page(Fraction(width_px), foot + 22)
    left, step = Fraction(44), Fraction(width_px - 44) / max(len(bars), 1)
    scale = Fraction(92) / tallest
    every = max(2, -(-int(tallest) // _LINES))
    for level in range(every, int(tallest) + 1, every):
        y = thousandth(foot - level * scale)
        canvas.line((left, y), (Fraction(width_px), y), stroke=Stroke(GREY, Fraction(2, 5)))
        words = scale_words(Fraction(level))
        canvas.text((left - 8, y + 4), words, style=Lettering(anchor="end", colour=NOTE))
    for place, bar in enumerate(bars):
        _draw_bar(canvas, bar, x=thousandth(left + step * place), step=step, foot=foot, scale=scale)
    canvas.line((left, foot), (Fraction(width_px), foot), stroke=EDGE)
    if mean is not None:
        y = thousandth(foot - mean * scale)
        seam = Stroke(RED, Fraction(3, 2), (Fraction(5), Fraction(3)))
        canvas.line((left, y), (Fraction(width_px), y), stroke=seam)


def _draw_bar(
    canvas: Canvas, bar: Bar, *, x: Fraction, step: Fraction, foot: Fraction, scale: Fraction
) -> None:
    half = thousandth(step * Fraction(27, 100))
    middle, y = thousandth(x + step / 2), foot
    for part_number, part in enumerate(bar.parts):
        top = thousandth(y - part * scale)
        outline = box((middle - half, top), (middle + half, y))
        canvas.polygon(outline, edge=EDGE)
        if part_number:
            canvas.hatch(outline, cloth=Cloth("", "#777777", 1), tile=Fraction(5))
        y = top
    canvas.text((middle, y - 5), bar.words, style=BOLD_LETTERS)
    canvas.text((middle, foot + 16), bar.label, style=Lettering(colour=NOTE))


def _draw_cut_of_bolt(canvas: Canvas, ends: tuple[Fraction, Fraction], *, cloth: Cloth, done: bool) -> None:
    outline = box((ends[0], _BOLT_TOP), (ends[1], _BOLT_FOOT))
    if done:
        canvas.polygon(outline, fill=WHITE, edge=_CUT_AWAY)
    else:
        draw_ground(canvas, outline, cloth=cloth, tile=Fraction(6))
        canvas.polygon(outline, edge=THIN)


def _draw_next_cut(canvas: Canvas, x: Fraction, *, middle: Fraction, number: int) -> None:
    """Draw the red line where the next cut goes, and its number below the piece."""
    canvas.line((x, Fraction(0)), (x, _BOLT_FOOT + 5), stroke=Stroke(RED, Fraction(5, 2)))
    canvas.text((middle, _BOLT_FOOT + 18), str(number), style=Lettering(bold=True, colour=RED))
