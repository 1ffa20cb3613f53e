"""A worker is killed in the middle of a release to 200 people; after a new start each was told, and once."""

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

SIGN_UP = f"""
from datetime import timedelta
from django.utils import timezone
from bom.models import Outbox
from tests.shops.factories import make_open_program, make_sign_up, make_terms, schedule
terms = make_terms(make_open_program(), cap={MAILS})
for number in range({MAILS}):
    make_sign_up(terms, f"Person {{number}}".replace(" ", ""))
Outbox.objects.all().delete()  # their confirmations
first, *later = terms.program.installments.order_by("number")
schedule(first, timezone.now())
for weeks, installment in enumerate(later, 1):
    schedule(installment, timezone.now() + timedelta(weeks=4 * weeks))
"""
SHORTEN_LEASES = """
from bom.models import Outbox
from django.utils import timezone
print(Outbox.objects.filter(state="busy").update(lease_until=timezone.now()))
"""
TELL = """
import json
from bom.models import Outbox
print(json.dumps(list(Outbox.objects.order_by("pk").values("key", "state", "message_id", "attempts"))))
"""
RELEASED = """
import json
from bom.models import Installment
from shops.models import Notice, SignUp
told = set(Notice.objects.values_list("sign_up", "installment__number"))
print(json.dumps([
    list(Installment.objects.filter(state="released").values_list("number", flat=True)),
    told == {(seat.pk, 1) for seat in SignUp.objects.all()},
    sorted(f"released:small:1:{seat.pk}" for seat in SignUp.objects.all()),
]))
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
def test_a_release_whose_worker_is_killed_loses_and_doubles_nothing(
    which: str, request: pytest.FixtureRequest
) -> None:
    setup = migrated(request.getfixturevalue(which))
    in_shell(setup, SIGN_UP)
    with running(worker(setup), environment=setup.environment) as first:
        wait_until(lambda: len(setup.mails) >= IN_THE_MIDDLE, what="the first mails are sent")
        kill_group(first)
    assert len(setup.mails) < MAILS  # the blow came in the middle

    in_shell(setup, SHORTEN_LEASES)  # as if the minute of the lease were over
    with running(worker(setup), environment=setup.environment):
        wait_until(lambda: len(setup.mails) >= MAILS, what="all mails are sent", seconds=90)
        wait_until(lambda: {row["state"] for row in rows_of(setup)} == {"done"}, what="all rows are done")

    released, all_told, keys = json.loads(in_shell(setup, RELEASED))
    assert (released, all_told, len(keys)) == ([1], True, MAILS)
    assert_one_mail_each(setup, keys)


def assert_one_mail_each(setup: Setup, keys: list[str]) -> None:
    """See one row, one Message-ID and one file for each key."""
    rows = rows_of(setup)
    assert sorted(row["key"] for row in rows) == keys
    assert len({row["message_id"] for row in rows}) == len(keys)
    written = [message_from_bytes(path.read_bytes()) for path in setup.mails if path.suffix == ".eml"]
    assert len(written) == len(keys)
    sent = {mail["X-Key"]: mail["Message-ID"] for mail in written}
    assert sent == {row["key"]: row["message_id"] for row in rows}
