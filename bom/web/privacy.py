"""Pages of a person are that person's: no cache keeps them, also not the browser's for whoever comes next."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

PRIVATE = "private, no-store"


def keep_private(answer_to: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Give a middleware: answers to whoever has a session are not kept, unless they say how to keep them."""

    def answer(request: HttpRequest) -> HttpResponse:
        response = answer_to(request)
        if not request.session.is_empty():
            response.headers.setdefault("Cache-Control", PRIVATE)
        return response

    return answer
