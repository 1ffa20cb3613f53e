"""Mails from templates: a subject, the words as text, and the same in the look of the pages."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.template.loader import render_to_string
from django.utils.translation import override

from bom.domain.outbox import queue_mail

if TYPE_CHECKING:
    from collections.abc import Mapping


def queue_letter(name: str, *, key: str, to: str, language: str, context: Mapping[str, Any]) -> bool:
    """Write the mail `templates/mail/<name>/` in the reader's language and queue it under its key.

    False when this key was queued before.
    """
    facts = dict(context)
    with override(language):
        subject = " ".join(render_to_string(f"mail/{name}/subject.txt", facts).split())
        text = render_to_string(f"mail/{name}/body.txt", facts).strip() + "\n"
        html = render_to_string(f"mail/{name}/body.html", facts)
    return queue_mail(key=key, to=to, subject=subject, text=text, html=html, language=language)
