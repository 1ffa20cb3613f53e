"""The borders of a quilt from its records, from the inside out: plain, or pieced from a repeated block."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.errors import ProgramError
from patterns.engine.blocks import block_from_data
from patterns.engine.border_words import END_COPING, SIDE_COPING
from patterns.engine.borders import Border, Corners, PiecedBorder
from patterns.engine.errors import DrawingError
from patterns.engine.layout import PlacedDrawing, plain_square
from patterns.engine.parts import Unit
from patterns.models import QUILT_BORDERS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from fractions import Fraction

    from patterns.engine.borders import AnyBorder
    from patterns.engine.quilts import QuiltTop
    from patterns.engine.surds import Number
    from patterns.models import Block, Quilt


def quilt_borders(quilt: Quilt) -> Iterator[tuple[str, AnyBorder]]:
    """Give the borders that have a width, each with the beginning of its fields' names.

    A pieced border's width is the finished size of one repeat, its letter that of the coping strips.
    ProgramError names the letter that is missing, or the block that cannot be repeated.
    """
    for name in QUILT_BORDERS:
        if getattr(quilt, f"{name}_width"):
            pieced = getattr(quilt, f"{name}_block")
            yield name, _pieced(quilt, name, pieced) if pieced else _plain(quilt, name)


def letter_of(quilt: Quilt, field: str) -> str:
    """Give the letter of a part that is there; ProgramError names the field where it is empty."""
    letter: str = getattr(quilt, field)
    if not letter:
        raise ProgramError(field, _("Name the fabric letter of this part."))
    return letter


def coping_widths(top: QuiltTop) -> tuple[Number, ...]:
    """Give the finished widths of the coping strips of a top, from the inside out, each once."""
    names = {SIDE_COPING, END_COPING}
    parts = top.border.parts if top.border else ()
    found = (part.height for part in parts if isinstance(part, Unit) and part.name in names)
    return tuple(dict.fromkeys(found))


def _plain(quilt: Quilt, name: str) -> Border:
    corners = Corners(getattr(quilt, f"{name}_corners"))
    squares = letter_of(quilt, f"{name}_corner_letter") if corners is Corners.SQUARES else ""
    width, fabric = getattr(quilt, f"{name}_width"), letter_of(quilt, f"{name}_letter")
    return Border(width=width, fabric=fabric, corners=corners, corner=squares)


def _pieced(quilt: Quilt, name: str, block: Block) -> PiecedBorder:
    """Repeat a block; plain squares in the corners where they have a letter, else the block again."""
    size, corner = getattr(quilt, f"{name}_width"), getattr(quilt, f"{name}_corner_letter")
    unit = _repeated(quilt, block, size, field=f"{name}_block")
    return PiecedBorder(
        unit=unit,
        corner=plain_square(corner, size) if corner else unit,
        coping=getattr(quilt, f"{name}_letter"),
    )


def _repeated(quilt: Quilt, block: Block, size: Fraction, *, field: str) -> PlacedDrawing:
    facts = {"block": block.name}
    try:
        drawing = block_from_data(block.drawing)
    except DrawingError as error:
        raise ProgramError(field, _("Draw {block} again: {kind}."), kind=error.kind, **facts) from error
    if drawing.width != drawing.height:
        raise ProgramError(field, _("{block} is not square. Repeat a square block."), **facts)
    if drawing.applique:
        raise ProgramError(field, _("{block} has appliqué shapes. Repeat a pieced block."), **facts)
    missing = sorted({*drawing.letters} - {each.letter for each in quilt.letters.all()})
    if missing:
        remedy = _("The quilt has no letter {letter} of {block}. Draw the block in the quilt's letters.")
        raise ProgramError(field, remedy, letter=missing[0], **facts)
    return PlacedDrawing(block=drawing.at_size(size, size))
