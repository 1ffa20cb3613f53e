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
_ROOM_FOR_NUMBER = 11  # px from the number of a patch to its lines
_CORNERS = 3
_FROM_EDGE = 34  # px between the grain and a cut line along it, the seam and some air
_ASIDE = {False: 36, True: 40}  # px between the grain and the middle of words, beside or below them


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
    """Draw a shape, or the part of it on one tile; `words` are its name and how often to cut it.

    Words, numbers and the grain stand well inside what the tile shows, so that none lies on a join.
    """
    left, top, _, _ = bounds(shape.reach)
    origin = (AIR - tile.corner[0], AIR - tile.corner[1])
    frame = Frame(scale=PX_PER_INCH, origin=origin, corner=(left, top))
    canvas.page(*tile.size)
    draw_contour(canvas, shape.cut, frame=frame, edge=SEWING_LINE if shape.patches else CUT_LINE)
    for name, points in shape.patches:
        outline = frame.all(points)
        canvas.polygon(outline, edge=PATCH_LINE)
        _draw_number(canvas, outline, tile, name=name)
    if shape.patches:
        draw_contour(canvas, shape.sewn, frame=frame, edge=Stroke(INK, Fraction(3, 2)))
    else:
        _draw_template(canvas, shape, tile, frame=frame, words=words)
    _draw_joins(canvas, frame.all(shape.reach), tile)


def _draw_number(canvas: Canvas, outline: Sequence[Pixel], tile: Tile, *, name: str) -> None:
    """Set the number of a patch in every part that has room for it, and in the one with its middle."""
    shown = _shown(outline, tile)
    if len(shown) < _CORNERS:
        return
    middle, whole = inner_point(shown), inner_point(outline)
    is_here = all(AIR <= place <= side - AIR for place, side in zip(whole, tile.size, strict=True))
    if is_here or clearance_squared(middle, shown) >= _ROOM_FOR_NUMBER**2:
        canvas.text(below(middle), name, style=BOLD_LETTERS)


def draw_contour(canvas: Canvas, contour: Contour, *, frame: Frame, edge: Stroke) -> None:
    """Draw a closed line of a shape."""
    bends = {i: Bend(frame.length(bend.radius), bend.clockwise) for i, bend in contour.bends.items()}
    canvas.contour(frame.all(contour.points), bends, edge=edge)


def _draw_template(
    canvas: Canvas, shape: TrueShape, tile: Tile, *, frame: Frame, words: Sequence[str]
) -> None:
    draw_contour(canvas, shape.sewn, frame=frame, edge=SEWING_LINE)
    for dot in shape.dots:
        canvas.disc(frame.at(dot), _DOT, fill=INK)
    shown = _shown(frame.all(shape.reach), tile)
    if len(shown) < _CORNERS:
        return
    middle = inner_point(shown)
    has_room = clearance_squared(middle, shown) >= _ROOM_FOR_WORDS**2
    canvas.text(below(middle), words[0], style=_NAME if has_room else BOLD_LETTERS)
    for row, said in enumerate(words[1:] if has_room else (), 1):
        canvas.text(below((middle[0], middle[1] + 15 * row)), said, style=PLAIN_LETTERS)
    _draw_grain(canvas, shown, middle, is_turned=shape.is_turned)


def _shown(outline: Sequence[Pixel], tile: Tile) -> list[Pixel]:
    """Cut off what lies beyond the joins of a tile (Sutherland and Hodgman, CACM 17, 1974)."""
    points = list(outline)
    for axis, far in enumerate(tile.size):
        for edge, way in ((Fraction(AIR), 1), (far - AIR, -1)):
            points = _on_one_side(points, axis=axis, edge=edge, way=way)
    return points


def _on_one_side(points: Sequence[Pixel], *, axis: int, edge: Fraction, way: int) -> list[Pixel]:
    """Keep what lies beyond the edge in that way along an axis."""
    kept: list[Pixel] = []
    for start, end in zip([points[-1], *points[:-1]] if points else (), points, strict=True):
        before, after = way * (start[axis] - edge), way * (end[axis] - edge)
        if (before > 0 and after < 0) or (before < 0 and after > 0):
            share = before / (before - after)
            kept.append((start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])))
        if after >= 0:
            kept.append(end)
    return kept


