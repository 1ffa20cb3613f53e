"""Templates and foundations at their own size: 96 px to the inch, which a sheet prints as 72 pt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from patterns.engine.drawing import (
    AHEAD,
    BOLD_LETTERS,
    PLAIN_LETTERS,
    Bend,
    Canvas,
    Frame,
    Lettering,
    Pixel,
    Stroke,
    below,
    bounds,
    clearance_squared,
    inner_point,
    thousandth,
)
from patterns.engine.hatches import INK

if TYPE_CHECKING:
    from patterns.engine.true_size import Contour, TrueShape

PX_PER_INCH = Fraction(96)
AIR = 8  # px round a shape, and beyond a join
CUT_LINE = Stroke(INK, Fraction(1))
SEWING_LINE = Stroke(INK, Fraction(3, 4), (Fraction(6), Fraction(3)))
PATCH_LINE = Stroke(INK, Fraction(1))
_DOT = (Fraction(2), Fraction(2))
_NAME = Lettering(size=Fraction(16), bold=True)
_ROOM_FOR_WORDS = 30  # px from the middle of a shape to its edges
_CHORDS = 15
_SHORTEST_ARROW = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """The part of a shape that one picture shows: its corner and its size in px."""

    corner: Pixel
    size: Pixel
    joins: tuple[str, str, str, str] = ("", "", "", "")  # at left, top, right, bottom: a letter, or none


def size_px(shape: TrueShape) -> Pixel:
    """Give how large the whole shape is in px, with air round it."""
    left, top, right, bottom = bounds(shape.reach)
    return ((right - left) * PX_PER_INCH + 2 * AIR, (bottom - top) * PX_PER_INCH + 2 * AIR)


def draw_true_size(canvas: Canvas, shape: TrueShape, tile: Tile, *, words: Sequence[str]) -> None:
    """Draw a shape, or the part of it on one tile; `words` are its name and how often to cut it."""
    left, top, _, _ = bounds(shape.reach)
    origin = (AIR - tile.corner[0], AIR - tile.corner[1])
    frame = Frame(scale=PX_PER_INCH, origin=origin, corner=(left, top))
    canvas.page(*tile.size)
    draw_contour(canvas, shape.cut, frame=frame, edge=SEWING_LINE if shape.patches else CUT_LINE)
    for name, points in shape.patches:
        outline = frame.all(points)
        canvas.polygon(outline, edge=PATCH_LINE)
        canvas.text(below(inner_point(outline)), name, style=BOLD_LETTERS)
    if shape.patches:
        draw_contour(canvas, shape.sewn, frame=frame, edge=Stroke(INK, Fraction(3, 2)))
    else:
        _draw_template(canvas, shape, frame=frame, words=words)
    _draw_joins(canvas, tile)


def draw_contour(canvas: Canvas, contour: Contour, *, frame: Frame, edge: Stroke) -> None:
    """Draw a closed line of a shape."""
    bends = {i: Bend(frame.length(bend.radius), bend.clockwise) for i, bend in contour.bends.items()}
    canvas.contour(frame.all(contour.points), bends, edge=edge)


def _draw_template(canvas: Canvas, shape: TrueShape, *, frame: Frame, words: Sequence[str]) -> None:
    draw_contour(canvas, shape.sewn, frame=frame, edge=SEWING_LINE)
    for dot in shape.dots:
        canvas.disc(frame.at(dot), _DOT, fill=INK)
    outline = frame.all(shape.reach)
    middle = inner_point(outline)
    has_room = clearance_squared(middle, outline) >= _ROOM_FOR_WORDS**2
    canvas.text(below(middle), words[0], style=_NAME if has_room else BOLD_LETTERS)
    for row, said in enumerate(words[1:] if has_room else (), 1):
        canvas.text(below((middle[0], middle[1] + 15 * row)), said, style=PLAIN_LETTERS)
    _draw_grain(canvas, outline, aside=middle[0])


def _draw_grain(canvas: Canvas, outline: Sequence[Pixel], *, aside: Fraction) -> None:
    """Draw the straight grain where the shape is tallest beside its words: a line with two heads."""
    left, _, right, _ = bounds(outline)
    places = [left + (right - left) * Fraction(2 * n + 1, 2 * _CHORDS) for n in range(_CHORDS)]
    chords = [(x, *_tallest(outline, x)) for x in places if abs(x - aside) >= _SHORTEST_ARROW]
    if not chords:
        return
    x, top, bottom = (thousandth(n) for n in max(chords, key=lambda chord: chord[2] - chord[1]))
    inset = (bottom - top) / 4
    start, end = (x, thousandth(top + inset)), (x, thousandth(bottom - inset))
    if end[1] - start[1] < _SHORTEST_ARROW:
        return
    canvas.line(start, end, stroke=CUT_LINE)
    for (at, y), back in ((start, 6), (end, -6)):
        canvas.polygon(((at, y), (at - 3, y + back), (at + 3, y + back)), fill=INK)


def _tallest(outline: Sequence[Pixel], x: Fraction) -> tuple[Fraction, Fraction]:
    """Give both ends of the longest upright chord at x."""
    pairs = zip(outline, [*outline[1:], outline[0]], strict=True)
    ys = sorted(y1 + (x - x1) * (y2 - y1) / (x2 - x1) for (x1, y1), (x2, y2) in pairs if (x1 > x) != (x2 > x))
    chords = list(zip(ys[::2], ys[1::2], strict=False))
    return max(chords, key=lambda chord: chord[1] - chord[0], default=(Fraction(0), Fraction(0)))


def _draw_joins(canvas: Canvas, tile: Tile) -> None:
    """Draw where this part is joined to its neighbours: a dashed line with the letter of the join."""
    width, height = tile.size
    near, far_x, far_y = Fraction(AIR), width - AIR, height - AIR
    lines = (
        ((near, Fraction(0)), (near, height)),
        ((Fraction(0), near), (width, near)),
        ((far_x, Fraction(0)), (far_x, height)),
        ((Fraction(0), far_y), (width, far_y)),
    )
    inward = ((12, 0), (0, 14), (-12, 0), (0, -14))
    for letter, (start, end), (dx, dy) in zip(tile.joins, lines, inward, strict=True):
        if letter:
            canvas.line(start, end, stroke=AHEAD)
            middle = ((start[0] + end[0]) / 2 + dx, (start[1] + end[1]) / 2 + dy)
            canvas.text(below(middle), letter, style=BOLD_LETTERS)
