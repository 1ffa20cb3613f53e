"""The worker's way in.  A task is only a wake-up call: rows in the database say what is to do."""

from __future__ import annotations

import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "bom.settings")
app = Celery("bom")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
