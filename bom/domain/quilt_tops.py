"""The whole top of a quilt from its records: setting, sashing, borders; finished inches, its letters."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.drawings import upright
from bom.errors import ProgramError
from patterns.engine.borders import Border, Corners
from patterns.engine.errors import DrawingError, RowTooNarrow
from patterns.engine.layout import PlacedDrawing, plain_square
from patterns.engine.measure import up_to_eighth, write_inches
from patterns.engine.quilts import QuiltTop, Sashing
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.settings_rows import Spacer, rows_set
from patterns.engine.settings_straight import straight_set
from patterns.enums import SettingKind
from patterns.models import QUILT_BORDERS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from patterns.engine.settings_rows import Row
    from patterns.models import PlacedBlock, Quilt

    Rows = list[list[PlacedDrawing]]
    Blocks = dict[tuple[int, int], PlacedDrawing]


def quilt_top(quilt: Quilt, placed: Iterable[PlacedBlock] | None = None) -> QuiltTop:
    """Draw the whole top in its setting, sashing, setting triangles and borders included.

    `placed` saves reading the blocks again.  On point, a place between the rows that holds no block
    is a plain square of the setting triangles' cloth.  In rows of mixed sizes the sashing lies between
    the blocks and between the rows, and a short row is filled at both ends.  ProgramError names rows where
    a place is empty, setting where the blocks do not fit it, or a letter that is missing.
    """
    blocks = {
        (each.row, each.column): PlacedDrawing(block=upright(each), turn=each.turn)
        for each in (quilt.placed_blocks.select_related("block") if placed is None else placed)
    }
    try:
        top = _set(quilt, blocks)
    except RowTooNarrow as error:
        remedy = _("A row is {width} in wide, the widest {needed} in: name the strips that fill short rows.")
        sizes = {name: write_inches(up_to_eighth(getattr(error, name))) for name in ("width", "needed")}
        raise ProgramError("fill_letter", remedy, **sizes) from error
    except DrawingError as error:
        remedy = _("The setting does not come out: {kind} at {where}.")
        raise ProgramError("setting", remedy, kind=error.kind, where=error.where) from error
    _check_laid(blocks, top)
    return top


def _set(quilt: Quilt, blocks: Blocks) -> QuiltTop:
    borders = list(_borders(quilt))
    if quilt.setting == SettingKind.ROWS:
        return rows_set(list(_mixed_rows(quilt, blocks)), fill=quilt.fill_letter, border=borders)
    if quilt.setting == SettingKind.STRAIGHT:
        return straight_set(_rows(quilt, blocks), sashing=_sashing(quilt), border=borders)
    triangle = _letter(quilt, "triangle_letter")
    return on_point_set(
        _rows_on_point(quilt, blocks), triangle=triangle, sashing=_sashing(quilt), border=borders
    )


def _rows(quilt: Quilt, blocks: Blocks) -> Rows:
    return [[_at(blocks, (row, column)) for column in range(quilt.columns)] for row in range(quilt.rows)]


def _rows_on_point(quilt: Quilt, blocks: Blocks) -> Rows:
    """Fill the rows as they are seen; every second one is a place shorter and may hold plain squares."""
    if quilt.rows % 2 == 0:
        remedy = _(
            "On point the rows are odd in number, every second one a block shorter; this quilt has {rows}."
        )
        raise ProgramError("setting", remedy, rows=quilt.rows)
    plain = plain_square(_letter(quilt, "triangle_letter"), quilt.block_size)
    return [
        [
            blocks.get((row, column), plain) if row % 2 else _at(blocks, (row, column))
            for column in range(quilt.columns - row % 2)
        ]
        for row in range(quilt.rows)
    ]


def _mixed_rows(quilt: Quilt, blocks: Blocks) -> Iterator[Row | Spacer]:
    """Give the rows with as many blocks as each holds, strips of sashing between them all."""
    strip, outside = _spacer(quilt), quilt.sashing_outside
    counts = Counter(row for row, _column in blocks)
    for row in range(quilt.rows):
        if strip and (row or outside):
            yield strip
        found = [_at(blocks, (row, column)) for column in range(max(counts[row], 1))]
        yield _spaced(found, strip, outside=outside)
    if strip and outside:
        yield strip


def _spaced(blocks: list[PlacedDrawing], strip: Spacer | None, *, outside: bool) -> Row:
    if strip is None:
        return blocks
    spaced = [each for block in blocks for each in (strip, block)]
    return [*spaced, strip] if outside else spaced[1:]


def _at(blocks: Blocks, place: tuple[int, int]) -> PlacedDrawing:
    if place not in blocks:
        remedy = _("The place in row {row}, column {column} is empty. Put a block there.")
        raise ProgramError("rows", remedy, row=place[0] + 1, column=place[1] + 1)
    return blocks[place]


def _check_laid(blocks: Blocks, top: QuiltTop) -> None:
    """See that no block is left over: another setting may have no such place."""
    left = sorted(set(blocks) - {laid.place for laid in top.blocks})
    if left:
        remedy = _("This setting has no place in row {row}, column {column}, where {block} lies.")
        name = blocks[left[0]].block.name
        raise ProgramError("setting", remedy, row=left[0][0] + 1, column=left[0][1] + 1, block=name)


def _sashing(quilt: Quilt) -> Sashing | None:
    if not quilt.sashing_width:
        return None
    return Sashing(
        width=quilt.sashing_width,
        fabric=_letter(quilt, "sashing_letter"),
        cornerstone=quilt.cornerstone_letter,
        outside=quilt.sashing_outside,
    )


def _spacer(quilt: Quilt) -> Spacer | None:
    if not quilt.sashing_width:
        return None
    return Spacer(width=quilt.sashing_width, fabric=_letter(quilt, "sashing_letter"))


def _borders(quilt: Quilt) -> Iterator[Border]:
    """Give the borders that have a width, from the inside out."""
    for name in QUILT_BORDERS:
        width, corners = getattr(quilt, f"{name}_width"), Corners(getattr(quilt, f"{name}_corners"))
        if width:
            squares = _letter(quilt, f"{name}_corner_letter") if corners is Corners.SQUARES else ""
            fabric = _letter(quilt, f"{name}_letter")
            yield Border(width=width, fabric=fabric, corners=corners, corner=squares)


def _letter(quilt: Quilt, field: str) -> str:
    letter: str = getattr(quilt, field)
    if not letter:
        raise ProgramError(field, _("Name the fabric letter of this part."))
    return letter
