"""Changes of a drawn program: each guarded by the fabric freeze, recorded, told, and able to be taken back.

A change is of one target: "block:12", "quilt", "colorway:harbour", "day:3", "calendar", "drawing:7" (a
block of the designer's own) or "place:0,2".  Its values before and after are plain data, so that a form
can carry them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from django.db import transaction
from django.utils.translation import gettext as _

from bom.domain import audit
from bom.domain.change_targets import TARGETS, Values
from bom.domain.drawing_targets import DRAWING_TARGETS
from bom.domain.editions import newest_edition
from bom.domain.effects import effects, needs_changed, numbers_of, read_numbers
from bom.domain.freezing import guard_change
from bom.domain.sewing_settings import SEWING_TARGETS
from bom.domain.words import says_something_new
from bom.errors import WrongState

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime

    from bom.domain.need_changes import NeedChange
    from bom.models import Program
    from patterns.models import User

_TARGETS = {**TARGETS, **DRAWING_TARGETS, **SEWING_TARGETS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change that was carried out: what came of it in sentences, and fabric by fabric."""

    target: str
    before: Values
    after: Values
    followed: tuple[str, ...] = ()
    needs: tuple[NeedChange, ...] = ()

    def as_data(self) -> dict[str, Any]:
        """Give what `take_back` needs, as plain data."""
        return {"target": self.target, "before": self.before, "after": self.after}


@transaction.atomic
def change(program: Program, target: str, values: Values, *, by: User, now: datetime) -> Change:
    """Carry out one change, or none of it, and say what followed.

    FabricIsFrozen with its `breaks` after the fabric freeze where it touches what is frozen; ProgramError
    names the field that cannot be worked out any more.  A program that could not be worked out before may
    be put right in several changes.
    """
    kind, _colon, key = target.partition(":")
    way = _TARGETS[kind]
    before = way.read(program, key)
    numbers = numbers_of(program)
    guard_change(program, lambda: way.write(program, key, values, by=by, now=now))
    after = way.read(program, key)
    follows = read_numbers(program) if numbers else numbers_of(program)
    followed = (*way.told(program, key), *effects(numbers, follows), *(_sheets(program) if follows else ()))
    needs = needs_changed(numbers, follows)
    facts = {
        "before": before,
        "after": after,
        "followed": list(followed),
        "needs": [each.as_data() for each in needs],
    }
    audit.record(
        f"changed {kind}",
        actor=by,
        subject=f"{audit.subject_of(program)}#{target}",
        facts=facts,
        now=now,
    )
    return Change(target=target, before=before, after=after, followed=followed, needs=needs)


def _sheets(program: Program) -> Iterator[str]:
    """Name the sheets that have an edition and would say something new."""
    with_sheets = program.installments.filter(editions__isnull=False).distinct().select_related("program")
    for installment in with_sheets.order_by("number"):
        if says_something_new(installment, newest_edition(installment)):
            words = _("The sheet of {title} says something new: make its next edition.")
            yield words.format(title=installment.title)


def take_back(program: Program, done: dict[str, Any], *, by: User, now: datetime) -> Change:
    """Take a change back.  WrongState when the record has been changed again since."""
    kind, _colon, key = done["target"].partition(":")
    if _TARGETS[kind].read(program, key) != done["after"]:
        raise WrongState("target", _("This has been changed again since. Change it by hand."))
    return change(program, done["target"], done["before"], by=by, now=now)
