"""Workers side by side never send one mail twice, on either database."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from tests.services.servers import ROOT, Setup
from tests.services.test_kill import TELL, in_shell, migrated

pytestmark = [pytest.mark.services, pytest.mark.slow]
MAILS = 60
WORKERS = 3

QUEUE = f"""
from bom.models import Outbox
from bom.domain.outbox import queue_mail
Outbox.objects.all().delete()
for number in range({MAILS}):
    queue_mail(key=f"side:{{number}}", to="paula@quilts.example", subject="March", text="It is ready.")
"""
DRAIN = """
from django.utils import timezone
from bom.domain.outbox import drain
print(sum(iter(lambda: drain(now=timezone.now()), 0)))
"""


@pytest.mark.parametrize("which", ["embedded", "served"])
def test_each_mail_is_claimed_by_one_worker(which: str, request: pytest.FixtureRequest) -> None:
    setup: Setup = migrated(request.getfixturevalue(which))
    in_shell(setup, QUEUE)
    command = [sys.executable, "manage.py", "shell", "--verbosity", "0", "--command", DRAIN]
    workers = [
        subprocess.Popen(command, env=setup.environment, cwd=ROOT, stdout=subprocess.PIPE, text=True)
        for _ in range(WORKERS)
    ]
    sent = [int(each.communicate(timeout=60)[0]) for each in workers]
    assert sum(sent) == MAILS
    rows = json.loads(in_shell(setup, TELL))
    assert [(row["state"], row["attempts"]) for row in rows] == [("done", 1)] * MAILS
    assert len(setup.mails) == MAILS
