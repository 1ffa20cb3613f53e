"""What commands that take a program's address share: finding it, and refusing bad input."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, NoReturn

from django.core.management.base import BaseCommand, CommandError
from django.utils.translation import gettext as _

from bom.errors import ProgramError
from bom.models import Program

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

BAD_INPUT = 2
FOUND_A_FAULT = 1


class ProgramCommand(BaseCommand):
    """Takes a program's address and --json; exits 1 where it found a fault, 2 on bad input."""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the address of the program."""
        parser.add_argument("program", help="address of the program, such as demo")
        parser.add_argument("--json", action="store_true", help="print JSON")

    def refuse(self, error: ProgramError, *, as_json: bool) -> NoReturn:
        """Name the field and the remedy, and exit 2."""
        if as_json:
            refusal = {"error": error.kind, "where": error.field, "remedy": error.remedy}
            self.stdout.write(json.dumps(refusal, ensure_ascii=False))
        raise CommandError(f"{error.field}: {error.remedy}", returncode=BAD_INPUT) from error


def find_program(slug: str) -> Program:
    """Find a program by its address; ProgramError lists those that are here."""
    program = Program.objects.select_related("quilt").filter(slug=slug).first()
    if program is None:
        known = ", ".join(Program.objects.order_by("slug").values_list("slug", flat=True)) or _("none")
        remedy = _("There is no program {slug}. Here are: {known}.")
        raise ProgramError("program", remedy, slug=slug, known=known)
    return program
