"""Export a program as one JSON file, without people and shops."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from django.core.management.base import BaseCommand, CommandError
from django.utils.translation import gettext as _

from bom.domain.program_files import export_program
from bom.models import Program

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

BAD_INPUT = 2


class Command(BaseCommand):
    """Write what import_program reads."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the program's address and the file to write."""
        parser.add_argument("program", help="address of the program, such as demo")
        parser.add_argument("--out", type=Path, help="file to write; without it, the screen")

    def handle(self, **options: Any) -> None:
        """Write the file, or print it."""
        program = Program.objects.select_related("quilt").filter(slug=options["program"]).first()
        if program is None:
            raise CommandError(
                _("program: there is none at {slug}.").format(slug=options["program"]), returncode=BAD_INPUT
            )
        text = json.dumps(export_program(program), ensure_ascii=False, indent=2)
        if options["out"] is None:
            self.stdout.write(text)
            return
        try:
            options["out"].write_text(f"{text}\n", encoding="utf-8")
        except OSError as error:
            raise CommandError(
                _("--out: {path} cannot be written. Choose another file.").format(path=options["out"]),
                returncode=BAD_INPUT,
            ) from error
