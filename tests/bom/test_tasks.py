"""What the timer calls."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
from django.conf import settings
from django.contrib.sessions.models import Session

from bom.celery import app
from bom.tasks import forget_sessions

pytestmark = pytest.mark.django_db


def test_sessions_that_have_run_out_are_forgotten() -> None:
    now = datetime.now(UTC)
    for key, ends in (("old", now - timedelta(seconds=1)), ("new", now + timedelta(days=1))):
        Session.objects.create(session_key=key, session_data="", expire_date=ends)
    forget_sessions()
    forget_sessions()
    assert [each.session_key for each in Session.objects.all()] == ["new"]


def test_the_timer_calls_tasks_that_are_there() -> None:
    app.loader.import_default_modules()
    assert {each["task"] for each in settings.CELERY_BEAT_SCHEDULE.values()} <= set(app.tasks)
