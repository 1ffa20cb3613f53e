"""Drawings of placed blocks and of the whole top, in the quilt's letters and finished inches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.errors import ProgramError
from patterns.engine.blocks import Block, block_from_data
from patterns.engine.errors import DrawingError, UnknownLetter
from patterns.engine.layout import PlacedDrawing
from patterns.engine.measure import write_inches
from patterns.engine.parts import Patch
from patterns.engine.quilts import Border, QuiltTop, Sashing
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.settings_straight import straight_set
from patterns.enums import SettingKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from patterns.models import PlacedBlock, Quilt

    Rows = list[list[PlacedDrawing]]


def placed_drawing(placed: PlacedBlock) -> Block:
    """Draw a block as it lies in its place: quilt letters, finished inches of the place, turned.

    A block of its own smaller size gets a frame of four rectangles in the frame's letter.  ProgramError
    names own_size when it is larger than the place or the block is not square, frame_letter when a
    smaller one has none, letters when a letter has none of the quilt's.
    """
    return _upright(placed).turned(placed.turn)


def quilt_top(quilt: Quilt, placed: Iterable[PlacedBlock] | None = None) -> QuiltTop:
    """Draw the whole top in its setting, sashing, setting triangles and border included.

    `placed` saves reading the blocks again.  On point, a place between the rows that holds no block
    is a plain square of the setting triangles' cloth.  ProgramError names rows where a place is
    empty, or a letter that is missing.
    """
    blocks = {
        (each.row, each.column): PlacedDrawing(block=_upright(each), turn=each.turn)
        for each in (quilt.placed_blocks.select_related("block") if placed is None else placed)
    }
    border = _border(quilt)
    try:
        if quilt.setting == SettingKind.ON_POINT:
            triangle = _letter(quilt, "triangle_letter")
            return on_point_set(_rows_on_point(quilt, blocks), triangle=triangle, border=border)
        return straight_set(_rows(quilt, blocks), sashing=_sashing(quilt), border=border)
    except DrawingError as error:
        remedy = _("The setting does not come out: {kind} at {where}.")
        raise ProgramError("setting", remedy, kind=error.kind, where=error.where) from error


def _upright(placed: PlacedBlock) -> Block:
    """Draw a block at the size of its place, not turned yet."""
    place, own = placed.quilt.block_size, placed.size
    if own > place:
        remedy = _("{block} is larger than its place of {place} in. Give it {place} in or less.")
        raise ProgramError("own_size", remedy, block=placed.block.name, place=write_inches(place))
    block = _lettered(placed).at_size(own, own)
    return block if own == place else _framed(block, place, placed)


def _rows(quilt: Quilt, blocks: dict[tuple[int, int], PlacedDrawing]) -> Rows:
    return [[_at(blocks, (row, column)) for column in range(quilt.columns)] for row in range(quilt.rows)]


def _rows_on_point(quilt: Quilt, blocks: dict[tuple[int, int], PlacedDrawing]) -> Rows:
    """Fill the rows as they are seen; every second one is a place shorter and may hold plain squares."""
    plain = PlacedDrawing(block=_plain_square(_letter(quilt, "triangle_letter"), quilt.block_size))
    return [
        [
            blocks.get((row, column), plain) if row % 2 else _at(blocks, (row, column))
            for column in range(quilt.columns - row % 2)
        ]
        for row in range(quilt.rows)
    ]


def _at(blocks: dict[tuple[int, int], PlacedDrawing], place: tuple[int, int]) -> PlacedDrawing:
    if place not in blocks:
        remedy = _("The place in row {row}, column {column} is empty. Put a block there.")
        raise ProgramError("rows", remedy, row=place[0] + 1, column=place[1] + 1)
    return blocks[place]


def _sashing(quilt: Quilt) -> Sashing | None:
    if not quilt.sashing_width:
        return None
    return Sashing(
        width=quilt.sashing_width,
        fabric=_letter(quilt, "sashing_letter"),
        cornerstone=quilt.cornerstone_letter,
        outside=quilt.sashing_outside,
    )


def _border(quilt: Quilt) -> Border | None:
    if not quilt.border_width:
        return None
    return Border(width=quilt.border_width, fabric=_letter(quilt, "border_letter"))


def _letter(quilt: Quilt, field: str) -> str:
    letter: str = getattr(quilt, field)
    if not letter:
        raise ProgramError(field, _("Name the fabric letter of this part."))
    return letter


def _plain_square(letter: str, size: Fraction) -> Block:
    corners = (Fraction(0), Fraction(0), size, size)
    return Block(name="plain square", width=size, height=size, patches=(_rectangle(letter, corners),))


def _lettered(placed: PlacedBlock) -> Block:
    try:
        block = block_from_data(placed.block.drawing).relettered(placed.letters)
    except UnknownLetter as error:
        remedy = _("Give letter {letter} of {block} a letter of the quilt.")
        raise ProgramError("letters", remedy, letter=error.where, block=placed.block.name) from error
    except DrawingError as error:
        remedy = _("Draw {block} again: {kind}.")
        raise ProgramError("drawing", remedy, block=placed.block.name, kind=error.kind) from error
    if block.width != block.height:
        remedy = _("{block} is not square and does not fit a square place.")
        raise ProgramError("drawing", remedy, block=placed.block.name)
    return block


def _framed(block: Block, place: Fraction, placed: PlacedBlock) -> Block:
    """Lay the block into the middle of its place: strips left and right of it, then above and below."""
    if not placed.frame_letter:
        remedy = _("{block} is smaller than its place: name the letter of the frame.")
        raise ProgramError("frame_letter", remedy, block=placed.block.name)
    edge = (place - placed.size) / 2
    moved = [
        Patch(patch.fabric, tuple((x + edge, y + edge) for x, y in patch.points)) for patch in block.patches
    ]
    far, none = place - edge, Fraction(0)
    strips = [
        (none, none, place, edge),
        (none, far, place, place),
        (none, edge, edge, far),
        (far, edge, place, far),
    ]
    frame = [_rectangle(placed.frame_letter, corners) for corners in strips]
    return replace(block, width=place, height=place, patches=(*moved, *frame))


def _rectangle(letter: str, corners: tuple[Fraction, Fraction, Fraction, Fraction]) -> Patch:
    left, top, right, bottom = corners
    return Patch(letter, ((left, top), (right, top), (right, bottom), (left, bottom)))
