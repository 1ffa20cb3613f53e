"""The words of an installment: title, story and tips.  They may change at any time, by a new edition."""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain import audit
from bom.domain.corrections import changes_to_come
from bom.domain.editions import make_edition, newest_edition, sheet_data
from bom.domain.keeping import hash_of
from bom.domain.word_checks import known_now, word_faults
from bom.enums import InstallmentState
from bom.errors import ProofStops
from bom.models import Installment, SheetEdition

if TYPE_CHECKING:
    from datetime import datetime

    from bom.domain.edition_types import EditionChange
    from patterns.models import User

WORDS = ("title", "story", "tips")
BEFORE_APPROVAL = (InstallmentState.DRAFT, InstallmentState.EDITED)


@transaction.atomic
def change_words(
    installment: Installment, words: dict[str, str], *, change_line: str, by: User, now: datetime
) -> SheetEdition | None:
    """Keep the words; where a sheet has editions already, make the next one and give it.

    ProofStops names the first word that stops the proof, where the installment is approved already;
    ProgramError names `change_line` where a correction does not say what changed; then nothing is kept.
    """
    Installment.objects.select_for_update().get(pk=installment.pk)  # of two clicks, one waits
    newest = newest_edition(installment)
    if newest or installment.state not in BEFORE_APPROVAL:
        _guard(installment, words)
    before = {name: getattr(installment, name) for name in WORDS}
    for name in WORDS:
        setattr(installment, name, words[name])
    installment.save(update_fields=WORDS)
    changed = [name for name in WORDS if before[name] != words[name]]
    audit.record(
        "changed the words",
        actor=by,
        subject=audit.subject_of(installment),
        facts={"changed": changed},
        now=now,
    )
    if newest is None:
        return None
    made = make_edition(installment, by=by, now=now, change_line=change_line)
    return None if made == newest else made


def changes_with(installment: Installment, words: dict[str, str]) -> tuple[EditionChange, ...]:
    """List what the next edition would say otherwise with these words; nothing is kept."""
    tried = copy(installment)
    for name in WORDS:
        setattr(tried, name, words[name])
    return changes_to_come(tried)


def _guard(installment: Installment, words: dict[str, str]) -> None:
    """Refuse words that stop the proof: what is approved is not proven again."""
    for fault in word_faults(words, known_now(installment)):
        if fault.stops:
            place = {"line": fault.line, "column": fault.column, "text": fault.text, "what": fault.remedy}
            raise ProofStops(fault.field, _("Line {line}, column {column}: {text} {what}"), **place)


def says_something_new(installment: Installment, newest: SheetEdition | None) -> bool:
    """Whether the sheet, set now, would differ from its newest edition."""
    return newest is not None and hash_of(sheet_data(installment)) != newest.content_hash
