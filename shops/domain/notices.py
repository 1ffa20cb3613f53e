"""Notices of a release: shops look up what has opened and tell their people, each once.

At least once towards the outbox, exactly once in it: the notice and its mail are written together,
and both have a unique key.  A pull that dies goes on where it stopped; a second one finds nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.db import transaction
from django.db.models import Exists, OuterRef
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import translation

from bom.domain.outbox import queue_mail
from bom.enums import ProgramState
from bom.models import Installment
from patterns.domain.wording import day_text, instant_text, size_text, zone_text
from patterns.engine.measure import Units
from shops.domain.entitlement import may_have, opens_at
from shops.domain.year_rows import installments_of
from shops.enums import Takes
from shops.models import Notice, SignUp

if TYPE_CHECKING:
    from datetime import datetime
    from typing import Any

    from django.db.models import QuerySet

__all__ = ("RELEASED", "queue_release_notices", "untold")

RELEASED = "released"
AT_ONCE = 50  # people told in one transaction


def queue_release_notices(*, now: datetime) -> int:
    """Tell every seat that may have a sheet of it, once; give how many mails this call queued.

    An installment counts once its instant and the shop's hold have passed, whether or not the sweep
    has marked it.  Who joins later is told of the earlier installments too.
    """
    running = Installment.objects.exclude(program__state=ProgramState.ENDED)
    installments = running.open_at(now).select_related("program__quilt")
    return sum(_tell_all(each, now=now) for each in installments.order_by("release_at", "pk"))


def untold(installment: Installment) -> QuerySet[SignUp]:
    """Give the seats that take sheets and have not been told of this installment, by shop and number."""
    told = Notice.objects.filter(sign_up=OuterRef("pk"), installment=installment, kind=RELEASED)
    people = SignUp.objects.seated().filter(~Exists(told), terms__program=installment.program)
    joined = ("terms__shop", "participant__user", "colorway")
    return people.exclude(takes=Takes.PACKET).select_related(*joined).order_by("terms", "number")


def _tell_all(installment: Installment, *, now: datetime) -> int:
    """Tell the people of one installment, some at a time, so that a long release is kept as it goes."""
    due = [each for each in untold(installment) if may_have(each, installment, now=now)]
    if not due:
        return 0
    whole = _with_parts(installment)
    groups = (due[start : start + AT_ONCE] for start in range(0, len(due), AT_ONCE))
    return sum(_tell(group, whole, now=now) for group in groups)


@transaction.atomic
def _tell(
    people: list[SignUp], installments: tuple[Installment, Installment | None], *, now: datetime
) -> int:
    """Write notice and mail of each, both or neither; who was told meanwhile is left out."""
    installment, following = installments
    queued = 0
    for sign_up in people:
        fields = {"sign_up": sign_up, "installment": installment, "kind": RELEASED}
        _notice, is_new = Notice.objects.get_or_create(**fields, defaults={"made_at": now})
        if is_new:
            queued += _queue(sign_up, installment, following)
    return queued


def _queue(sign_up: SignUp, installment: Installment, following: Installment | None) -> bool:
    user = sign_up.participant.user
    with translation.override(user.language):
        facts = _facts(sign_up, installment, following)
        subject = " ".join(render_to_string("mail/released/subject.txt", facts).split())
        text = render_to_string("mail/released/body.txt", facts)
        html = render_to_string("mail/released/body.html", facts)
    return queue_mail(
        key=f"released:{installment.program.slug}:{installment.number}:{sign_up.pk}",
        to=user.email,
        subject=subject,
        text=text,
        html=html,
        language=user.language,
    )


def _facts(sign_up: SignUp, installment: Installment, following: Installment | None) -> dict[str, Any]:
    """Gather what the mail says, in the reader's units and zone."""
    user, terms = sign_up.participant.user, sign_up.terms
    opened = opens_at(installment, terms)
    opens_next = opens_at(following, terms) if following else None
    sheet = reverse("my-sheet", kwargs={"sign_up": sign_up.pk, "number": installment.number})
    return {
        "sign_up": sign_up,
        "person": user,
        "program": installment.program,
        "installment": installment,
        "blocks": _blocks(installment, Units(sign_up.participant.units)),
        "opened": instant_text(opened, user.zone) if opened else "",
        "zone": zone_text(user.zone),
        "show_by": day_text(installment.due_day) if installment.due_day else "",
        "following": following,
        "opens_next": instant_text(opens_next, user.zone) if opens_next else "",
        "sheet_url": _address(sheet),
        "year_url": _address(reverse("my-program", kwargs={"sign_up": sign_up.pk})),
    }


def _blocks(installment: Installment, units: Units) -> list[tuple[str, str]]:
    """List the blocks with their finished sizes, fractions as plain text."""
    placed = [part.placed_block for part in installment.parts.all() if part.placed_block]
    return [(each.block.name, size_text((each.size, each.size), units)) for each in placed]


def _with_parts(installment: Installment) -> tuple[Installment, Installment | None]:
    """Give the installment and the one that follows, with their parts read once for all mails."""
    whole = installments_of(installment.program)
    place = next(n for n, each in enumerate(whole) if each.pk == installment.pk)
    quilt = installment.program.quilt
    for part in whole[place].parts.all():
        if part.placed_block:
            part.placed_block.quilt = quilt
    return whole[place], whole[place + 1] if place + 1 < len(whole) else None


def _address(path: str) -> str:
    return f"{settings.SITE_URL.rstrip('/')}{path}"
