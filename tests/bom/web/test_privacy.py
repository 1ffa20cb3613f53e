"""What a person sees is not kept for the next one at the same machine."""

from __future__ import annotations

import pytest
from django.test import Client

from tests.cast import paula

pytestmark = pytest.mark.django_db
PAGES = ("/", "/my/", "/nowhere/")


def test_pages_of_a_person_are_not_kept(client: Client) -> None:
    client.force_login(paula(), backend="django.contrib.auth.backends.ModelBackend")
    assert {client.get(page)["Cache-Control"] for page in PAGES} == {"private, no-store"}


def test_a_visitor_may_keep_what_everybody_sees(client: Client) -> None:
    assert not client.get("/programs/").has_header("Cache-Control")


def test_who_signs_out_leaves_nothing_behind(client: Client) -> None:
    client.force_login(paula(), backend="django.contrib.auth.backends.ModelBackend")
    client.post("/sign-out/")
    assert client.get("/my/").status_code == 302
    assert not client.get("/programs/").has_header("Cache-Control")
