"""A drawing board: the patches on their numbered grid, its points, and seams that divide nothing yet."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from patterns.engine.drawing import (
    NOTE,
    RED,
    THIN,
    Canvas,
    Frame,
    Lettering,
    Pixel,
    Stroke,
    below,
    clearance_squared,
    inner_point,
    letter_disc,
    rational,
)
from patterns.engine.drawing_blocks import draw_letter, draw_patches, letter_room
from patterns.engine.hatches import WHITE, Cloths

if TYPE_CHECKING:
    from collections.abc import Sequence

    from patterns.engine.parts import Shape
    from patterns.engine.subdivision import Subdivision

_ROOM, _RIM = 30, 9  # px for the numbers, and round the other sides
_POINT, _END = Fraction(3), Fraction(6)  # px, radii
_LEAST_STEP = 18  # px between two numbers
_OPEN = Stroke(RED, Fraction(5, 2), (Fraction(7), Fraction(4)))
_NUMBERS = Lettering(colour=NOTE)


def draw_board(
    canvas: Canvas,
    divided: Subdivision,
    *,
    cloths: Cloths,
    width_px: int,
    numbered: bool = False,
    shapes: Sequence[Shape] = (),
) -> None:
    """Draw a board `width_px` wide, in cloth with letters; or, numbered, in white with numbers.

    Appliqué `shapes` lie on the patches; they have no numbers.
    """
    frame = Frame(
        scale=(width_px - _ROOM - _RIM) / rational(divided.width), origin=(Fraction(_ROOM), Fraction(_ROOM))
    )
    canvas.page(Fraction(width_px), frame.length(divided.height) + _ROOM + _RIM)
    laid = (*divided.patches, *(() if numbered else shapes))
    draw_patches(canvas, laid, frame=frame, cloths={} if numbered else cloths, letters=False)
    _draw_points(canvas, divided, frame)
    above = [frame.all(shape.points) for shape in shapes]
    for number, patch in enumerate(divided.patches, start=1):
        if numbered:
            _draw_number(canvas, frame.all(patch.points), str(number))
        else:
            draw_letter(canvas, frame.all(patch.points), patch.fabric, above=above)
    for at, shape in enumerate([] if numbered else shapes, start=1):
        draw_letter(canvas, frame.all(shape.points), shape.fabric, above=above[at:])
    _draw_loose(canvas, divided, frame)


def _draw_points(canvas: Canvas, divided: Subdivision, frame: Frame) -> None:
    across, down = (range(int(rational(side)) + 1) for side in (divided.width, divided.height))
    apart = 1 if frame.scale >= _LEAST_STEP else 2
    for x in across:
        for y in down:
            centre = frame.at((Fraction(x), Fraction(y)))
            canvas.disc(centre, (_POINT, _POINT), fill=WHITE, edge=THIN)
    for x in across[::apart]:
        canvas.text((frame.at((Fraction(x), Fraction(0)))[0], Fraction(16)), str(x), style=_NUMBERS)
    for y in down[::apart]:
        centre = (Fraction(12), frame.at((Fraction(0), Fraction(y)))[1])
        canvas.text(below(centre), str(y), style=_NUMBERS)


def _draw_number(canvas: Canvas, outline: tuple[Pixel, ...], number: str) -> None:
    centre = inner_point(outline)
    if clearance_squared(centre, outline) >= letter_room(number) ** 2:
        letter_disc(canvas, centre, number)


def _draw_loose(canvas: Canvas, divided: Subdivision, frame: Frame) -> None:
    for loose in divided.loose:
        for piece in loose.pieces:
            canvas.line(frame.at(piece.start), frame.at(piece.end), stroke=_OPEN)
        for place in loose.places:
            canvas.disc(frame.at(place), (_END, _END), fill=RED)
