"""The quilt as a picture: what is sewn in cloth, what is released in lines, what is ahead as numbers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import TYPE_CHECKING

from patterns.engine.drawing import (
    AHEAD,
    NOTE,
    THIN,
    Canvas,
    Frame,
    Lettering,
    below,
    box,
    clearance_squared,
    inner_point,
    rational,
)
from patterns.engine.drawing_blocks import draw_patches
from patterns.engine.drawing_lines import DIMENSION_ROOM, draw_dimension
from patterns.engine.hatches import WHITE, Cloths

if TYPE_CHECKING:
    from collections.abc import Mapping

    from patterns.engine.parts import Patch, Point
    from patterns.engine.steps import Size

_NUMBER_ROOM = 11  # px from the number's middle to the nearest edge
_TILE = Fraction(4)  # px: patches are small in a picture of the whole


class PartState(StrEnum):
    """How a part of the quilt is drawn."""

    AHEAD = "not released"
    RELEASED = "released"
    SEWN = "sewn"


@dataclass(frozen=True, slots=True, kw_only=True)
class QuiltPart:
    """A part that comes in one installment: a block in its place, the sashing, a border.

    Points lie in the finished inches of the whole quilt.  A part of several outlines (sashing, border)
    is left blank while it is ahead.
    """

    key: str
    number: int  # of the installment; 0 when no number is drawn
    outlines: tuple[tuple[Point, ...], ...]
    patches: tuple[Patch, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class QuiltDrawing:
    """All parts of a quilt, those that lie below others first, and its finished size in inches."""

    size: Size
    parts: tuple[QuiltPart, ...]


def draw_quilt(
    canvas: Canvas,
    quilt: QuiltDrawing,
    *,
    cloths: Cloths,
    states: Mapping[str, PartState],
    width_px: int,
    measures: tuple[str, str] | None = None,
) -> None:
    """Draw a quilt `width_px` wide; a part without a state is sewn.

    `measures` are words for dimension lines above and at the left, such as "54 in finished".
    """
    room = DIMENSION_ROOM if measures else 1
    frame = Frame(
        scale=(width_px - room - 1) / rational(quilt.size[0]), origin=(Fraction(room), Fraction(room))
    )
    right, bottom = frame.at(quilt.size)
    canvas.page(Fraction(width_px), bottom + 1)
    states = {part.key: states.get(part.key, PartState.SEWN) for part in quilt.parts}
    sewn = [patch for part in quilt.parts if states[part.key] == PartState.SEWN for patch in part.patches]
    if len(sewn) < sum(len(part.patches) for part in quilt.parts):
        canvas.polygon(box(frame.origin, (right, bottom)), fill=WHITE, edge=AHEAD)
    draw_patches(canvas, sewn, frame=frame, cloths=cloths, letters=False, tile=_TILE)
    for part in quilt.parts:
        _draw_unsewn(canvas, part, frame=frame, state=states[part.key])
    if measures:
        _draw_measures(canvas, measures, frame=frame, size=quilt.size)


def _draw_unsewn(canvas: Canvas, part: QuiltPart, *, frame: Frame, state: PartState) -> None:
    """Draw the lines of a released part, or the dashed outline and number of one that is ahead."""
    if state == PartState.RELEASED:
        for patch in part.patches:
            canvas.polygon(frame.all(patch.points), fill=WHITE, edge=THIN)
    elif state == PartState.AHEAD and len(part.outlines) == 1:
        canvas.polygon(frame.all(part.outlines[0]), fill=WHITE, edge=AHEAD)
        if part.number:
            _draw_number(canvas, part, frame=frame)


def _draw_number(canvas: Canvas, part: QuiltPart, *, frame: Frame) -> None:
    outline = frame.all(part.outlines[0])
    centre = inner_point(outline)
    if clearance_squared(centre, outline) >= _NUMBER_ROOM**2:
        style = Lettering(size=Fraction(13), colour=NOTE)
        canvas.text(below(centre, style.size), str(part.number), style=style)


def _draw_measures(canvas: Canvas, measures: tuple[str, str], *, frame: Frame, size: Size) -> None:
    left, top = frame.origin
    right, bottom = frame.at(size)
    draw_dimension(canvas, (left, top - 8), (right, top - 8), words=measures[0])
    draw_dimension(canvas, (left - 8, top), (left - 8, bottom), words=measures[1])
