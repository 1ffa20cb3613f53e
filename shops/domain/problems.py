"""Keeping a report that something is wrong with a step, and telling the designer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db import transaction

from bom.domain.letters import queue_letter
from bom.models import Installment, Problem, SheetEdition
from shops.domain.entitlement import may_have
from shops.models import SignUp

if TYPE_CHECKING:
    from datetime import datetime


def may_report(sign_up: SignUp, installment: Installment, *, now: datetime) -> bool:
    """Whether this person has, or may have, the sheet that a report would be about."""
    return may_have(sign_up, installment, now=now)


def sign_up_to_report(person: int | None, slug: str, number: int, *, now: datetime) -> SignUp | None:
    """Find the sign-up with which a person may report about a sheet of a program; None without one."""
    mine = SignUp.objects.filter(terms__program__slug=slug, participant__user=person)
    installment = Installment.objects.filter(program__slug=slug, number=number).first()
    if installment is None:
        return None
    return next((each for each in mine.order_by("pk") if may_report(each, installment, now=now)), None)


@transaction.atomic
def report(
    *, sign_up: SignUp, installment: Installment, step: str, words: str, now: datetime
) -> tuple[Problem, bool]:
    """Keep a report and queue a mail to the designer; the same words again give the report that is there.

    The sign-up's row is locked, so that a double click cannot keep the report twice.
    """
    SignUp.objects.select_for_update(of=("self",)).get(pk=sign_up.pk)
    problem, new = Problem.objects.get_or_create(
        installment=installment,
        edition=_edition_read(sign_up, installment),
        reporter=sign_up.participant.user,
        step=step,
        words=words,
        defaults={"made_at": now},
    )
    if new:
        _tell_designer(problem, sign_up)
    return problem, new


def _edition_read(sign_up: SignUp, installment: Installment) -> SheetEdition | None:
    """Give the newest edition that the person took, else the newest there is."""
    editions = SheetEdition.objects.filter(installment=installment).order_by("-number")
    return editions.filter(renderings__copies__sign_up=sign_up).first() or editions.first()


def _tell_designer(problem: Problem, sign_up: SignUp) -> None:
    """Queue the mail to the designer."""
    program = sign_up.terms.program
    designer = program.designer
    context = {
        "problem": problem,
        "reporter": problem.reporter,
        "installment": problem.installment,
        "program": program,
        "shop": sign_up.terms.shop,
        "language": designer.language,
    }
    queue_letter(
        "problem",
        key=f"problem:{problem.pk}",
        to=designer.email,
        language=designer.language,
        context=context,
    )
