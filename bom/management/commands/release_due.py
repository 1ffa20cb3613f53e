"""Mark installments released whose instant has come; what the timer calls."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.core.management.base import BaseCommand
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.domain.releases import derive_all_instants, due_installments, release_due

if TYPE_CHECKING:
    from django.core.management.base import CommandParser


class Command(BaseCommand):
    """Release what is due.  A second run changes nothing; a missed night is caught up."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Take --dry-run."""
        parser.add_argument("--dry-run", action="store_true", help="only say what is due")

    def handle(self, **options: Any) -> None:
        """Release, or say what would be."""
        now = timezone.now()
        if options["dry_run"]:
            for installment in due_installments(now=now):
                self.stdout.write(f"{installment.program.slug} {installment}")
            return
        derive_all_instants()
        count = release_due(now=now)
        self.stdout.write(
            ngettext("{count} installment released", "{count} installments released", count).format(
                count=count
            )
            if count
            else _("Nothing is due.")
        )
