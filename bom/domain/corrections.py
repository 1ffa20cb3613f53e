"""Corrections: what an edition changed, what the next one would, and which editions are superseded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.domain.edition_changes import edition_changes
from bom.domain.editions import newest_edition, sheet_data

if TYPE_CHECKING:
    from bom.domain.edition_types import EditionChange
    from bom.models import Installment, SheetEdition


def edition_before(edition: SheetEdition) -> SheetEdition | None:
    """Give the edition before this one; before a draft (number 0) the newest there is."""
    editions = edition.installment.editions.order_by("-number")
    return (editions.filter(number__lt=edition.number) if edition.number else editions).first()


def changes_of(edition: SheetEdition) -> tuple[EditionChange, ...]:
    """List what an edition says otherwise than the one before; nothing of a first edition."""
    before = edition_before(edition)
    return edition_changes(before.data, edition.data) if before else ()


def changes_to_come(installment: Installment) -> tuple[EditionChange, ...]:
    """List what a next edition would say otherwise than the newest; nothing before the first edition.

    ProgramError as the chain raises it where the records cannot be worked out.
    """
    newest = newest_edition(installment)
    return edition_changes(newest.data, sheet_data(installment)) if newest else ()


def is_superseded(edition: SheetEdition) -> bool:
    """Whether a newer edition has taken this one's place; read from the rows, so that none changes."""
    return edition.installment.editions.filter(number__gt=edition.number).exists()
