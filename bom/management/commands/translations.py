"""List what participants and sheets say that a language lacks; write its files anew."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core.management.base import BaseCommand

from bom.domain.translating.collecting import collect
from bom.domain.translating.files import PLURALS, po_file, read_po, write_mo, write_po
from bom.domain.translating.messages import faults_of, merged
from bom.management.program_commands import FOUND_A_FAULT

if TYPE_CHECKING:
    from django.core.management.base import CommandParser


class Command(BaseCommand):
    """Name every text without a sound translation, and exit 1 where there is one.

    With --write the texts of the source are put into the .po, those that nobody says any more are left
    out, and the .mo is made from it.  A second run changes nothing.
    """

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the language and --write."""
        parser.add_argument("language", choices=tuple(PLURALS), nargs="?", default="de")
        parser.add_argument("--write", action="store_true", help="write the .po and the .mo anew")

    def handle(self, *, language: str, write: bool, **_options: Any) -> None:
        """Compare the source with what is translated."""
        path = po_file(Path(settings.BASE_DIR), language)
        kept = read_po(path.read_text(encoding="utf-8")) if path.exists() else {}
        messages = merged(collect(Path(settings.BASE_DIR)), kept)
        if write:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(write_po(messages.values(), language), encoding="utf-8")
            path.with_suffix(".mo").write_bytes(write_mo(messages.values(), language))
        faults = [(each, fault) for each in messages.values() for fault in faults_of(each)]
        for message, fault in faults:
            self.stdout.write(f"{', '.join(message.places)}: {fault}: {message.words!r}")
        if faults:
            raise SystemExit(FOUND_A_FAULT)
