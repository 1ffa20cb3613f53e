"""In which language a page speaks: the person's own choice, then the browser's, then English."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.utils import translation
from django.utils.cache import patch_vary_headers

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.http import HttpRequest, HttpResponse

ENGLISH_ONLY = ("/program/", "/shop/", "/admin/")  # pages of those who run a program are not translated


def speak(answer_to: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Give a middleware: pages, their mails and their messages are said in the reader's language.

    It stands behind the one that knows who is signed in.
    """

    def answer(request: HttpRequest) -> HttpResponse:
        language = language_for(request)
        with translation.override(language):
            request.LANGUAGE_CODE = language
            response = answer_to(request)
        patch_vary_headers(response, ("Accept-Language",))
        response.headers.setdefault("Content-Language", language)
        return response

    return answer


def language_for(request: HttpRequest) -> str:
    """Choose the language of a page: what the person has chosen, else what the browser prefers.

    Who has no session is not looked up.
    """
    if request.path_info.startswith(ENGLISH_ONLY):
        return str(settings.LANGUAGE_CODE)
    if settings.SESSION_COOKIE_NAME in request.COOKIES and request.user.is_authenticated:
        chosen = request.user.language
        if chosen in dict(settings.LANGUAGES):
            return chosen
    return translation.get_language_from_request(request)
