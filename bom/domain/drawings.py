"""Drawings of placed blocks, in the quilt's letters and finished inches."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.errors import ProgramError
from patterns.engine.blocks import Block, block_from_data
from patterns.engine.errors import DrawingError, UnknownLetter
from patterns.engine.measure import write_inches
from patterns.engine.parts import Patch
from patterns.enums import SettingKind

if TYPE_CHECKING:
    from patterns.models import PlacedBlock


def placed_drawing(placed: PlacedBlock) -> Block:
    """Draw a block as it lies in its place: quilt letters, finished inches of the place, turned.

    In rows of mixed sizes a block has its own size, and no place to fill.  Elsewhere a block of its own
    smaller size gets a frame of four rectangles in the frame's letter.  ProgramError names own_size when it
    is larger than the place or the block is not square, frame_letter when a smaller one has none, letters
    when a letter has none of the quilt's.
    """
    return upright(placed).turned(placed.turn)


def upright(placed: PlacedBlock) -> Block:
    """Draw a block at the size of its place, not turned yet."""
    place, own = placed.quilt.block_size, placed.size
    if placed.quilt.setting == SettingKind.ROWS:
        return _lettered(placed).at_size(own, own)
    if own > place:
        remedy = _("{block} is larger than its place of {place} in. Give it {place} in or less.")
        raise ProgramError("own_size", remedy, block=placed.block.name, place=write_inches(place))
    block = _lettered(placed).at_size(own, own)
    return block if own == place else _framed(block, place, placed)


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
    far, none = place - edge, Fraction(0)
    strips = [
        (none, none, place, edge),
        (none, far, place, place),
        (none, edge, edge, far),
        (far, edge, place, far),
    ]
    frame = [_rectangle(placed.frame_letter, corners) for corners in strips]
    inner = block.moved((edge, edge))
    return replace(inner, width=place, height=place, patches=(*inner.patches, *frame))


def _rectangle(letter: str, corners: tuple[Fraction, Fraction, Fraction, Fraction]) -> Patch:
    left, top, right, bottom = corners
    return Patch(letter, ((left, top), (right, top), (right, bottom), (left, bottom)))
