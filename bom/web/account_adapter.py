"""How allauth does things here: nobody signs up through it, and its mail goes through the outbox."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from uuid import uuid4

from allauth.account.adapter import DefaultAccountAdapter
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import get_language

from bom.domain.letters import queue_letter
from bom.domain.outbox import CODE_KEY

if TYPE_CHECKING:
    from django.http import HttpRequest

CODE_MAIL = "account/email/login_code"


class AccountAdapter(DefaultAccountAdapter):
    """People come in through a shop's sign-up or are invited; they sign in by a mailed code."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:  # noqa: ARG002 -- the signature of allauth
        """Say no: accounts are not made here."""
        return False

    def is_safe_url(self, url: str) -> bool:
        """Allow a way back to our own paths only, never to another host."""
        return url_has_allowed_host_and_scheme(url, allowed_hosts=None)

    def send_mail(self, template_prefix: str, email: str, context: dict[str, Any]) -> None:
        """Queue the mail with the code; allauth has no other mail to send here."""
        if template_prefix != CODE_MAIL:
            raise NotImplementedError(template_prefix)
        queue_letter(
            "sign_in_code",
            key=f"{CODE_KEY}{uuid4()}",
            to=email,
            language=get_language() or "en",
            context={"code": context["code"]},
        )

    def add_message(self, request: HttpRequest, *args: Any, **kwargs: Any) -> None:
        """Pass on faults in words; the pages themselves say that a code is on its way and who signed in."""
        if kwargs.get("message"):
            super().add_message(request, *args, **kwargs)
