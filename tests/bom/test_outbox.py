"""Mail from rows: queued once, sent at least once, one in the eye of the reader."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from email import message_from_bytes
from email.policy import default
from smtplib import SMTPRecipientsRefused
from typing import TYPE_CHECKING, Any

import pytest
from django.core import mail
from django.db import transaction

from bom.domain import outbox
from bom.enums import OutboxState
from bom.mailfolder import file_name
from bom.models import Outbox

if TYPE_CHECKING:
    from pathlib import Path

NOW = datetime(2027, 3, 6, 9, 0, tzinfo=UTC)
pytestmark = pytest.mark.django_db


def queue(key: str = "released:3:paula", **fields: Any) -> bool:
    """Queue Paula's mail."""
    usual = {"to": "paula@quilts.example", "subject": "March is here", "text": "Your sheet is ready."}
    return outbox.queue_mail(key=key, **{**usual, **fields})


class RefusingServer:
    """A mail server that is down."""

    def __init__(self, **options: Any) -> None:
        """Take Django's arguments."""

    def send_messages(self, messages: list[Any]) -> int:
        """Refuse."""
        raise ConnectionRefusedError("port 25")


@pytest.fixture
def no_server(settings: Any) -> None:
    settings.EMAIL_BACKEND = f"{__name__}.RefusingServer"


def test_queueing_twice_keeps_one_mail() -> None:
    assert queue() is True
    assert queue(subject="March, again") is False
    assert [(row.key, row.subject, row.state) for row in Outbox.objects.all()] == [
        ("released:3:paula", "March is here", OutboxState.TODO)
    ]


def test_a_change_that_is_rolled_back_sends_nothing() -> None:
    with pytest.raises(ZeroDivisionError), transaction.atomic():
        queue()
        raise ZeroDivisionError
    assert outbox.drain(now=NOW) == 0
    assert mail.outbox == []


