"""The whole top of a quilt from its records: setting, sashing, borders; finished inches, its letters."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.drawings import upright
from bom.domain.quilt_borders import letter_of, quilt_borders
from bom.errors import ProgramError
from patterns.engine.errors import BadField, DrawingError, RowTooNarrow
from patterns.engine.layout import PlacedDrawing, plain_square
from patterns.engine.measure import up_to_eighth, write_inches
from patterns.engine.quilts import QuiltTop, Sashing
from patterns.engine.settings_on_point import FEWEST, on_point_set, pointed_runner
from patterns.engine.settings_rows import Spacer, rows_set
from patterns.engine.settings_straight import straight_set
from patterns.enums import SettingKind
from patterns.models import QUILT_BORDERS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from patterns.engine.borders import AnyBorder
    from patterns.engine.settings_rows import Row
    from patterns.models import PlacedBlock, Quilt

    Rows = list[list[PlacedDrawing]]
    Blocks = dict[tuple[int, int], PlacedDrawing]


def quilt_top(quilt: Quilt, placed: Iterable[PlacedBlock] | None = None) -> QuiltTop:
    """Draw the whole top in its setting, sashing, setting triangles and borders included.

    `placed` saves reading the blocks again.  A place that holds no block is a plain square of the plain
    squares' cloth; on point, between the rows, else of the setting triangles'.  In rows of mixed
    sizes the sashing lies between the blocks and between the rows, and a short row is filled at both ends.
    ProgramError names rows where a place is empty or too few are left for the blocks, setting where the
    blocks do not fit it, or a letter that is missing.
    """
    blocks = {
        (each.row, each.column): PlacedDrawing(block=upright(each), turn=each.turn)
        for each in (quilt.placed_blocks.select_related("block") if placed is None else placed)
    }
    _check_counts(quilt, blocks)
    borders = list(quilt_borders(quilt))
    try:
        top = _set(quilt, blocks, [border for _name, border in borders])
    except RowTooNarrow as error:
        remedy = _("A row is {width} in wide, the widest {needed} in: name the strips that fill short rows.")
        sizes = {name: write_inches(up_to_eighth(getattr(error, name))) for name in ("width", "needed")}
        raise ProgramError("fill_letter", remedy, **sizes) from error
    except DrawingError as error:
        _check_coping(error, [name for name, _border in borders])
        remedy = _("The setting does not come out: {kind} at {where}.")
        raise ProgramError("setting", remedy, kind=error.kind, where=error.where) from error
    _check_laid(blocks, top)
    return top


def _check_counts(quilt: Quilt, blocks: Blocks) -> None:
    """See that no block falls off where there are fewer rows or columns than it needs."""
    if quilt.setting == SettingKind.ROWS:
        counts = {"rows": quilt.rows}  # a row is as long as the blocks it holds
    else:
        counts = {"rows": quilt.rows, "columns": quilt.columns}
    for place, block in sorted(blocks.items()):
        for field, at in zip(("rows", "columns"), place, strict=True):
            if at >= counts.get(field, at + 1):
                remedy = _(
                    "{block} lies in row {row}, column {column}. Keep that many, or take it out first."
                )
                facts = {"row": place[0] + 1, "column": place[1] + 1, "block": block.block.name}
                raise ProgramError(field, remedy, **facts)


def _check_coping(error: DrawingError, names: Sequence[str]) -> None:
    """Ask for the fabric of the coping strips where a pieced border needs them."""
    where = str(error.where)
    if isinstance(error, BadField) and where.endswith(".coping"):
        place = where.removesuffix(".coping").partition("[")[2].rstrip("]")
        remedy = _("The repeats do not come out at the centre's edge: name the letter of the coping strips.")
        raise ProgramError(f"{names[int(place or 0)]}_letter", remedy) from error


def _set(quilt: Quilt, blocks: Blocks, borders: list[AnyBorder]) -> QuiltTop:
    if quilt.setting == SettingKind.ROWS:
        return rows_set(list(_mixed_rows(quilt, blocks)), fill=quilt.fill_letter, border=borders)
    if quilt.setting == SettingKind.STRAIGHT:
        return straight_set(_rows(quilt, blocks), sashing=_sashing(quilt), border=borders)
    triangle = letter_of(quilt, "triangle_letter")
    if quilt.setting == SettingKind.RUNNER:
        _check_runner(quilt)
        return pointed_runner(_rows(quilt, blocks)[0], triangle=triangle)
    return on_point_set(
        _rows_on_point(quilt, blocks), triangle=triangle, sashing=_sashing(quilt), border=borders
    )


def _check_runner(quilt: Quilt) -> None:
    """See that a runner is one row of blocks and nothing more."""
    if quilt.rows != 1:
        raise ProgramError("rows", _("A runner with pointed ends has one row."))
    if quilt.columns < FEWEST:
        raise ProgramError("columns", _("A runner with pointed ends has two blocks or more."))
    for field in ("sashing_width", *(f"{border}_width" for border in QUILT_BORDERS)):
        if getattr(quilt, field):
            raise ProgramError(field, _("A runner with pointed ends has no sashing and no border: write 0."))


def _rows(quilt: Quilt, blocks: Blocks) -> Rows:
    plain = _plain(quilt, quilt.plain_letter)
    return [
        [_at(blocks, (row, column), plain) for column in range(quilt.columns)] for row in range(quilt.rows)
    ]


def _rows_on_point(quilt: Quilt, blocks: Blocks) -> Rows:
    """Fill the rows as they are seen; every second one is a place shorter and may hold plain squares."""
    if quilt.rows % 2 == 0:
        remedy = _(
            "On point the rows are odd in number, every second one a block shorter; this quilt has {rows}."
        )
        raise ProgramError("setting", remedy, rows=quilt.rows)
    plain = _plain(quilt, quilt.plain_letter)
    between = plain or _plain(quilt, letter_of(quilt, "triangle_letter"))
    return [
        [
            _at(blocks, (row, column), between if row % 2 else plain)
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


def _plain(quilt: Quilt, letter: str) -> PlacedDrawing | None:
    return plain_square(letter, quilt.block_size) if letter else None


def _at(blocks: Blocks, place: tuple[int, int], plain: PlacedDrawing | None = None) -> PlacedDrawing:
    found = blocks.get(place, plain)
    if found is None:
        remedy = _(
            "The place in row {row}, column {column} is empty. Put a block there, or name the letter of "
            "plain squares."
        )
        raise ProgramError("rows", remedy, row=place[0] + 1, column=place[1] + 1)
    return found


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
        fabric=letter_of(quilt, "sashing_letter"),
        cornerstone=quilt.cornerstone_letter,
        outside=quilt.sashing_outside,
    )


def _spacer(quilt: Quilt) -> Spacer | None:
    if not quilt.sashing_width:
        return None
    return Spacer(width=quilt.sashing_width, fabric=letter_of(quilt, "sashing_letter"))
