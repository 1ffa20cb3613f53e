"""What every page knows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings

if TYPE_CHECKING:
    from django.http import HttpRequest


def site(request: HttpRequest) -> dict[str, bool]:  # noqa: ARG001 -- the signature of a context processor
    """Say whether this is the demo, so that pages can call its people invented."""
    return {"demo": bool(getattr(settings, "DEMO", False))}
