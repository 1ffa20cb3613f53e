"""A worker is killed in the middle of sending 200 mails; after a new start each was sent, and once."""

from __future__ import annotations

import json
import subprocess
import sys
from email import message_from_bytes
from typing import Any

import pytest

from tests.services.servers import ROOT, SCRIPTS, Setup, kill_group, running, wait_until

pytestmark = [pytest.mark.services, pytest.mark.slow]
MAILS = 200
IN_THE_MIDDLE = 20  # mails in the folder when the blow comes

QUEUE = f"""
from django.db import transaction
from bom.domain.outbox import queue_mail
with transaction.atomic():
    for number in range({MAILS}):
        to = f"person{{number}}@quilts.example"
        queue_mail(key=f"released:demo/3:{{number}}", to=to, subject="March is here", text="It is ready.")
"""
SHORTEN_LEASES = """
from bom.models import Outbox
from django.utils import timezone
print(Outbox.objects.filter(state="busy").update(lease_until=timezone.now()))
"""
TELL = """
import json
from bom.models import Outbox
print(json.dumps(list(Outbox.objects.order_by("key").values("key", "state", "message_id", "attempts"))))
"""


def in_shell(setup: Setup, code: str) -> str:
    """Run a few lines inside the private copy and give what they print."""
    command = [sys.executable, "manage.py", "shell", "--verbosity", "0", "--command", code]
    done = subprocess.run(
        command, env=setup.environment, cwd=ROOT, check=True, stdout=subprocess.PIPE, text=True
    )
    return done.stdout


def worker(setup: Setup) -> list[str]:
    """Give the command of a worker with the timer in it."""
    command = [str(SCRIPTS / "celery"), "--app", "bom", "--quiet", "worker", "--beat", "--concurrency", "2"]
    command += ["--schedule", str(setup.folder / "timer"), "--loglevel", "WARNING"]
    return [*command, "--without-mingle", "--without-gossip", "--without-heartbeat"]


def rows_of(setup: Setup) -> list[dict[str, Any]]:
    """Read the outbox."""
    rows: list[dict[str, Any]] = json.loads(in_shell(setup, TELL))
    return rows


def migrated(setup: Setup) -> Setup:
    """Make the tables."""
    command = [sys.executable, "manage.py", "migrate", "--verbosity", "0"]
    subprocess.run(command, env=setup.environment, cwd=ROOT, check=True)
    return setup


@pytest.mark.parametrize("which", ["embedded", "served"])
def test_a_worker_killed_in_the_middle_loses_and_doubles_nothing(
    which: str, request: pytest.FixtureRequest
) -> None:
    setup = migrated(request.getfixturevalue(which))
    in_shell(setup, QUEUE)
    with running(worker(setup), environment=setup.environment) as first:
        wait_until(lambda: len(setup.mails) >= IN_THE_MIDDLE, what="the first mails are sent")
        kill_group(first)
    assert len(setup.mails) < MAILS  # the blow came in the middle

    in_shell(setup, SHORTEN_LEASES)  # as if the minute of the lease were over
    with running(worker(setup), environment=setup.environment):
        wait_until(lambda: len(setup.mails) >= MAILS, what="all mails are sent", seconds=90)
        wait_until(lambda: {row["state"] for row in rows_of(setup)} == {"done"}, what="all rows are done")

    rows = rows_of(setup)
    assert [row["key"] for row in rows] == sorted(f"released:demo/3:{number}" for number in range(MAILS))
    written = [message_from_bytes(path.read_bytes()) for path in setup.mails if path.suffix == ".eml"]
    assert len(written) == MAILS
    assert {mail["X-Key"]: mail["Message-ID"] for mail in written} == {
        row["key"]: row["message_id"] for row in rows
    }
    assert len({row["message_id"] for row in rows}) == MAILS
