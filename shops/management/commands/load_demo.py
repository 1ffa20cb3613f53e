"""Load the traditional blocks and the demo: an invented program, its shops and its people."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime, time
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone
from django.utils.translation import gettext as _

from bom.errors import ProgramError
from patterns.domain.traditional import drawings_in, keep_traditional
from shops.domain.demo import load_demo

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

BAD_INPUT = 2
PROGRAM = "programs/demo.json"
NEXT_PROGRAM = "programs/on_point_cm.json"  # still a draft, so that everything can be changed
PEOPLE = "people/demo.json"


class Command(BaseCommand):
    """Load it once; a second run changes nothing."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the day that counts as today."""
        parser.add_argument("--today", help="lay the year around this day instead, 2027-03-25; for tests")

    def handle(self, **options: Any) -> None:
        """Load, and say what is there."""
        now = _now(options["today"])
        blocks = settings.BASE_DIR / "fixtures" / "blocks"
        keep_traditional(drawings_in(blocks))
        try:
            is_new = load_demo(
                program_file=_read(PROGRAM), people=_read(PEOPLE), now=now, drafts=[_read(NEXT_PROGRAM)]
            )
        except ProgramError as error:
            raise CommandError(f"{error.field}: {error.remedy}", returncode=BAD_INPUT) from error
        self.stdout.write(_("The demo is loaded.") if is_new else _("The demo is there already."))


def _now(today: str | None) -> datetime:
    """Give noon in UTC of the day, or the present."""
    if today is None:
        return timezone.now()
    try:
        return datetime.combine(date.fromisoformat(today), time(12), UTC)
    except ValueError as error:
        raise CommandError(_("--today: write a day as 2027-03-25."), returncode=BAD_INPUT) from error


def _read(name: str) -> Any:
    return json.loads((settings.BASE_DIR / "fixtures" / name).read_text(encoding="utf-8"))
