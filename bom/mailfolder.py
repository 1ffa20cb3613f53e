"""Mail back end of the embedded set-up: one file a mail, in EMAIL_FILE_PATH."""

from __future__ import annotations

import hashlib
import os
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.core.mail.backends.base import BaseEmailBackend

if TYPE_CHECKING:
    from collections.abc import Sequence

    from django.core.mail import EmailMessage

KEY_HEADER = "X-Key"
NAME_LENGTH = 80


def file_name(key: str) -> str:
    """Make a file's name from a mail's key: readable, and different for different keys."""
    readable = re.sub(r"[^a-z0-9]+", "-", key.lower()).strip("-")[:NAME_LENGTH]
    return f"{readable}-{hashlib.sha256(key.encode()).hexdigest()[:12]}.eml"


class MailFolder(BaseEmailBackend):
    """Writes each mail whole or not at all; the same key again gives the same one file."""

    def __init__(self, **options: Any) -> None:
        """Take Django's own arguments; only the folder of the settings counts."""
        super().__init__(**options)
        self.folder = Path(settings.EMAIL_FILE_PATH)

    def send_messages(self, email_messages: Sequence[EmailMessage]) -> int:
        """Write every mail and give how many."""
        self.folder.mkdir(parents=True, exist_ok=True)
        for message in email_messages:
            self._write(message)
        return len(email_messages)

    def _write(self, message: EmailMessage) -> None:
        """Write beside the place, then move: no reader sees half a mail."""
        content = message.message()
        target = self.folder / file_name(content.get(KEY_HEADER) or content["Message-ID"])
        draft = target.with_suffix(f".{os.getpid()}.part")
        draft.write_bytes(content.as_bytes())
        draft.replace(target)
