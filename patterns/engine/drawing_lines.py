"""Lines with a meaning: dimensions, and the marks of sewing.

Five are the usual ones (pencil, seam, cut, press, measure); dots and stops belong to set-in and partial
seams.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from patterns.engine.drawing import (
    RED,
    Canvas,
    Lettering,
    Pixel,
    Stroke,
    below,
    square_root,
    text_width,
    thousandth,
)
from patterns.engine.hatches import INK, WHITE
from patterns.engine.steps import MarkKind

MARK_STROKES = {
    MarkKind.PENCIL: Stroke(INK, Fraction(11, 10), (Fraction(6, 5), Fraction(13, 5))),
    MarkKind.SEAM: Stroke(RED, Fraction(19, 10), (Fraction(11, 2), Fraction(3))),
    MarkKind.CUT: Stroke(INK, Fraction(11, 5)),
    MarkKind.MEASURE: Stroke(RED, Fraction(2)),
    MarkKind.STOP: Stroke(RED, Fraction(3)),
}
USUAL_MARKS = (MarkKind.PENCIL, MarkKind.SEAM, MarkKind.CUT, MarkKind.PRESS, MarkKind.MEASURE)
DIMENSION_ROOM = 24  # px beside a drawing for a dimension line and its words

WHITE_LETTERS = Lettering(bold=True, colour=WHITE)

_HAIR = Stroke(INK, Fraction(9, 10))
_SLASH = Stroke(INK, Fraction(13, 10))
_CROSS = 6  # px, half an arm of "measure here"
_NUMBER = (Fraction(17, 2), Fraction(17, 2))  # px
_DOT = (Fraction(7, 2), Fraction(7, 2))  # px
_ARROW = (Fraction(18), Fraction(30))  # px, shortest and longest
_ARROW_HEAD, _WHITE_EDGE = 5, 1  # px, half as wide as its head; round it


def draw_dimension(canvas: Canvas, start: Pixel, end: Pixel, *, words: str) -> None:
    """Draw a dimension line with slashed ends; words above a level line, left of an upright one."""
    canvas.line(start, end, stroke=_HAIR)
    upright = start[0] == end[0]
    for x, y in (start, end):
        canvas.line((x - 3, y + 3), (x + 3, y - 3), stroke=_SLASH)
        across = ((x - 5, y), (x + 5, y)) if upright else ((x, y - 5), (x, y + 5))
        canvas.line(*across, stroke=_HAIR)
    middle = (thousandth((start[0] + end[0]) / 2), thousandth((start[1] + end[1]) / 2))
    if not upright:
        canvas.text((middle[0], middle[1] - 7), words)
    elif text_width(words) <= abs(end[1] - start[1]):
        canvas.text((middle[0] - 7, middle[1]), words, style=Lettering(turned=True))
    else:  # too short to stand along it
        canvas.text(below((middle[0] - 6, middle[1])), words, style=Lettering(anchor="end"))


def draw_mark(canvas: Canvas, kind: MarkKind, *, start: Pixel, end: Pixel) -> None:
    """Draw one mark of sewing from one pixel to another."""
    if kind == MarkKind.DOT:
        canvas.disc(start, _DOT, fill=INK, edge=Stroke(WHITE, Fraction(1)))
    elif kind == MarkKind.PRESS:
        draw_arrow(canvas, start, end)
    elif kind == MarkKind.MEASURE and start == end:
        x, y = start
        canvas.line((x - _CROSS, y), (x + _CROSS, y), stroke=MARK_STROKES[kind])
        canvas.line((x, y - _CROSS), (x, y + _CROSS), stroke=MARK_STROKES[kind])
    else:
        canvas.line(start, end, stroke=MARK_STROKES[kind])


def draw_arrow(canvas: Canvas, start: Pixel, end: Pixel) -> None:
    """Draw a press arrow round the middle of the way, solid with a flat tail and a white edge."""
    half = _half_arrow(start, end)
    corners = (
        (-half, -2),
        (half - 7, -2),
        (half - 7, -5),
        (half, 0),
        (half - 7, 5),
        (half - 7, 2),
        (-half, 2),
    )
    outline = _along(start, end, corners)
    if not outline:
        return
    canvas.polygon(outline, fill=WHITE, edge=Stroke(WHITE, Fraction(3)))
    canvas.polygon(outline, fill=INK)


def arrow_room(start: Pixel, end: Pixel) -> tuple[Pixel, ...]:
    """Give the corners of what a press arrow covers, its white edge too."""
    half = _half_arrow(start, end) + _WHITE_EDGE
    side = _ARROW_HEAD + _WHITE_EDGE
    return _along(start, end, ((-half, -side), (half, -side), (half, side), (-half, side)))


def _half_arrow(start: Pixel, end: Pixel) -> Fraction:
    long = square_root((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2)
    return min(max(long, _ARROW[0]), _ARROW[1]) / 2


def _along(start: Pixel, end: Pixel, corners: Iterable[tuple[Fraction | int, int]]) -> tuple[Pixel, ...]:
    """Lay points, given along the way and to its side, round the middle of the way; none on no way."""
    run = (end[0] - start[0], end[1] - start[1])
    long = square_root(run[0] ** 2 + run[1] ** 2)
    if not long:
        return ()
    along = (run[0] / long, run[1] / long)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    return tuple(_turned(middle, along, (Fraction(far), Fraction(side))) for far, side in corners)


def draw_number(canvas: Canvas, start: Pixel, end: Pixel, *, number: str) -> None:
    """Set the number of a seam in a dark disc on its middle."""
    middle = (thousandth((start[0] + end[0]) / 2), thousandth((start[1] + end[1]) / 2))
    canvas.disc(middle, _NUMBER, fill=RED)
    canvas.text(below(middle), number, style=WHITE_LETTERS)


def draw_legend_mark(canvas: Canvas, kind: MarkKind) -> None:
    """Draw one mark alone, 34 x 14 px, for the line that explains them."""
    canvas.page(Fraction(34), Fraction(14))
    if kind in (MarkKind.MEASURE, MarkKind.DOT):
        draw_mark(canvas, kind, start=(Fraction(17), Fraction(7)), end=(Fraction(17), Fraction(7)))
    elif kind == MarkKind.STOP:
        draw_mark(canvas, MarkKind.SEAM, start=(Fraction(3), Fraction(7)), end=(Fraction(17), Fraction(7)))
        draw_mark(canvas, kind, start=(Fraction(17), Fraction(1)), end=(Fraction(17), Fraction(13)))
    else:
        draw_mark(canvas, kind, start=(Fraction(3), Fraction(7)), end=(Fraction(31), Fraction(7)))


def _turned(middle: Pixel, along: Pixel, corner: Pixel) -> Pixel:
    """Give the pixel so far along a direction from `middle`, and so far to the right of it."""
    far, side = corner
    return (
        thousandth(middle[0] + along[0] * far - along[1] * side),
        thousandth(middle[1] + along[1] * far + along[0] * side),
    )
