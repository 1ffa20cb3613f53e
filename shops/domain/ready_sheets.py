"""Sheets set ahead of their hour, in the forms that people take: a release day only hands out files."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from bom.domain.editions import newest_edition
from bom.domain.sheets.renderings import ensure_rendering
from bom.domain.sheets.variants import Variant
from bom.enums import Paper, PrintSize, UnitsChoice
from bom.errors import WrongState
from bom.models import Installment
from shops.domain.own_colorways import own_colorways
from shops.models import SignUp

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime

    from bom.models import SheetEdition

AHEAD = timedelta(days=7)


def missing_sheets(*, now: datetime) -> Iterator[tuple[SheetEdition, Variant]]:
    """Give what is still to be set: the newest editions that open soon or are open, in the forms in use."""
    for installment in Installment.objects.open_at(now + AHEAD).select_related("program"):
        edition = newest_edition(installment)
        if edition:
            for variant in forms_in_use(installment):
                if not edition.renderings.filter(**variant.fields()).exists():
                    yield edition, variant


def forms_in_use(installment: Installment) -> list[Variant]:
    """List the forms that seated people of a program take their sheets in, the commonest colorway first."""
    seats = SignUp.objects.seated().filter(terms__program=installment.program)
    chosen = tuple(f"participant__{name}" for name in ("paper", "units", "print_size", "user__language"))
    rows = seats.order_by("colorway__position", *chosen).values_list("terms", "colorway", *chosen).distinct()
    colorways = {each.pk: each for each in installment.program.quilt.colorways.all()}
    own = {each.pk: own_colorways(each) for each in installment.program.terms.all()}
    forms = (
        Variant(
            colorway=own[terms].at(colorways[colorway], installment.number),
            paper=Paper(paper),
            units=UnitsChoice(units),
            print_size=PrintSize(size),
            language=language,
        )
        for terms, colorway, paper, units, size, language in rows
    )
    return list(dict.fromkeys(forms))


def set_next(*, now: datetime) -> bool:
    """Set one missing sheet; False when there is none.  One whose records moved on is passed over."""
    for edition, variant in missing_sheets(now=now):
        try:
            ensure_rendering(edition, variant, now=now)
        except WrongState:
            continue
        return True
    return False
