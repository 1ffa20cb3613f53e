"""Tables as CSV and as a spreadsheet.  A cell that reads like a formula is kept as text in both."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from patterns.engine.measure import Units

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bom.domain.tables import Cell, Table

FORMULA = ("=", "+", "-", "@", "\t", "\r")  # what a spreadsheet takes for a formula (OWASP, CSV injection)
BYTE_ORDER_MARK = "\ufeff"  # tells spreadsheets that this is UTF-8
WIDEST = 44  # characters
EIGHTHS, MONEY, DECIMALS = "# ?/?", "#,##0.00", "0.0#"


def csv_bytes(rows: Iterable[Iterable[Any]]) -> bytes:
    """Write rows as CSV in UTF-8."""
    out = io.StringIO()
    csv.writer(out).writerows([_plain(cell) for cell in row] for row in rows)
    return (BYTE_ORDER_MARK + out.getvalue()).encode()


def table_csv(table: Table) -> bytes:
    """Write a table as CSV, its heads first."""
    return csv_bytes([table.heads, *([_text(table, cell) for cell in row] for row in table.rows)])


def table_xlsx(table: Table) -> bytes:
    """Write a table as a spreadsheet: lengths and money as numbers, shown as on the page."""
    from openpyxl import Workbook  # noqa: PLC0415 -- slow import, needed for this file only
    from openpyxl.styles import Font  # noqa: PLC0415 -- as above

    book = Workbook()
    sheet = book.active
    sheet.title = "".join(sign for sign in table.title if sign not in "[]:*?/\\")[:31] or "1"
    for across, head in enumerate(table.heads, start=1):
        _fill(sheet.cell(row=1, column=across), head, table)
        sheet.cell(row=1, column=across).font = Font(bold=True)
    for down, row in enumerate(table.rows, start=2):
        for across, cell in enumerate(row, start=1):
            _fill(sheet.cell(row=down, column=across), cell, table)
    sheet.freeze_panes = "A2"
    _widen(sheet, table)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _plain(cell: Any) -> Any:
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(FORMULA) else cell


def _text(table: Table, cell: Cell) -> Any:
    return table.text(cell) if isinstance(cell, Fraction) else cell


def _fill(place: Any, cell: Cell, table: Table) -> None:
    """Write one cell; text stays text, whatever it begins with."""
    if isinstance(cell, Fraction):
        value = table.number(cell)
        place.value = value
        if isinstance(value, float):
            place.number_format = DECIMALS if table.units == Units.CENTIMETRES else _fraction_format(cell)
    elif isinstance(cell, Decimal):
        place.value, place.number_format = cell, MONEY
    elif isinstance(cell, str):
        _fill_text(place, cell)
    else:
        place.value = cell


def _fill_text(place: Any, text: str) -> None:
    place.value = "".join(sign for sign in text if sign.isprintable() or sign == "\n")
    place.data_type = "s"
    place.quotePrefix = text.startswith(FORMULA)


def _fraction_format(length: Fraction) -> str:
    return EIGHTHS if length.denominator < 10 else "# ??/??"  # noqa: PLR2004 -- figures of the lower number


def _widen(sheet: Any, table: Table) -> None:
    from openpyxl.utils import get_column_letter  # noqa: PLC0415 -- slow import, needed for this file only

    for across, head in enumerate(table.heads):
        texts = [head, *(table.text(row[across]) for row in table.rows)]
        sheet.column_dimensions[get_column_letter(across + 1)].width = min(WIDEST, 2 + max(map(len, texts)))
