"""Lists as files for a spreadsheet."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.http import HttpResponse

from bom.domain.table_files import csv_bytes

if TYPE_CHECKING:
    from collections.abc import Iterable


def csv_file(name: str, rows: Iterable[Iterable[Any]]) -> HttpResponse:
    """Answer with a file that no cache keeps; a cell that reads like a formula is kept as text."""
    response = HttpResponse(csv_bytes(rows), content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    response["Cache-Control"] = "private, no-store"
    return response
