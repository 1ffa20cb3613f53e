"""Pictures of steps: pieces with raw edges to scale, and what is marked, sewn, cut, pressed, measured."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from patterns.engine.drawing import (
    EDGE,
    Canvas,
    Frame,
    Outline,
    Pixel,
    Stroke,
    bounds,
    clearance_squared,
    distance_squared,
    inner_point,
    is_inside,
    letter_disc,
)
from patterns.engine.drawing_blocks import cloth_of, draw_ground, letter_room
from patterns.engine.drawing_labels import Boxed, best_spot, boxed, edges, half_width, meeting, raster
from patterns.engine.drawing_lines import DIMENSION_ROOM, arrow_room, draw_dimension, draw_mark, draw_number
from patterns.engine.hatches import WHITE, Cloth, Cloths, edge_colour, mix
from patterns.engine.measure import Units, show_length
from patterns.engine.steps import Facet, Mark, MarkKind, Picture, Size

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from patterns.engine.parts import Point
    from patterns.engine.surds import Number

_AIR = 6  # px round the picture, so that marks at its edge are whole
_TILE = Fraction(6)
_FEW_LABELS = 8
_NARROWEST = 4  # px from the middle of a letter to the edges of a narrow piece
_WRONG_SIDE = Fraction(3, 5)  # how far toward white the back of a cloth is drawn


def inches_words(length: Number) -> str:
    """Say a length beside a dimension line."""
    return show_length(length, Units.INCHES)


def draw_step_picture(
    canvas: Canvas,
    picture: Picture,
    *,
    cloths: Cloths,
    width_px: int,
    tallest_px: int = 0,
    words: Callable[[Number], str] = inches_words,
) -> None:
    """Draw one picture of a step, at most `width_px` wide and, if given, `tallest_px` tall.

    The picture keeps its proportions, so it may come out narrower.
    """
    points = [point for facet in picture.facets for point in facet.points]
    points += [point for mark in picture.marks for point in (mark.start, mark.end)]
    left, top, right, bottom = bounds(points)
    room = DIMENSION_ROOM if picture.size else 0
    scale = Fraction(width_px - room - 2 * _AIR) / (right - left or 1)
    if tallest_px and bottom > top:
        scale = min(scale, Fraction(tallest_px - room - 2 * _AIR) / (bottom - top))
    frame = Frame(scale=scale, origin=(Fraction(room + _AIR), Fraction(room + _AIR)), corner=(left, top))
    canvas.page(*(end + _AIR for end in frame.at((right, bottom))))
    _draw_facets(canvas, picture.facets, frame=frame, cloths=cloths)
    for mark in sorted(picture.marks, key=lambda mark: mark.kind in (MarkKind.PRESS, MarkKind.DOT)):
        draw_mark(canvas, mark.kind, start=frame.at(mark.start), end=frame.at(mark.end))
    _draw_labels(canvas, picture, frame=frame)
    for mark in picture.marks:
        if mark.label:
            draw_number(canvas, frame.at(mark.start), frame.at(mark.end), number=mark.label)
    if picture.size:
        _draw_size(canvas, picture.facets, size=picture.size, frame=frame, words=words)


def _draw_facets(canvas: Canvas, facets: Sequence[Facet], *, frame: Frame, cloths: Cloths) -> None:
    """Draw pieces from the lowest to the topmost; the back of a cloth is pale and has no hatch."""
    for facet in facets:
        outline, cloth = frame.all(facet.points), cloth_of(cloths, facet.fabric)
        if facet.wrong_side:
            pale = mix(cloth.colour, WHITE, _WRONG_SIDE)
            canvas.polygon(outline, fill=pale, edge=EDGE)
        else:
            _draw_right_side(canvas, outline, cloth)


def _draw_right_side(canvas: Canvas, outline: Sequence[Pixel], cloth: Cloth) -> None:
    draw_ground(canvas, outline, cloth=cloth, tile=_TILE)
    canvas.polygon(outline, edge=Stroke(edge_colour(cloth.colour), EDGE.width))


def _draw_labels(canvas: Canvas, picture: Picture, *, frame: Frame) -> None:
    """Set every label where its piece is seen: not under another piece, not on an arrow, a line or a label.

    A picture of many pieces has labels only where there is plenty of room; but every letter and name is
    there once, over the edges of a narrow piece if it must be, unless that is hardly seen.
    """
    shapes = [boxed(frame.all(facet.points)) for facet in picture.facets]
    arrows, lines = _marked(picture.marks, frame)
    crowded = sum(bool(facet.label) for facet in picture.facets) > _FEW_LABELS
    taken: list[Outline] = []
    left_over: dict[str, list[int]] = {}
    said: set[str] = set()
    for place, facet in enumerate(picture.facets):
        if not facet.label:
            continue
        needed = (letter_room(facet.label) + 3 * crowded) ** 2
        spot = _spot(shapes, place, needed=needed, marks=(arrows, lines, taken))
        if spot:
            letter_disc(canvas, spot, facet.label)
            taken.append((spot, spot))
            said.add(facet.label)
        else:
            left_over.setdefault(facet.label, []).append(place)
    for label in [label for label in left_over if label not in said]:
        wide = [i for i in left_over[label] if half_width(shapes[i]) >= _NARROWEST]
        seen = [(shapes[i][1], meeting(shapes[i], shapes[i + 1 :])) for i in wide]
        _squeeze(canvas, label, seen, clear_of=(arrows, taken))


def _spot(
    shapes: Sequence[Boxed],
    place: int,
    *,
    needed: int,
    marks: tuple[list[Outline], list[Outline], list[Outline]],
) -> Pixel | None:
    """Give the best point for a label on one of the shapes, None where it has less room than needed."""
    mine = shapes[place]
    if half_width(mine) ** 2 < needed:
        return None  # not even an empty piece of these bounds would do
    arrows, lines, taken = (meeting(mine, map(boxed, some)) for some in marks)
    above = [*meeting(mine, shapes[place + 1 :]), *arrows]
    room, spot = best_spot(mine[1], above=above, lines=lines, taken=taken)
    return spot if room >= needed else None


def _marked(marks: Sequence[Mark], frame: Frame) -> tuple[list[Outline], list[Outline]]:
    """Give what arrows cover, and where the lines are."""
    ends = [(mark.kind is MarkKind.PRESS, frame.at(mark.start), frame.at(mark.end)) for mark in marks]
    arrows: list[Outline] = [arrow_room(start, end) for is_arrow, start, end in ends if is_arrow]
    return [arrow for arrow in arrows if arrow], [(a, b) for is_arrow, a, b in ends if not is_arrow]


def _squeeze(
    canvas: Canvas,
    label: str,
    pieces: Sequence[tuple[Outline, list[Outline]]],
    *,
    clear_of: tuple[list[Outline], list[Outline]],
) -> None:
    """Set a label that no piece has room for on the widest of its pieces, clear of arrows and labels.

    `pieces` come each with the pieces that lie on it.
    """
    arrows, taken = clear_of
    walls = [edge for shape in arrows for edge in edges(shape)]
    radius = (letter_room(label) + 1) ** 2
    for outline, above in sorted(
        pieces, key=lambda piece: -clearance_squared(inner_point(piece[0]), piece[0])
    ):
        spots = [spot for spot in (inner_point(outline), *raster(outline)) if is_inside(spot, outline)]
        free = [
            spot
            for spot in spots
            if clearance_squared(spot, outline) >= _NARROWEST**2
            and not any(is_inside(spot, other) for other in (*above, *arrows))
            and all(distance_squared(spot, *wall) >= radius for wall in walls)
            and all(distance_squared(spot, *other) >= 4 * radius for other in taken)
        ]
        if free:
            spot = max(free, key=lambda spot: clearance_squared(spot, outline))
            letter_disc(canvas, spot, label)
            taken.append((spot, spot))
            return


def _draw_size(
    canvas: Canvas, facets: Sequence[Facet], *, size: Size, frame: Frame, words: Callable[[Number], str]
) -> None:
    """Draw dimension lines above and at the left of all pieces together."""
    points: list[Point] = [point for facet in facets for point in facet.points]
    left, top, right, bottom = bounds(points)
    (x1, y1), (x2, y2) = frame.all(((left, top), (right, bottom)))
    draw_dimension(canvas, (x1, y1 - 10), (x2, y1 - 10), words=words(size[0]))
    draw_dimension(canvas, (x1 - 10, y1), (x1 - 10, y2), words=words(size[1]))
