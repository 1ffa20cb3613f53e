"""Set every sheet of a program in every form, to see that all can be set; nothing is kept."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from celery import current_app
from django.core.management.base import CommandError
from django.utils import timezone

from bom.domain.sheets.every_form import (
    Progress,
    every_form,
    keep_progress,
    progress_of,
    set_form,
)
from bom.errors import ProgramError
from bom.management.program_commands import FOUND_A_FAULT, ProgramCommand, find_program

if TYPE_CHECKING:
    from django.core.management.base import CommandParser

    from bom.models import Program

LOOK_SECONDS = 2


class Command(ProgramCommand):
    """One line a sheet; exit 1 where one cannot be set."""

    help = __doc__ or ""

    def add_arguments(self, parser: CommandParser) -> None:
        """Name the program, and who does the work."""
        super().add_arguments(parser)
        parser.add_argument("--here", action="store_true", help="in this process, without a worker")
        parser.add_argument("--every", type=int, default=1, help="only every so many forms (with --here)")

    def handle(self, *_args: Any, **options: Any) -> None:
        """Set them and tell how far it is."""
        try:
            program = find_program(options["program"])
        except ProgramError as error:
            self.refuse(error, as_json=options["json"])
        run = _here(program, every=max(1, options["every"])) if options["here"] else _in_the_worker(program)
        progress = None
        for progress in run:
            words = f"{progress.done} of {progress.of}: {progress.last}"
            self.stdout.write(json.dumps(asdict(progress)) if options["json"] else words)
        if progress and progress.failed:
            raise CommandError("\n".join(progress.failed), returncode=FOUND_A_FAULT)


def _here(program: Program, *, every: int) -> Iterator[Progress]:
    """Set the forms in this process."""
    forms, progress = every_form(program)[::every], None
    for at in range(len(forms)):
        progress = set_form(forms, at, progress, now=timezone.now())
        yield progress


def _in_the_worker(program: Program) -> Iterator[Progress]:
    """Ask the worker, and look how far it is until it is through."""
    keep_progress(program, None)
    current_app.send_task("bom.tasks.set_every_form", args=(program.pk, 0))
    told = 0
    while True:
        time.sleep(LOOK_SECONDS)
        progress = progress_of(program)
        if progress and progress.done > told:
            told = progress.done
            yield progress
            if progress.is_over:
                return
