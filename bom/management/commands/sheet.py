"""Set the sheet of one installment as a PDF."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from bom.domain.editions import newest_edition
from bom.domain.sheets.renderings import ensure_rendering, make_draft
from bom.domain.sheets.variants import Variant
from bom.enums import Paper, PrintSize, UnitsChoice
from bom.models import Installment, Program

if TYPE_CHECKING:
    from argparse import ArgumentParser

    from patterns.models import Colorway

LANGUAGES = ("en", "de")
BAD_INPUT = 2


class Command(BaseCommand):
    """The sheet as its readers get it; before the first edition, as a draft."""

    help = "Set the sheet of one installment as a PDF."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Name program, installment, file and form."""
        parser.add_argument("program")
        parser.add_argument("number", type=int)
        parser.add_argument("--out", required=True)
        parser.add_argument("--colorway", default="")
        parser.add_argument("--paper", choices=Paper.values, default=Paper.LETTER)
        parser.add_argument("--units", choices=UnitsChoice.values, default=UnitsChoice.INCHES)
        parser.add_argument("--language", choices=LANGUAGES, default="en")
        parser.add_argument("--large-print", action="store_true")
        parser.add_argument("--json", action="store_true")

    def handle(self, *_args: Any, **options: Any) -> None:
        """Write the file, and say what it is."""
        installment = _installment(options["program"], options["number"])
        variant = _variant(installment, options)
        edition = newest_edition(installment)
        now = timezone.now()
        if edition:
            kept = ensure_rendering(edition, variant, now=now)
            data, pages = kept.file.read(), kept.pages
        else:
            made = make_draft(installment, variant, now=now)
            data, pages = made.data, made.pages
        Path(options["out"]).write_bytes(data)
        said = {"file": options["out"], "pages": pages, "edition": edition.number if edition else None}
        words = f"{said['file']}: {pages} pages, {f'edition {edition.number}' if edition else 'draft'}"
        self.stdout.write(json.dumps(said) if options["json"] else words)


def _installment(slug: str, number: int) -> Installment:
    program = Program.objects.filter(slug=slug).first()
    if program is None:
        known = ", ".join(Program.objects.values_list("slug", flat=True)) or "none"
        raise CommandError(f"program: there is no program {slug!r}. Known: {known}.", returncode=BAD_INPUT)
    installment = program.installments.filter(number=number).first()
    if installment is None:
        last = program.installments.count()
        raise CommandError(
            f"number: {slug} has installments 1 to {last}, not {number}.", returncode=BAD_INPUT
        )
    return installment


def _variant(installment: Installment, options: dict[str, Any]) -> Variant:
    size = PrintSize.LARGE if options["large_print"] else PrintSize.USUAL
    return Variant(
        colorway=_colorway(installment, options["colorway"]),
        paper=options["paper"],
        units=options["units"],
        print_size=size,
        language=options["language"],
    )


def _colorway(installment: Installment, slug: str) -> Colorway:
    colorways = list(installment.program.quilt.colorways.all())
    chosen = [each for each in colorways if slug in ("", each.slug)]
    if not chosen:
        known = ", ".join(each.slug for each in colorways)
        raise CommandError(f"colorway: there is no colorway {slug!r}. Known: {known}.", returncode=BAD_INPUT)
    return chosen[0]
