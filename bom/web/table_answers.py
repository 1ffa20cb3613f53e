"""Tables as files for whoever asks: CSV, a spreadsheet, or PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.http import Http404, HttpResponse
from django.utils.http import content_disposition_header

from bom.domain.sheets.tables import table_pdf
from bom.domain.table_files import table_csv, table_xlsx
from bom.enums import FileKind, Paper

if TYPE_CHECKING:
    from django.http import HttpRequest

    from bom.domain.tables import Table

TYPES = {
    FileKind.CSV: "text/csv; charset=utf-8",
    FileKind.XLSX: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    FileKind.PDF: "application/pdf",
}


def kind_of(name: str) -> FileKind:
    """Read the kind of file from an address; 404 for one that is not made."""
    try:
        return FileKind(name)
    except ValueError as error:
        raise Http404 from error


def table_answer(request: HttpRequest, table: Table, kind: FileKind) -> HttpResponse:
    """Give the table as this kind of file, in PDF on the paper asked for."""
    return file_answer(
        _bytes(request, table, kind),
        f"{table.name}.{kind}",
        TYPES[kind],
        is_shown=kind == FileKind.PDF,
    )


def file_answer(data: bytes, name: str, kind: str, *, is_shown: bool = False) -> HttpResponse:
    """Give a file that no cache keeps."""
    response = HttpResponse(data, content_type=kind)
    shown = content_disposition_header(as_attachment=not is_shown, filename=name)
    response["Content-Disposition"] = shown or "attachment"
    response["Cache-Control"] = "private, no-store"
    response["X-Content-Type-Options"] = "nosniff"
    return response


def _bytes(request: HttpRequest, table: Table, kind: FileKind) -> bytes:
    if kind == FileKind.CSV:
        return table_csv(table)
    if kind == FileKind.XLSX:
        return table_xlsx(table)
    try:
        paper = Paper(request.GET.get("paper", Paper.LETTER))
    except ValueError as error:
        raise Http404 from error
    return table_pdf(table, paper).data
