"""Every form of every sheet of a program, set one after the other to see that all can be: nothing is kept."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

from django.core.cache import cache

from bom.domain.records import read_colorways
from bom.domain.sheets.renderings import make_draft
from bom.domain.sheets.variants import Variant
from bom.enums import Paper, PrintSize, UnitsChoice

if TYPE_CHECKING:
    from datetime import datetime

    from bom.domain.sheets.pdf import SheetFile
    from bom.models import Installment, Program

KEPT_SECONDS = 24 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One sheet in one form."""

    installment: Installment
    variant: Variant

    @property
    def name(self) -> str:
        """Name it as a file is named: demo-03-harbour-a4-cm-large-en."""
        variant, slug = self.variant, self.installment.program.slug
        kind = f"{variant.paper}-{variant.units}-{variant.print_size}-{variant.language}"
        return f"{slug}-{self.installment.number:02d}-{variant.colorway.slug}-{kind}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a run is: forms set of all, the last one, and those that failed, by name with the reason."""

    done: int
    of: int
    last: str
    failed: tuple[str, ...] = ()

    @property
    def is_over(self) -> bool:
        """Whether every form was tried."""
        return self.done >= self.of


def every_form(program: Program) -> list[Form]:
    """List all forms: colorways, papers, measures, sizes of print, and in each every installment."""
    installments = program.installments.select_related("program").order_by("number")
    kinds = product(read_colorways(program), Paper, UnitsChoice, PrintSize)
    return [
        Form(
            installment=installment,
            variant=Variant(
                colorway=colorway, paper=paper, units=units, print_size=size, language=program.language
            ),
        )
        for (colorway, paper, units, size), installment in product(kinds, installments)
    ]


def set_form(forms: list[Form], at: int, before: Progress | None, *, now: datetime) -> Progress:
    """Set the form at a place of the list and say how far it is then; a failure is noted, not raised."""
    failed = before.failed if before else ()
    try:
        set_one(forms[at], now=now)
    except Exception as error:  # noqa: BLE001 -- whatever goes wrong with one form, the others are tried
        failed = (*failed, f"{forms[at].name}: {type(error).__name__}: {error}")
    return Progress(done=at + 1, of=len(forms), last=forms[at].name, failed=failed)


def set_one(form: Form, *, now: datetime) -> SheetFile:
    """Set one form; ValueError where the file has no page."""
    made = make_draft(form.installment, form.variant, now=now)
    if not made.pages:
        raise ValueError("no page")
    return made


def progress_of(program: Program) -> Progress | None:
    """Give how far the worker is with a program; None where it has not begun."""
    kept: Progress | None = cache.get(f"every-form-{program.pk}")
    return kept


def keep_progress(program: Program, progress: Progress | None) -> None:
    """Keep it for who waits; None begins anew."""
    cache.set(f"every-form-{program.pk}", progress, KEPT_SECONDS)
