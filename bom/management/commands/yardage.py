"""Print every packet of every installment and colorway, with totals."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from django.core.management.base import CommandError
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.yardage_report import ColorwayYear, YardageReport, yardage_of
from bom.errors import ProgramError
from bom.management.program_commands import FOUND_A_FAULT, ProgramCommand, find_program
from patterns.domain.wording import fabric_text, length_text
from patterns.engine.measure import Units

if TYPE_CHECKING:
    from bom.domain.packets import FabricLine


class Command(ProgramCommand):
    """Words for a person, or JSON; exit 1 when the sums do not agree, 2 on bad input."""

    help = __doc__ or ""

    def handle(self, **options: Any) -> None:
        """Work the year out and print it."""
        try:
            report = yardage_of(find_program(options["program"]))
        except ProgramError as error:
            self.refuse(error, as_json=options["json"])
        if options["json"]:
            self.stdout.write(json.dumps(report.as_data(), ensure_ascii=False))
        else:
            self.stdout.write("\n".join(_words(report)))
        if not report.reconciles:
            raise CommandError(_("The sums do not agree; see manage.py proof."), returncode=FOUND_A_FAULT)


def _words(report: YardageReport) -> Iterator[str]:
    yield report.program.title
    for each in report.colorways:
        yield from _colorway_words(each)
    yield ""
    yield _("The sums agree.") if report.reconciles else _("The sums do not agree.")


def _colorway_words(each: ColorwayYear) -> Iterator[str]:
    yield ""
    yield each.colorway.name
    for packet in each.packets:
        yield _("  Installment {number}").format(number=packet.number)
        yield from (_line_words(line) for line in packet.lines)
    yield _("  The whole year")
    for line in each.year:
        words = ngettext(
            "    {fabric}: {pieces} piece, {length}", "    {fabric}: {pieces} pieces, {length}", line.pieces
        )
        facts = {"fabric": line.fabric.name, "pieces": line.pieces, "length": length_text(line.suggested)}
        yield words.format(**facts)


def _line_words(line: FabricLine) -> str:
    words = _("    {letters} {fabric}: {bought} (at least {minimum})")
    if line.is_backing:
        words = _("    {letters} {fabric}: {bought} for the backing (at least {minimum})")
    return words.format(
        letters=", ".join(line.letters),
        fabric=line.fabric.name,
        bought=fabric_text(line.line.suggested) if line.is_length else _(line.line.bought(Units.INCHES)),
        minimum=length_text(line.line.minimum),
    )
