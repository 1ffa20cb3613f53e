"""Drawings of placed blocks and of the whole top, in the quilt's letters and finished inches."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from patterns.engine.blocks import Block
    from patterns.engine.quilts import QuiltTop
    from patterns.models import PlacedBlock, Quilt


def placed_drawing(placed: PlacedBlock) -> Block:
    """Draw a block as it lies in its place: quilt letters, finished inches of the place, turned.

    A block of its own smaller size gets a frame of rectangles in the frame's letter.  ProgramError
    names own_size when it is larger than the place, letters when one has no letter of the quilt.
    """
    raise NotImplementedError


def quilt_top(quilt: Quilt) -> QuiltTop:
    """Draw the whole top in its setting, sashing and border included."""
    raise NotImplementedError
