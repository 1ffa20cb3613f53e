"""Thin tasks of the shops; the rows say what is to do."""

from __future__ import annotations

from celery import shared_task
from django.utils import timezone

from shops.domain.corrections import queue_correction_notices
from shops.domain.notices import queue_release_notices
from shops.domain.ready_sheets import set_next


@shared_task
def pull_releases() -> None:
    """Look up what has opened or is corrected and queue its notices.

    A lost wake-up costs one turn of the timer.
    """
    now = timezone.now()
    queue_release_notices(now=now)
    queue_correction_notices(now=now)


@shared_task
def set_sheets() -> None:
    """Set one sheet that will be asked for, and come again while there is more; mails go in between."""
    if set_next(now=timezone.now()):
        set_sheets.delay()
