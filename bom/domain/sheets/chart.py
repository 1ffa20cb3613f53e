"""The chart of a program on paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.template.loader import render_to_string
from django.utils import translation

from bom.domain.chart import shown_tables
from bom.domain.keeping import Kept, hash_of
from bom.domain.lengths import units_of
from bom.domain.sheets.pdf import SheetFile, make_pdf

if TYPE_CHECKING:
    from bom.enums import Paper
    from bom.models import Program

_kept: Kept[SheetFile] = Kept(most=16)


def chart_pdf(program: Program, paper: Paper) -> SheetFile:
    """Set the chart in the program's language; the same words are set once."""
    html = chart_html(program, paper)
    return _kept.get(hash_of(html), lambda: make_pdf(html))


def chart_html(program: Program, paper: Paper) -> str:
    """Write the HTML of the chart; its fractions stay plain, since built ones take far longer to set."""
    with translation.override(program.language):
        context = {
            "program": program,
            "paper": paper,
            "in_units": units_of(program),
            "tables": shown_tables(program),
        }
        return render_to_string("sheets/chart.html", context)