def test_the_worker_is_woken_after_the_commit(
    django_capture_on_commit_callbacks: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    woken: list[str] = []
    monkeypatch.setattr(outbox.current_app, "send_task", lambda name, **_: woken.append(name), raising=False)
    with django_capture_on_commit_callbacks(execute=True):
        queue()
        assert woken == []
    assert woken == ["bom.tasks.drain_outbox"]


def test_draining_sends_once_and_marks_the_row() -> None:
    queue(html="<p>Your sheet is ready.</p>")
    assert outbox.drain(now=NOW) == 1
    assert outbox.drain(now=NOW) == 0
    row = Outbox.objects.get()
    assert (row.state, row.attempts, row.sent_at, row.lease_until) == (OutboxState.DONE, 1, NOW, None)
    (sent,) = mail.outbox
    assert (sent.subject, sent.body, sent.to) == ("March is here", "Your sheet is ready.", [row.to])
    assert [part.mimetype for part in sent.alternatives] == ["text/html"]
    assert sent.message()["Message-ID"] == row.message_id == outbox.message_id(row.key)


def test_a_drain_stops_at_its_limit() -> None:
    for number in range(7):
        queue(key=f"released:3:{number}")
    assert [outbox.drain(now=NOW, limit=5), outbox.drain(now=NOW, limit=5)] == [5, 2]


def test_a_claimed_mail_is_nobody_elses_until_its_lease_runs_out() -> None:
    queue()
    claimed = outbox._claim(now=NOW)
    assert claimed is not None
    assert outbox.drain(now=NOW + outbox.LEASE - timedelta(seconds=1)) == 0
    assert outbox.drain(now=NOW + outbox.LEASE) == 1
    assert Outbox.objects.get().attempts == 2


def test_who_was_claimed_away_cannot_mark_the_row() -> None:
    queue()
    slow = outbox._claim(now=NOW)
    quick = outbox._claim(now=NOW + outbox.LEASE)
    assert slow is not None and quick is not None
    outbox._mark_unsent(slow, error=TimeoutError(), now=NOW + outbox.LEASE)
    row = Outbox.objects.get()
    assert (row.state, row.attempts, row.last_error) == (OutboxState.BUSY, 2, "")


@pytest.mark.usefixtures("no_server")
def test_a_server_that_is_down_puts_the_mail_back_for_later() -> None:
    queue()
    assert outbox.drain(now=NOW) == 0
    row = Outbox.objects.get()
    assert (row.state, row.last_error) == (OutboxState.TODO, "ConnectionRefusedError: port 25")
    assert row.lease_until == NOW + timedelta(seconds=2)
    assert outbox.due(now=NOW + timedelta(seconds=1)).count() == 0
    assert outbox.due(now=NOW + timedelta(seconds=2)).count() == 1


@pytest.mark.usefixtures("no_server")
def test_the_last_attempt_gives_a_mail_up() -> None:
    queue()
    Outbox.objects.update(attempts=outbox.MAX_ATTEMPTS - 1)
    outbox.drain(now=NOW)
    assert Outbox.objects.get().state == OutboxState.FAILED
    assert outbox.due(now=NOW + timedelta(days=365)).count() == 0


def test_a_mail_abandoned_at_its_last_attempt_is_reaped() -> None:
    queue()
    Outbox.objects.update(state=OutboxState.BUSY, attempts=outbox.MAX_ATTEMPTS, lease_until=NOW)
    assert outbox.drain(now=NOW) == 0
    assert outbox.reap(now=NOW - timedelta(seconds=1)) == 0
    assert outbox.reap(now=NOW) == 1
    assert Outbox.objects.get().state == OutboxState.FAILED


def test_one_key_is_one_file_in_the_mail_folder(settings: Any) -> None:
    settings.EMAIL_BACKEND = "bom.mailfolder.MailFolder"
    queue()
    outbox.drain(now=NOW)
    Outbox.objects.update(state=OutboxState.TODO)  # as after a kill between sending and marking
    outbox.drain(now=NOW)
    folder: Path = settings.EMAIL_FILE_PATH
    assert [path.name for path in folder.iterdir()] == [file_name("released:3:paula")]
    written = message_from_bytes((folder / file_name("released:3:paula")).read_bytes(), policy=default)
    assert written["Message-ID"] == outbox.message_id("released:3:paula")
    assert written.get_content().strip() == "Your sheet is ready."


def test_file_names_are_readable_and_differ_with_the_key() -> None:
    assert file_name("released:3:paula").startswith("released-3-paula-")
    assert file_name("a:b") != file_name("a-b")


def test_no_header_can_be_smuggled_in_by_a_subject() -> None:
    queue(subject="March\nBcc: everybody@quilts.example")
    assert outbox.drain(now=NOW) == 0
    assert mail.outbox == []
    assert Outbox.objects.get().last_error.startswith("BadHeaderError")


def test_a_mail_with_a_code_goes_once_the_code_has_run_out() -> None:
    queue(key=f"{outbox.CODE_KEY}1")
    queue(key=f"{outbox.CODE_KEY}2")
    queue()
    outbox.drain(now=NOW, limit=1)
    Outbox.objects.update(made_at=NOW)
    assert outbox.forget_codes(now=NOW + timedelta(minutes=15) - timedelta(seconds=1)) == 0
    assert outbox.forget_codes(now=NOW + timedelta(minutes=15)) == 2
    assert outbox.forget_codes(now=NOW + timedelta(minutes=15)) == 0
    assert [row.key for row in Outbox.objects.all()] == ["released:3:paula"]


def test_a_mail_that_is_being_sent_is_left_alone() -> None:
    queue(key=f"{outbox.CODE_KEY}1")
    outbox._claim(now=NOW)
    Outbox.objects.update(made_at=NOW)
    assert outbox.forget_codes(now=NOW + timedelta(days=1)) == 0


class TalkativeServer(RefusingServer):
    """A mail server that names people when it refuses."""

    def send_messages(self, messages: list[Any]) -> int:
        """Refuse one by one."""
        raise SMTPRecipientsRefused({messages[0].to[0]: (550, b"no such box")})


def test_the_log_names_no_address(settings: Any, caplog: pytest.LogCaptureFixture) -> None:
    settings.EMAIL_BACKEND = f"{__name__}.TalkativeServer"
    queue()
    outbox.drain(now=NOW)
    assert "SMTPRecipientsRefused" in caplog.text and "@" not in caplog.text
    assert "paula@quilts.example" in Outbox.objects.get().last_error
