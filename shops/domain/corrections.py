"""A correction reaches who holds an older edition: each of them once, by mail and on the page of the year.

The notice and its mail are written together, and both have a unique key: a second pull finds nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.db import transaction
from django.db.models import Exists, Max, OuterRef
from django.urls import reverse
from django.utils import translation

from bom.domain.corrections import changes_of, edition_before
from bom.domain.edition_changes import edition_changes
from bom.domain.edition_words import change_rows
from bom.domain.editions import make_edition, newest_edition
from bom.domain.letters import queue_letter
from bom.models import Installment, SheetEdition
from patterns.engine.measure import Units
from shops.models import Notice, SheetCopy, SignUp

if TYPE_CHECKING:
    from datetime import datetime

    from django.db.models import QuerySet

    from bom.domain.edition_words import ChangeRows
    from patterns.models import User

AT_ONCE = 50  # people told in one transaction


def behind(edition: SheetEdition) -> QuerySet[SignUp]:
    """Give who took an older edition and neither this one nor a newer; who was forgotten is left out."""
    mine = SheetCopy.objects.filter(
        sign_up=OuterRef("pk"), rendering__edition__installment=edition.installment_id
    )
    older = Exists(mine.filter(rendering__edition__number__lt=edition.number))
    newer = Exists(mine.filter(rendering__edition__number__gte=edition.number))
    people = SignUp.objects.filter(older, ~newer, participant__user__is_active=True)
    joined = ("terms__shop", "terms__program", "participant__user", "colorway")
    return people.select_related(*joined).order_by("terms", "number")


def queue_correction_notices(*, now: datetime) -> int:
    """Tell everybody who holds an older edition than the newest, once for each; give how many mails."""
    corrected = Installment.objects.annotate(newest=Max("editions__number")).filter(newest__gt=1)
    return sum(_tell_all(newest, now=now) for each in corrected if (newest := newest_edition(each)))


@transaction.atomic
def publish_correction(
    installment: Installment, *, by: User, now: datetime, change_line: str
) -> tuple[SheetEdition, int]:
    """Make the next edition and tell who holds an older one; give it, and how many were told.

    ProgramError names `change_line` where it does not say what changed.
    """
    made = make_edition(installment, by=by, now=now, change_line=change_line)
    return made, _tell_all(made, now=now)


def changes_for(sign_up: SignUp, edition: SheetEdition, *, held: int) -> tuple[ChangeRows, ...]:
    """Say what an edition says otherwise than the one that a person holds, in their colorway and units."""
    old = edition.installment.editions.filter(number=held).first() or edition_before(edition)
    changes = edition_changes(old.data, edition.data) if old else changes_of(edition)
    colorways = {sign_up.colorway.slug: sign_up.colorway.name}
    return change_rows(changes, colorways=colorways, units=Units(sign_up.participant.units))


def _tell_all(edition: SheetEdition, *, now: datetime) -> int:
    told = Notice.objects.filter(
        sign_up=OuterRef("pk"), installment=edition.installment_id, kind=_kind(edition)
    )
    due = list(behind(edition).filter(~Exists(told)))
    groups = (due[start : start + AT_ONCE] for start in range(0, len(due), AT_ONCE))
    return sum(_tell(group, edition, now=now) for group in groups)


@transaction.atomic
def _tell(people: list[SignUp], edition: SheetEdition, *, now: datetime) -> int:
    """Write notice and mail of each, both or neither; who was told meanwhile is left out."""
    queued = 0
    for sign_up in people:
        fields = {"sign_up": sign_up, "installment": edition.installment, "kind": _kind(edition)}
        if Notice.objects.get_or_create(**fields, defaults={"made_at": now})[1]:
            queued += _queue(sign_up, edition)
    return queued


def _kind(edition: SheetEdition) -> str:
    return f"edition {edition.number}"


def _queue(sign_up: SignUp, edition: SheetEdition) -> bool:
    user, installment = sign_up.participant.user, edition.installment
    held = SheetCopy.objects.filter(sign_up=sign_up, rendering__edition__installment=installment).aggregate(
        newest=Max("rendering__edition__number")
    )["newest"]
    with translation.override(user.language):
        rows = changes_for(sign_up, edition, held=held)
    return queue_letter(
        "corrected",
        key=f"corrected:{installment.program.slug}:{installment.number}:{edition.number}:{sign_up.pk}",
        to=user.email,
        language=user.language,
        context={
            "sign_up": sign_up,
            "person": user,
            "program": installment.program,
            "installment": installment,
            "edition": edition,
            "held": held,
            "rows": rows,
            "sheet_url": _address("my-sheet", sign_up=sign_up.pk, number=installment.number),
            "year_url": _address("my-program", sign_up=sign_up.pk),
        },
    )


def _address(name: str, **parts: int) -> str:
    return settings.SITE_URL.rstrip("/") + reverse(name, kwargs=parts)
