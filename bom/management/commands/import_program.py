"""Import a program file: the whole program, in draft, or nothing at all."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from django.core.management.base import BaseCommand, CommandError
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from bom.domain.program_files import import_program, with_first_day
from bom.errors import BadProgramFile
from patterns.models import User

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

    from bom.models import Program

BAD_INPUT = 2
USUAL_DESIGNER = "designer@example.org"


class Command(BaseCommand):
    """Read a file that export_program wrote, or that was written by hand."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the file, and what is to differ from it."""
        parser.add_argument("file", type=Path)
        parser.add_argument("--slug", help="another address than the one in the file")
        parser.add_argument("--first-day", help="begin the year at this day; moved days move along")
        parser.add_argument("--designer", default=USUAL_DESIGNER, help="e-mail address of the designer")

    def handle(self, **options: Any) -> None:
        """Import, and say at which address the program is."""
        try:
            program = _import(options)
        except BadProgramFile as error:
            raise CommandError(f"{error.field}: {error.remedy}", returncode=BAD_INPUT) from error
        count = program.installments.count()
        self.stdout.write(f"{program.slug}: {program.title}, {count} installments, in draft")


@transaction.atomic
def _import(options: dict[str, Any]) -> Program:
    """Import for a designer who is made with the program, or not at all."""
    data = _with_options(_read(options["file"]), options)
    designer = _designer(options["designer"])
    return import_program(data, designer=designer, now=timezone.now())


def _read(path: Path) -> Any:
    """Read JSON; a file that is missing or is none gives BadProgramFile."""
    try:
        return json.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise BadProgramFile(str(path), _("This file cannot be opened. Check its name.")) from error
    except ValueError as error:
        raise BadProgramFile(str(path), _("This file is no JSON: {reason}."), reason=error) from error
    except RecursionError as error:
        raise BadProgramFile(str(path), _("This file is nested too deeply.")) from error


def _with_options(data: Any, options: dict[str, Any]) -> Any:
    if options["first_day"]:
        try:
            first_day = date.fromisoformat(options["first_day"])
        except ValueError as error:
            raise BadProgramFile("--first-day", _("Write a day as 2027-01-16.")) from error
        data = with_first_day(data, first_day)
    return {**data, "slug": options["slug"]} if options["slug"] and isinstance(data, dict) else data


def _designer(email: str) -> User:
    """Find the designer, or make one who signs in by that address."""
    address = email.strip().lower()
    if "@" not in address:
        raise BadProgramFile("--designer", _("Write the e-mail address of the designer."))
    return User.objects.filter(email=address).first() or User.objects.create_user(address)