def _draw_grain(canvas: Canvas, outline: Sequence[Pixel], middle: Pixel, *, is_turned: bool) -> None:
    """Draw the straight grain beside the words, where the shape is long enough: a line with two heads."""
    flipped = _flip if is_turned else _keep
    line = _grain([flipped(point) for point in outline], flipped(middle), aside=_ASIDE[is_turned])
    if line is None:
        return
    (x, top), (_, bottom) = line
    canvas.line(flipped((x, top)), flipped((x, bottom)), stroke=CUT_LINE)
    for y, back in ((top, 6), (bottom, -6)):
        head = ((x, y), (x - 3, y + back), (x + 3, y + back))
        canvas.polygon([flipped(point) for point in head], fill=INK)


def _grain(outline: Sequence[Pixel], middle: Pixel, *, aside: int) -> tuple[Pixel, Pixel] | None:
    """Choose the chord nearest to the words, of those that are nearly as long as the longest."""
    if len(outline) < _CORNERS:
        return None
    left, _, right, _ = bounds(outline)
    places = [left + (right - left) * Fraction(2 * n + 1, 2 * _CHORDS) for n in range(_CHORDS)]
    beside = (x for x in places if abs(x - middle[0]) >= aside and min(x - left, right - x) >= _FROM_EDGE)
    chords = [(x, *_tallest(outline, x)) for x in beside]
    longest = max((bottom - top for _, top, bottom in chords), default=Fraction(0))
    near = [chord for chord in chords if 3 * (chord[2] - chord[1]) >= 2 * longest]
    if longest < 2 * _SHORTEST_ARROW:
        return None
    x, top, bottom = min(near, key=lambda chord: (abs(chord[0] - middle[0]), chord[0]))
    inset = (bottom - top) / 4
    return (thousandth(x), thousandth(top + inset)), (thousandth(x), thousandth(bottom - inset))


def _flip(point: Pixel) -> Pixel:
    return point[1], point[0]


def _keep(point: Pixel) -> Pixel:
    return point


def _tallest(outline: Sequence[Pixel], x: Fraction) -> tuple[Fraction, Fraction]:
    """Give both ends of the longest upright chord at x."""
    pairs = zip(outline, [*outline[1:], outline[0]], strict=True)
    ys = sorted(y1 + (x - x1) * (y2 - y1) / (x2 - x1) for (x1, y1), (x2, y2) in pairs if (x1 > x) != (x2 > x))
    chords = list(zip(ys[::2], ys[1::2], strict=False))
    return max(chords, key=lambda chord: chord[1] - chord[0], default=(Fraction(0), Fraction(0)))


def _draw_joins(canvas: Canvas, outline: Sequence[Pixel], tile: Tile) -> None:
    """Draw where this part is joined to its neighbours: a dashed line with its letter amid the shape."""
    width, height = tile.size
    near, far_x, far_y = Fraction(AIR), width - AIR, height - AIR
    lines = (
        ((near, Fraction(0)), (near, height)),
        ((Fraction(0), near), (width, near)),
        ((far_x, Fraction(0)), (far_x, height)),
        ((Fraction(0), far_y), (width, far_y)),
    )
    flipped = [_flip(point) for point in outline]
    middles = (
        (near + 12, _amid(outline, near, far_y)),
        (_amid(flipped, near, far_x), near + 14),
        (far_x - 12, _amid(outline, far_x, far_y)),
        (_amid(flipped, far_y, far_x), far_y - 14),
    )
    for letter, (start, end), middle in zip(tile.joins, lines, middles, strict=True):
        if letter:
            canvas.line(start, end, stroke=AHEAD)
            canvas.text(below(middle), letter, style=BOLD_LETTERS)


def _amid(outline: Sequence[Pixel], x: Fraction, far: Fraction) -> Fraction:
    """Give the middle of what a join at x crosses of the shape on this tile; of the tile where it is none."""
    top, bottom = _tallest(outline, x)
    top, bottom = max(top, Fraction(AIR)), min(bottom, far)
    return thousandth((top + bottom) / 2) if top < bottom else (AIR + far) / 2
