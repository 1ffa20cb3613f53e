"""The chart of a program: the engine's numbers as the program writes them, with heads in words."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from bom.domain.lengths import units_of, write_length
from patterns.domain.wording import TIMES
from patterns.engine.chart import chart, chart_sizes
from patterns.engine.parts import UnitKind
from patterns.engine.units.base import Style

if TYPE_CHECKING:
    from collections.abc import Callable

    from bom.models import Program
    from patterns.engine.chart import ChartCell, ChartMethod, ChartPiece, ChartTable, Sides
    from patterns.engine.measure import Units

TITLES = {
    UnitKind.HALF_SQUARE: gettext_lazy("Half-square triangles"),
    UnitKind.QUARTER_SQUARE: gettext_lazy("Quarter-square triangles"),
    UnitKind.FLYING_GEESE: gettext_lazy("Flying geese"),
}
ROLES = {
    UnitKind.FLYING_GEESE: {"A": gettext_lazy("goose"), "B": gettext_lazy("wing")},
}
CANNOT = "–"  # where a method cannot make a size


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownColumns:
    """Columns of methods that cut the same: their names, and a head over each number."""

    methods: str
    heads: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownRow:
    """One finished size: it, the trim-to size, and the cut sizes; `is_on_step` as in the engine's row."""

    cells: tuple[str, ...]
    is_on_step: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownTable:
    """A kind of unit, all its numbers in the program's units, which the head of the chart names."""

    key: str
    title: str
    groups: tuple[ShownColumns, ...]
    rows: tuple[ShownRow, ...]
    notes: tuple[str, ...]

    @property
    def heads(self) -> tuple[str, ...]:
        """Give the word over each column."""
        return (_("finished"), _("trim to"), *(head for group in self.groups for head in group.heads))

    @property
    def firsts(self) -> tuple[int, ...]:
        """Give the places, counted from 1, where a group of columns begins."""
        before = itertools.accumulate((len(group.heads) for group in self.groups), initial=3)
        return tuple(before)[:-1]

    @property
    def has_gaps(self) -> bool:
        """Whether some method cannot make some size."""
        return any(CANNOT in row.cells for row in self.rows)

    @property
    def has_one_cut(self) -> bool:
        """Whether exact and oversized come out alike for some method."""
        return any(head.split(",")[0] == _("cut") for head in self.heads)

    @property
    def is_off_step(self) -> bool:
        """Whether a trim-to size lies off the cutting step."""
        return not all(row.is_on_step for row in self.rows)


@dataclass(frozen=True, slots=True)
class _Column:
    head: str
    size: Callable[[ChartCell], Sides | None]


def tables_of(program: Program) -> tuple[ChartTable, ...]:
    """Give the engine's tables at the program's seam and cutting step, in the sizes of its units."""
    style = Style(
        seam=program.seam,
        step=program.cutting_step,
        half_square_over=program.half_square_over,
        quarter_square_over=program.quarter_square_over,
    )
    return chart(style, chart_sizes(units_of(program)))


def shown_tables(program: Program) -> tuple[ShownTable, ...]:
    """Give the tables in words and in the program's units."""
    units = units_of(program)
    return tuple(_shown(table, units) for table in tables_of(program))


def chart_data(program: Program) -> dict[str, Any]:
    """Give the chart as plain data; lengths are exact texts in the program's units."""
    units = units_of(program)
    return {
        "program": program.slug,
        "units": str(units),
        "seam": write_length(program.seam, units),
        "step": write_length(program.cutting_step, units),
        "tables": [_table_data(table, units) for table in tables_of(program)],
    }


def size_words(sides: Sides, units: Units) -> str:
    """Write a size without its unit: one number for a square, "12 × 6" for a rectangle."""
    width, height = (write_length(side, units) for side in sides)
    return width if width == height else f"{width}{TIMES}{height}"


def _shown(table: ChartTable, units: Units) -> ShownTable:
    columns = [_columns(table, i) for i in range(len(table.columns))]
    groups = [
        ShownColumns(methods=_names(methods), heads=tuple(column.head for column in mine))
        for methods, mine in zip(table.columns, columns, strict=True)
    ]
    rows = [
        ShownRow(
            cells=(
                *(size_words(sides, units) for sides in (row.finished, row.trim_to)),
                *(
                    _cell(cell, column, units)
                    for cell, mine in zip(row.cells, columns, strict=True)
                    for column in mine
                ),
            ),
            is_on_step=row.on_step,
        )
        for row in table.rows
    ]
    return ShownTable(
        key=table.kind.name.lower().replace("_", "-"),
        title=str(TITLES[table.kind]),
        groups=tuple(groups),
        rows=tuple(rows),
        notes=tuple(_note(each, table.kind) for methods in table.columns for each in methods),
    )


