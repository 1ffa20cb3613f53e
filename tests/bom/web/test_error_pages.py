"""When something goes wrong, the page says so in our look and shows nothing of the inside."""

from __future__ import annotations

from typing import Any

import pytest
from allauth.core.ratelimit import respond_429
from django.core.cache import cache
from django.http import HttpRequest, HttpResponse
from django.test import Client, RequestFactory
from django.urls import path

from bom.urls import urlpatterns as ours

pytestmark = pytest.mark.django_db
LOOK = 'href="/static/css/book.css"'


def breaks(request: HttpRequest) -> HttpResponse:
    """Break, as a page with a fault in it would."""
    raise RuntimeError("the inside")


urlpatterns = [*ours, path("breaks/", breaks)]


@pytest.fixture(autouse=True)
def _as_served(settings: Any) -> None:
    settings.DEBUG = False
    cache.clear()


def test_a_form_without_its_token_is_refused_in_our_words() -> None:
    answer = Client(enforce_csrf_checks=True).post("/sign-in/", {"email": "paula@example.org"})
    assert answer.status_code == 403
    assert "Not open to you" in answer.content.decode() and LOOK in answer.content.decode()


def test_a_foreign_host_gets_a_page_of_ours() -> None:
    answer = Client(headers={"host": "elsewhere.example"}).get("/")
    assert answer.status_code == 400
    assert "This could not be read" in answer.content.decode() and LOOK in answer.content.decode()


@pytest.mark.urls(__name__)
def test_a_fault_shows_nothing_of_the_inside() -> None:
    answer = Client(raise_request_exception=False).get("/breaks/")
    assert answer.status_code == 500
    assert LOOK in answer.content.decode() and "the inside" not in answer.content.decode()


def ask(address: str, number: int) -> HttpResponse:
    client = Client(headers={"x-forwarded-for": address})
    return client.post("/sign-in/", {"email": f"p{number}@example.org"})  # type: ignore[return-value]  # as said


def test_people_behind_a_proxy_do_not_share_their_tries(settings: Any) -> None:
    settings.ALLAUTH_TRUSTED_PROXY_COUNT = 1
    answers = [ask(f"10.0.0.{number}", number) for number in range(31)]
    assert {answer.status_code for answer in answers} == {302}


def test_without_a_proxy_nobody_can_say_to_be_somebody_else() -> None:
    answers = [ask(f"10.0.0.{number}", number) for number in range(31)]
    assert [answer.status_code for answer in answers] == [302] * 30 + [200]
    assert 'class="fault"' in answers[-1].content.decode()


def test_too_many_tries_are_refused_in_our_words() -> None:
    answer = respond_429(RequestFactory().get("/"))
    assert answer.status_code == 429
    assert "Too many tries" in answer.content.decode() and LOOK in answer.content.decode()
