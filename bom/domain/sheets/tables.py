"""Tables on paper."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django.template.loader import render_to_string
from django.utils import translation

from bom.domain.keeping import Kept, hash_of
from bom.domain.sheets.pdf import SheetFile, make_pdf

if TYPE_CHECKING:
    from bom.domain.tables import Table
    from bom.enums import Paper

_kept: Kept[SheetFile] = Kept(most=16)


def table_pdf(table: Table, paper: Paper) -> SheetFile:
    """Set a table on paper, broad side down; the same words are set once."""
    html = table_html(table, paper)
    return _kept.get(hash_of(html), lambda: make_pdf(html))


def table_html(table: Table, paper: Paper) -> str:
    """Write the HTML of a table in its own language; numbers stand at the right of their columns."""
    with translation.override(table.language):
        rows = [[_cell(table, cell) for cell in row] for row in table.rows]
        numeric = [any(row[across]["is_number"] for row in rows) for across in range(len(table.heads))]
        heads = [
            {"words": words, "is_number": is_number}
            for words, is_number in zip(table.heads, numeric, strict=True)
        ]
        context = {"table": table, "paper": paper, "heads": heads, "rows": rows}
        return render_to_string("sheets/table.html", context)


def _cell(table: Table, cell: Any) -> dict[str, Any]:
    return {"words": table.text(cell), "is_number": isinstance(cell, Fraction | Decimal | int)}
