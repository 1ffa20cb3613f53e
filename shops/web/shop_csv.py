"""Lists as files for a spreadsheet."""

from __future__ import annotations

import csv
from typing import TYPE_CHECKING, Any

from django.http import HttpResponse

if TYPE_CHECKING:
    from collections.abc import Iterable

FORMULA = ("=", "+", "-", "@", "\t", "\r")  # what a spreadsheet takes for a formula (OWASP, CSV injection)


def csv_file(name: str, rows: Iterable[Iterable[Any]]) -> HttpResponse:
    """Answer with a file that no cache keeps; a cell that reads like a formula is kept as text."""
    response = HttpResponse(content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["Cache-Control"] = "private, no-store"
    response.write("\ufeff")  # tells spreadsheets that this is UTF-8
    writer = csv.writer(response)
    for row in rows:
        writer.writerow([_plain(cell) for cell in row])
    return response


def _plain(cell: Any) -> str:
    text = "" if cell is None else str(cell)
    return f"'{text}" if text.startswith(FORMULA) else text
