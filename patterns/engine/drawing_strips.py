"""Strip plans: fabric on graph paper, one square to the inch, strips cut bold, each piece named."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING, Protocol

from patterns.engine.drawing import (
    BOLD,
    BOLD_LETTERS,
    EDGE,
    GREY,
    GRID,
    Canvas,
    Frame,
    Lettering,
    Pixel,
    Stroke,
    below,
    box,
    text_width,
)
from patterns.engine.drawing_blocks import draw_ground
from patterns.engine.drawing_lines import draw_dimension
from patterns.engine.hatches import INK, WHITE, Cloth, mix
from patterns.engine.measure import write_inches

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

TRIMMED = Cloth("", "#FFFFFF", 1)  # rising grey lines on white
LEFT_OVER = Stroke(GREY, Fraction(4, 5), (Fraction(3), Fraction(3)))

_SELVAGE = Stroke(INK, Fraction(9, 10), (Fraction(1), Fraction(3)))
_LEFT, _TOP, _RIGHT = 46, 32, 10  # px beside and above the fabric
_NAME_ROOM = 20  # px along a piece for its name
_BAND = 18  # px above a strip that is cut more than once
_TILE = Fraction(7)


class CutLike(Protocol):
    """A piece as it lies in its strip, inches: x and width across the fabric, y and length along it."""

    @property
    def label(self) -> str: ...  # noqa: D102 -- the class says it
    @property
    def x(self) -> Fraction: ...  # noqa: D102 -- the class says it
    @property
    def y(self) -> Fraction: ...  # noqa: D102 -- the class says it
    @property
    def width(self) -> Fraction: ...  # noqa: D102 -- the class says it
    @property
    def length(self) -> Fraction: ...  # noqa: D102 -- the class says it
    @property
    def surplus(self) -> bool: ...  # noqa: D102 -- the class says it


class StripLike(Protocol):
    """A strip `height` inches along the fabric, cut `repeat` times."""

    @property
    def height(self) -> Fraction: ...  # noqa: D102 -- the class says it
    @property
    def repeat(self) -> int: ...  # noqa: D102 -- the class says it
    @property
    def cuts(self) -> Sequence[CutLike]: ...  # noqa: D102 -- the class says it


class PlanLike(Protocol):
    """A strip plan."""

    @property
    def usable_width(self) -> Fraction: ...  # noqa: D102 -- the class says it
    @property
    def strips(self) -> Sequence[StripLike]: ...  # noqa: D102 -- the class says it


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanWords:
    """The words of a strip plan: the width above it, heights at its left, strips that come again."""

    width: Callable[[Fraction], str]
    height: Callable[[Fraction], str]
    again: Callable[[int], str]


ENGLISH = PlanWords(
    width=lambda inches: f"usable width {write_inches(inches)} in",
    height=write_inches,
    again=lambda times: f"{times} strips like this",
)


def draw_strip_plan(
    canvas: Canvas,
    plan: PlanLike,
    *,
    cloth: Cloth,
    width_px: int,
    given_length: Fraction | None = None,
    words: PlanWords = ENGLISH,
) -> None:
    """Draw the strips of one fabric, each distinct strip once, from the end that is cut first.

    `given_length` is the length of the fabric that is cut from, inches: what is not used of it is
    drawn as left over, where every strip is drawn (none comes more than once).
    """
    scale = Fraction(width_px - _LEFT - _RIGHT) / plan.usable_width
    frames, bottom = _lay_out(plan.strips, scale)
    repeats = any(strip.repeat > 1 for strip in plan.strips)
    end = bottom if repeats or given_length is None else max(bottom, _TOP + given_length * scale)
    canvas.page(Fraction(width_px), end + 8)
    for strip, frame in zip(plan.strips, frames, strict=True):
        _draw_strip(canvas, strip, frame=frame, cloth=cloth, width=plan.usable_width)
        _draw_strip_words(canvas, strip, frame=frame, words=words)
    if end > bottom:
        rest = Frame(scale=scale, origin=(Fraction(_LEFT), bottom))
        _graph_paper(canvas, rest, width=plan.usable_width, height=(end - bottom) / scale)
        canvas.polygon(box(rest.origin, (rest.at((plan.usable_width, Fraction(0)))[0], end)), edge=LEFT_OVER)
    _draw_selvages(
        canvas, right=_LEFT + plan.usable_width * scale, end=end, words=words.width(plan.usable_width)
    )


def _draw_strip_words(canvas: Canvas, strip: StripLike, *, frame: Frame, words: PlanWords) -> None:
    """Set the height of a strip at its left and, above it, how often it is cut."""
    left, top = frame.origin
    foot = (left - 10, frame.at((Fraction(0), strip.height))[1])
    draw_dimension(canvas, (left - 10, top), foot, words=words.height(strip.height))
    if strip.repeat > 1:
        canvas.text((left, top - 5), words.again(strip.repeat), style=Lettering(anchor="start", bold=True))


def _draw_selvages(canvas: Canvas, *, right: Fraction, end: Fraction, words: str) -> None:
    """Draw both selvages as dotted lines, and the usable width between them."""
    left, above = Fraction(_LEFT), Fraction(_TOP - 12)
    for side in (left, right):
        canvas.line((side, Fraction(_TOP - 6)), (side, end + 6), stroke=_SELVAGE)
    draw_dimension(canvas, (left, above), (right, above), words=words)


def _lay_out(strips: Sequence[StripLike], scale: Fraction) -> tuple[list[Frame], Fraction]:
    """Give the frame of every strip and the bottom of the last, px."""
    frames, y = [], Fraction(_TOP)
    for strip in strips:
        y += _BAND if strip.repeat > 1 else 0
        frames.append(Frame(scale=scale, origin=(Fraction(_LEFT), y)))
        y += strip.height * scale
    return frames, y


def _draw_strip(canvas: Canvas, strip: StripLike, *, frame: Frame, cloth: Cloth, width: Fraction) -> None:
    _graph_paper(canvas, frame, width=width, height=strip.height)
    used = max((cut.x + cut.width for cut in strip.cuts), default=Fraction(0))
    (left, top), (right, bottom) = frame.all(((Fraction(0), Fraction(0)), (width, strip.height)))
    edge = frame.at((used, strip.height))[0]
    if any(cut.length < strip.height for cut in strip.cuts):
        trimmed = box((left, top), (edge, bottom))
        canvas.polygon(trimmed, fill=TRIMMED.colour, edge=Stroke(GREY, Fraction(3, 5)))
        canvas.hatch(trimmed, cloth=TRIMMED, tile=_TILE)
    if used < width:
        canvas.polygon(box((edge, top), (right, bottom)), edge=LEFT_OVER)
    for cut in strip.cuts:
        _draw_cut(canvas, cut, frame=frame, cloth=cloth)
    _name_cuts(canvas, strip.cuts, frame=frame)
    for y in (top, bottom):
        canvas.line((left - 4, y), (right + 4, y), stroke=BOLD)


def _draw_cut(canvas: Canvas, cut: CutLike, *, frame: Frame, cloth: Cloth) -> None:
    """Draw one piece; a surplus one is pale."""
    outline = _cut_box(cut, frame)
    if cut.surplus:
        canvas.polygon(outline, fill=mix(cloth.colour, WHITE, Fraction(7, 10)), edge=EDGE)
    else:
        draw_ground(canvas, outline, cloth=cloth, tile=_TILE)
        canvas.polygon(outline, edge=EDGE)


def _name_cuts(canvas: Canvas, cuts: Sequence[CutLike], *, frame: Frame) -> None:
    """Name every piece in a white box, or a run of narrow ones together: "12 A1"."""
    for label, run in groupby(cuts, key=lambda cut: cut.label):
        alike = list(run)
        widest = text_width(label) + 6
        if all(frame.length(cut.width) >= widest and frame.length(cut.length) >= _NAME_ROOM for cut in alike):
            for cut in alike:
                _name(canvas, _cut_box(cut, frame), label)
        else:
            corners = [corner for cut in alike for corner in _cut_box(cut, frame)]
            _name(canvas, corners, f"{len(alike)} {label}" if len(alike) > 1 else label)


def _name(canvas: Canvas, corners: Sequence[Pixel], words: str) -> None:
    """Set words in a white box in the middle of these corners, when the box is not wider than they."""
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    half = (text_width(words) + 6) / 2
    if 2 * half > max(xs) - min(xs) + 8:
        return
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    tall = min(Fraction(9), max((max(ys) - min(ys)) / 2, Fraction(13, 2)))
    frame = box((middle[0] - half, middle[1] - tall), (middle[0] + half, middle[1] + tall))
    canvas.polygon(frame, fill=WHITE, edge=Stroke(INK, Fraction(7, 10)))
    canvas.text(below(middle), words, style=BOLD_LETTERS)


def _graph_paper(canvas: Canvas, frame: Frame, *, width: Fraction, height: Fraction) -> None:
    """Draw one square to the inch with lines: pattern fills of paper get lost in some PDF viewers."""
    stroke = Stroke(GRID, Fraction(1))
    for x in range(1, int(width) + 1):
        canvas.line(*frame.all(((Fraction(x), Fraction(0)), (Fraction(x), height))), stroke=stroke)
    for y in range(1, int(height) + 1):
        canvas.line(*frame.all(((Fraction(0), Fraction(y)), (width, Fraction(y)))), stroke=stroke)


def _cut_box(cut: CutLike, frame: Frame) -> tuple[Pixel, ...]:
    return box(frame.at((cut.x, cut.y)), frame.at((cut.x + cut.width, cut.y + cut.length)))
