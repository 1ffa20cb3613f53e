"""Keep the traditional blocks that come with the program; again after an update, for those that are new."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core.management.base import BaseCommand
from django.utils.translation import ngettext

from patterns.domain.traditional import drawings_in, keep_traditional

if TYPE_CHECKING:
    from pathlib import Path


class Command(BaseCommand):
    """Keep them, each once."""

    help = __doc__ or ""

    def handle(self, **options: Any) -> None:
        """Keep what is new, and say how many."""
        folder: Path = settings.BASE_DIR / "fixtures" / "blocks"
        count = keep_traditional(drawings_in(folder))
        words = ngettext("{count} traditional block is new.", "{count} traditional blocks are new.", count)
        if options["verbosity"]:
            self.stdout.write(words.format(count=count))