def _cell(cell: ChartCell | None, column: _Column, units: Units) -> str:
    size = column.size(cell) if cell else None
    return size_words(size, units) if size else CANNOT


def _columns(table: ChartTable, place: int) -> list[_Column]:
    """Name the numbers of one group: exact and oversized only where they differ anywhere."""
    cells = [cell for row in table.rows if (cell := row.cells[place])]
    parts = _parts(table, place, many=max((len(cell.exact.cut) for cell in cells), default=1))
    if all(cell.exact == cell.oversized for cell in cells):
        found = [_cut(_("cut"), part, i, style="exact") for i, part in enumerate(parts)]
    else:
        found = [
            _cut(head, part, i, style=style)
            for head, style in ((_("cut exact"), "exact"), (_("cut oversized"), "oversized"))
            for i, part in enumerate(parts)
        ]
    return [*found, *_on_the_way(cells)]


def _parts(table: ChartTable, place: int, *, many: int) -> list[str]:
    """Name the pieces of different sizes; a single size needs no name."""
    roles = ROLES.get(table.kind, {})
    letters = dict.fromkeys(piece.fabric for piece in table.columns[place][0].pieces)
    return [str(roles.get(letter, letter)) for letter in letters][:many] if many > 1 else [""]


def _cut(head: str, part: str, place: int, *, style: str) -> _Column:
    words = _("{head}, {part}").format(head=head, part=part) if part else head
    return _Column(words, lambda cell: getattr(cell, style).cut[place])


def _on_the_way(cells: list[ChartCell]) -> list[_Column]:
    """Show what half-squares are trimmed to before they become a unit, once where both styles agree."""
    if not any(cell.exact.on_the_way for cell in cells):
        return []
    if all(cell.exact.on_the_way == cell.oversized.on_the_way for cell in cells):
        return [_Column(_("trim half-squares to"), lambda cell: cell.exact.on_the_way)]
    return [
        _Column(_("exact, trim half-squares to"), lambda cell: cell.exact.on_the_way),
        _Column(_("oversized, trim half-squares to"), lambda cell: cell.oversized.on_the_way),
    ]


def _names(methods: tuple[ChartMethod, ...]) -> str:
    return capfirst(_(" or ").join(_(each.name) for each in methods))


def _note(method: ChartMethod, kind: UnitKind) -> str:
    words = ngettext(
        "{method}: for {count} unit cut {pieces}.", "{method}: for {count} units cut {pieces}.", method.makes
    )
    pieces = "; ".join(_piece(piece, kind) for piece in sorted(method.pieces, key=lambda each: each.fabric))
    return words.format(method=capfirst(_(method.name)), count=method.makes, pieces=pieces)


def _piece(piece: ChartPiece, kind: UnitKind) -> str:
    if piece.is_square:
        words = ngettext("{count} square of {fabric}", "{count} squares of {fabric}", piece.count)
    else:
        words = ngettext("{count} rectangle of {fabric}", "{count} rectangles of {fabric}", piece.count)
    role = ROLES.get(kind, {}).get(piece.fabric)
    fabric = (
        _("the {role} fabric").format(role=role) if role else _("fabric {letter}").format(letter=piece.fabric)
    )
    said = words.format(count=piece.count, fabric=fabric)
    return f"{said}, {_(piece.then)}" if piece.then else said


def _table_data(table: ChartTable, units: Units) -> dict[str, Any]:
    def size(sides: Sides | None) -> list[str] | None:
        return [write_length(side, units) for side in sides] if sides else None

    def cell(found: ChartCell | None) -> dict[str, Any] | None:
        if found is None:
            return None
        return {
            style: {"cut": [size(sides) for sides in made.cut], "half_squares": size(made.on_the_way)}
            for style, made in (("exact", found.exact), ("oversized", found.oversized))
        }

    return {
        "unit": table.kind.value,
        "columns": [[each.name for each in methods] for methods in table.columns],
        "rows": [
            {
                "finished": size(row.finished),
                "trim_to": size(row.trim_to),
                "on_step": row.on_step,
                "cells": [cell(each) for each in row.cells],
            }
            for row in table.rows
        ],
    }
