"""The only sender of mail.  A mail is a row: committed with the change it tells of, sent afterwards.

At least once, and once in the eye of the reader: a worker claims a row with a lease, and every
attempt sends the same Message-ID, made from the key.  Who was claimed away is fenced off by the
number of attempts.
"""

from __future__ import annotations

import hashlib
import logging
from datetime import timedelta
from typing import TYPE_CHECKING

from celery import current_app
from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.db import connection, transaction
from django.db.models import Q
from django.db.models.functions import Now

from bom.enums import OutboxState
from bom.mailfolder import KEY_HEADER
from bom.models import Outbox

if TYPE_CHECKING:
    from datetime import datetime

    from django.db.models import QuerySet

__all__ = ("CODE_KEY", "drain", "due", "forget_codes", "queue_mail", "reap")

CODE_KEY = "sign-in-code:"  # begins the keys of mails with a code to sign in

LEASE = timedelta(seconds=60)  # longer than a mail server takes to answer
MAX_ATTEMPTS = 10
LAST_WAIT = 10  # 2**10 s, about 17 minutes: the longest wait between attempts
DRAIN_TASK = "bom.tasks.drain_outbox"
MOST_ERROR = 2000  # characters of an error that are kept

log = logging.getLogger(__name__)


def queue_mail(*, key: str, to: str, subject: str, text: str, html: str = "", language: str = "en") -> bool:
    """Queue a mail inside the caller's transaction; False when this key was queued before.

    The worker is woken after the commit; where that call is lost, the next sweep sends.
    """
    fields = {"to": to, "subject": subject, "text": text, "html": html, "language": language}
    made = {"message_id": message_id(key), "made_at": Now()}
    _row, is_new = Outbox.objects.get_or_create(key=key, defaults={**fields, **made})
    if is_new:
        transaction.on_commit(_wake_worker, robust=True)
    return is_new


def message_id(key: str) -> str:
    """Make the Message-ID of a key, the same at every attempt and on every machine."""
    domain = settings.DEFAULT_FROM_EMAIL.rpartition("@")[2].strip(" <>")
    return f"<{hashlib.sha256(key.encode()).hexdigest()[:40]}@{domain}>"


def due(*, now: datetime) -> QuerySet[Outbox]:
    """Give the mails that may be claimed: never tried, or claimed and not sent until the lease ran out."""
    waiting = Q(state=OutboxState.TODO) & (Q(lease_until=None) | Q(lease_until__lte=now))
    abandoned = Q(state=OutboxState.BUSY, lease_until__lte=now)
    return Outbox.objects.filter(waiting | abandoned).order_by("pk")


def drain(*, now: datetime, limit: int = 5) -> int:
    """Send at most `limit` due mails and give how many were sent; 0 means nothing is due."""
    sent = 0
    for _turn in range(limit):
        mail = _claim(now=now)
        if mail is None:
            break
        sent += _deliver(mail, now=now)
    return sent


def reap(*, now: datetime) -> int:
    """Give up mails whose last attempt was abandoned; give how many.  Others are claimed again by drain."""
    stuck = Outbox.objects.filter(state=OutboxState.BUSY, lease_until__lte=now, attempts__gte=MAX_ATTEMPTS)
    return stuck.update(state=OutboxState.FAILED, last_error="abandoned at the last attempt")


def forget_codes(*, now: datetime) -> int:
    """Take mails with a code to sign in out once it has run out, sent or not; give how many.

    Nobody can read there who signed in when, and a code that no longer holds is not sent late.
    """
    ended = now - timedelta(seconds=settings.ACCOUNT_LOGIN_BY_CODE_TIMEOUT)
    mails = Outbox.objects.filter(key__startswith=CODE_KEY, made_at__lte=ended)
    return mails.exclude(state=OutboxState.BUSY).delete()[0]


@transaction.atomic
def _claim(*, now: datetime) -> Outbox | None:
    """Take the first due mail for this worker alone, until the lease runs out."""
    rows = due(now=now).filter(attempts__lt=MAX_ATTEMPTS)
    if connection.features.has_select_for_update_skip_locked:
        rows = rows.select_for_update(skip_locked=True)
    mail = rows.first()
    if mail is None:
        return None
    mail.state, mail.attempts, mail.lease_until = OutboxState.BUSY, mail.attempts + 1, now + LEASE
    mail.save(update_fields=["state", "attempts", "lease_until"])
    return mail


def _deliver(mail: Outbox, *, now: datetime) -> bool:
    """Send one claimed mail and write the outcome to its row; False when it could not be sent."""
    try:
        _message(mail).send()
    except Exception as error:  # noqa: BLE001 -- whatever a mail server does wrong is written to the row
        log.warning("mail %s was not sent: %s", mail.key, type(error).__name__)  # its words hold addresses
        _mark_unsent(mail, error=error, now=now)
        return False
    _ours(mail).update(state=OutboxState.DONE, sent_at=now, lease_until=None, last_error="")
    return True


def _mark_unsent(mail: Outbox, *, error: Exception, now: datetime) -> None:
    """Put a mail back, each time for longer, or give it up after the last attempt."""
    wait = timedelta(seconds=2 ** min(mail.attempts, LAST_WAIT))
    last = mail.attempts >= MAX_ATTEMPTS
    state = OutboxState.FAILED if last else OutboxState.TODO
    words = f"{type(error).__name__}: {error}"[:MOST_ERROR]
    _ours(mail).update(state=state, lease_until=None if last else now + wait, last_error=words)


def _ours(mail: Outbox) -> QuerySet[Outbox]:
    """Give the row while this attempt still holds it, else nothing: a later attempt fences this one off."""
    return Outbox.objects.filter(pk=mail.pk, state=OutboxState.BUSY, attempts=mail.attempts)


def _message(mail: Outbox) -> EmailMultiAlternatives:
    """Write the mail as it goes out."""
    headers = {"Message-ID": mail.message_id, KEY_HEADER: mail.key, "Content-Language": mail.language}
    message = EmailMultiAlternatives(mail.subject, mail.text, to=[mail.to], headers=headers)
    if mail.html:
        message.attach_alternative(mail.html, "text/html")
    return message


def _wake_worker() -> None:
    """Tell a worker that something is due."""
    current_app.send_task(DRAIN_TASK, ignore_result=True)
