"""Print how long a whole year takes to work out: every installment, colorway and fabric, in a warm process.

Timed twice over: from nothing, and after one change; proofs (virtual sewing, the sums of the year) are
timed apart and not counted.  Time of one processor.  Run: make bench-year
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from time import process_time
from typing import TYPE_CHECKING
from unittest.mock import patch

if TYPE_CHECKING:
    from bom.models import Program

ROOT = Path(__file__).resolve().parents[2]
NOW = datetime(2026, 11, 2, 15, tzinfo=UTC)
FROM_NOTHING, AFTER_A_CHANGE = 3.0, 0.3  # seconds, at most


class Clock:
    """Adds up the time that is spent inside proofs."""

    def __init__(self) -> None:
        self.proofs = 0.0

    def around(self, prove: Callable[..., object]) -> Callable[..., object]:
        """Time a proof."""

        def timed(*given: object) -> object:
            start = process_time()
            try:
                return prove(*given)
            finally:
                self.proofs += process_time() - start

        return timed


def main() -> int:
    """Print the table; 1 where a limit is passed."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"VAR_DIR": folder, "DJANGO_SETTINGS_MODULE": "bom.settings", "LOG_LEVEL": "WARNING"}
        os.environ.pop("DATABASE_URL", None)
        import django

        django.setup()
        program = stored("demo.json")
        warm(stored("on_point_cm.json"))
        slow = [name for name, seconds, most in measured(program) if seconds > most]
    return 1 if slow else 0


def stored(name: str) -> Program:
    """Import a program file into an empty database."""
    from django.core.management import call_command

    from bom.domain.program_file_import import import_program
    from patterns.models import User

    call_command("migrate", verbosity=0)
    designer, _new = User.objects.get_or_create(email="dora@shop.example", defaults={"name": "Dora"})
    data = json.loads((ROOT / "fixtures" / "programs" / name).read_text(encoding="utf-8"))
    return import_program(data, designer=designer, now=NOW)


def warm(program: Program) -> None:
    """Work another program out, so that every library is loaded and nothing of the demo is kept."""
    year(program)


def year(program: Program) -> None:
    """Work out every packet of every colorway, and add the year up."""
    from bom.domain.chain import work_of
    from bom.domain.packets import packets, year_of
    from bom.domain.records import read_colorways

    work = work_of(program)
    for colorway in read_colorways(program):
        year_of(packets(program, work, colorway))


def measured(program: Program) -> Iterator[tuple[str, float, float]]:
    """Time the year from nothing and after each kind of change."""
    quilt, block = program.quilt, program.quilt.placed_blocks.order_by("row", "column")[0]
    yield timed("from nothing", program, most=FROM_NOTHING)
    quilt.border_width += 1
    quilt.save()
    yield timed("after another border", program, most=AFTER_A_CHANGE)
    block.turn = (block.turn + 1) % 4
    block.save()
    yield timed("after a block is turned", program, most=AFTER_A_CHANGE)
    first, second, *_rest = block.letters
    block.letters[first], block.letters[second] = block.letters[second], block.letters[first]
    block.save()
    yield timed("after letters change places", program, most=AFTER_A_CHANGE)
    row = quilt.colorways.first().fabrics.first()
    row.fabric.usable_width -= 1
    row.fabric.save()
    yield timed("after narrower fabric", program, most=AFTER_A_CHANGE)


def timed(name: str, program: Program, *, most: float) -> tuple[str, float, float]:
    """Time one recomputation, proofs apart, and print it."""
    from bom.domain import making

    clock = Clock()
    with patch.object(making, "prove_recipe", clock.around(making.prove_recipe)):
        start = process_time()
        year(program)
        seconds = process_time() - start - clock.proofs
    words = f"{name:28} {seconds:6.2f} s, at most {most} s; proofs beside it {clock.proofs:5.2f} s"
    sys.stdout.write(words + ("\n" if seconds <= most else "  TOO SLOW\n"))
    return name, seconds, most


if __name__ == "__main__":
    sys.exit(main())
