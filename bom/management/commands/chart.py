"""Print the chart of a program: cut, trim-to and finished sizes of half- and quarter-squares and geese."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from bom.domain.chart import chart_data, shown_tables
from bom.domain.lengths import units_of
from bom.errors import ProgramError
from bom.management.program_commands import ProgramCommand, find_program
from patterns.domain.wording import length_text
from patterns.engine.measure import Units

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bom.domain.chart import ShownTable
    from bom.models import Program

NAMED = 2  # the columns finished and trim to


class Command(ProgramCommand):
    """A table for a person, or JSON; exit 2 on bad input."""

    help = __doc__ or ""

    def handle(self, **options: Any) -> None:
        """Write the chart and print it."""
        try:
            program = find_program(options["program"])
        except ProgramError as error:
            self.refuse(error, as_json=options["json"])
        if options["json"]:
            self.stdout.write(json.dumps(chart_data(program), ensure_ascii=False))
        else:
            self.stdout.write("\n".join(_words(program)))


def _words(program: Program) -> Iterator[str]:
    units = units_of(program)
    seam, step = (length_text(length, units) for length in (program.seam, program.cutting_step))
    names = {Units.INCHES: _("inches"), Units.CENTIMETRES: _("centimetres")}
    words = _("{title}: seam allowance {seam}, cut to {step}; all sizes in {units}")
    yield words.format(title=program.title, seam=seam, step=step, units=names[units])
    for table in shown_tables(program):
        yield ""
        yield from _table(table)


def _table(table: ShownTable) -> Iterator[str]:
    """Print the notes, then the table group by group: finished and trim to stand before each."""
    yield table.title
    yield from (f"  {note}" for note in table.notes)
    start = NAMED
    for group in table.groups:
        end = start + len(group.heads)
        yield ""
        yield f"  {group.methods}"
        rows = [
            (*row[:NAMED], *row[start:end]) for row in (table.heads, *(each.cells for each in table.rows))
        ]
        widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
        yield from ("  " + _line(row, widths) for row in rows)
        start = end


def _line(cells: Sequence[str], widths: Sequence[int]) -> str:
    return "  ".join(cell.rjust(width) for cell, width in zip(cells, widths, strict=True))
