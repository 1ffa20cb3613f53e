"""Thin tasks: the rows say what is to do, a message only wakes a worker up."""

from __future__ import annotations

from celery import shared_task
from django.contrib.sessions.backends.db import SessionStore
from django.utils import timezone

from bom.domain import outbox
from bom.domain.releases import release_due
from bom.domain.sheets.every_form import every_form, keep_progress, progress_of, set_form
from bom.domain.strip_proofs import prove_waiting
from bom.models import Program

AT_ONCE = 5  # mails a task sends before it makes way, so that a worker stops soon when it is told to


@shared_task
def drain_outbox() -> None:
    """Send what is due, and come again while there is more."""
    if outbox.drain(now=timezone.now(), limit=AT_ONCE) == AT_ONCE:
        drain_outbox.delay()


@shared_task
def sweep() -> None:
    """Release what is due, forget codes that ran out, then send; what the timer calls.

    A lost wake-up costs one sweep.
    """
    now = timezone.now()
    release_due(now=now)
    outbox.reap(now=now)
    outbox.forget_codes(now=now)
    drain_outbox()


@shared_task
def forget_sessions() -> None:
    """Take sessions out that have run out; what they held is nobody's to read."""
    SessionStore.clear_expired()


@shared_task
def prove_strip_plans() -> None:
    """Prove one strip plan that was shown open, and come again while there is one."""
    if prove_waiting(limit=1):
        prove_strip_plans.delay()


@shared_task
def set_every_form(program: int, at: int) -> None:
    """Set one form of a program's sheets and come again for the next; mails go in between."""
    found = Program.objects.get(pk=program)
    progress = set_form(every_form(found), at, progress_of(found), now=timezone.now())
    keep_progress(found, progress)
    if not progress.is_over:
        set_every_form.delay(program, at + 1)
