"""Signing in by a mailed code, and the demo's invented people."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest
import time_machine
from django.core.cache import cache
from django.test import Client

from bom.models import Outbox
from patterns.models import User

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
PAULA = "paula@example.org"


@pytest.fixture(autouse=True)
def _no_tries_yet() -> None:
    cache.clear()


@pytest.fixture
def paula() -> User:
    return User.objects.create_user(PAULA, "Paula")


def ask(client: Client, email: str = PAULA, follow_to: str = "") -> object:
    return client.post("/sign-in/", {"email": email, **({"next": follow_to} if follow_to else {})})


def code() -> str:
    mail = Outbox.objects.latest("pk")
    assert mail.to == PAULA
    found = re.search(r"\b(\d{6})\b", mail.text)
    assert found is not None
    return found[1]


def wrong(right: str) -> str:
    return "000000" if right != "000000" else "111111"


def answer(client: Client, typed: str, **more: str) -> object:
    return client.post("/sign-in/code/", {"code": typed, **more})


def signed_in(client: Client) -> bool:
    return "_auth_user_id" in client.session


def test_the_mailed_code_signs_in_and_the_session_changes(client: Client, paula: User) -> None:
    assert ask(client).status_code == 302  # type: ignore[attr-defined]  # a response
    before = client.session.session_key
    assert answer(client, code()).url == "/"  # type: ignore[attr-defined]  # a redirect
    assert client.session["_auth_user_id"] == str(paula.pk)
    assert client.session.session_key != before


def test_the_mail_says_the_code_in_both_forms(client: Client, paula: User) -> None:
    ask(client)
    mail = Outbox.objects.get()
    assert mail.subject == f"Your code is {code()}"
    assert code() in mail.html


def test_an_address_in_capitals_is_the_same_person(client: Client, paula: User) -> None:
    ask(client, "Paula@Example.org")
    assert re.search(r"\d{6}", Outbox.objects.get().text)


def test_an_unknown_address_gets_the_same_answer_and_no_mail(client: Client, paula: User) -> None:
    known, unknown = Client(), Client()
    answers = [ask(known), ask(unknown, "olga@example.org")]
    assert [each.url for each in answers] == ["/sign-in/code/", "/sign-in/code/"]  # type: ignore[attr-defined]  # redirects
    pages = [each.get("/sign-in/code/").content.decode() for each in (known, unknown)]
    plain = [re.sub(r'csrfmiddlewaretoken" value="\w+"|[\w.]+@example\.org', "", page) for page in pages]
    assert plain[0] == plain[1]
    assert [mail.to for mail in Outbox.objects.all()] == [PAULA]


def test_no_code_ever_fits_an_unknown_address(client: Client) -> None:
    ask(client, "olga@example.org")
    for typed in ("", "000000"):
        answer(client, typed)
        assert not signed_in(client)


def test_five_wrong_codes_end_the_try(client: Client, paula: User) -> None:
    ask(client)
    right = code()
    for _ in range(5):
        answer(client, wrong(right))
    answer(client, right)
    assert not signed_in(client)


def test_four_wrong_codes_do_not(client: Client, paula: User) -> None:
    ask(client)
    right = code()
    for _ in range(4):
        answer(client, wrong(right))
    answer(client, right)
    assert signed_in(client)


def test_a_code_ends_after_fifteen_minutes(client: Client, paula: User) -> None:
    start = datetime(2027, 3, 9, 12, 0, tzinfo=UTC)
    with time_machine.travel(start, tick=False) as clock:
        ask(client)
        clock.shift(901)
        answer(client, code())
    assert not signed_in(client)


def test_a_code_works_once_and_only_in_its_browser(client: Client, paula: User) -> None:
    ask(client)
    answer(Client(), code())
    answer(client, code())
    client.post("/sign-out/")
    answer(client, code())
    assert not signed_in(client)


def test_who_mistyped_the_address_asks_again_in_the_same_browser(client: Client, paula: User) -> None:
    ask(client, "pavla@example.org")
    assert client.get("/sign-in/").status_code == 200
    ask(client)
    assert PAULA in client.get("/sign-in/code/").content.decode()
    answer(client, code())
    assert signed_in(client)


def test_of_two_codes_the_newer_counts(client: Client, paula: User) -> None:
    ask(client)
    older = code()
    ask(client)
    answer(client, older)
    assert older == code() or not signed_in(client)


def test_one_address_gets_five_codes_an_hour(paula: User) -> None:
    for _ in range(7):
        ask(Client())
    assert Outbox.objects.count() == 5


@pytest.mark.parametrize(
    ("next_path", "end"),
    [
        ("/my/settings/", "/my/settings/"),
        ("https://elsewhere.example/", "/"),
        ("//elsewhere.example/", "/"),
        ("javascript:alert(1)", "/"),
    ],
)
@pytest.mark.usefixtures("paula")
def test_next_leads_to_our_own_paths_only(client: Client, next_path: str, end: str) -> None:
    ask(client, follow_to=next_path)
    assert answer(client, code(), next=next_path).url == end  # type: ignore[attr-defined]  # a redirect


def test_somebody_shut_out_gets_no_code(client: Client, paula: User) -> None:
    paula.is_active = False
    paula.save()
    ask(client)
    assert not Outbox.objects.exists()


def test_the_admin_is_entered_by_a_code_too(client: Client, paula: User) -> None:
    assert client.get("/admin/login/?next=/admin/").headers["Location"] == "/sign-in/?next=%2Fadmin%2F"
    assert client.post("/admin/login/", {"username": PAULA, "password": "word"}).status_code == 302
    assert not signed_in(client)
    ask(client)
    answer(client, code())
    assert client.get("/admin/login/").status_code == 403


def test_who_has_no_name_is_not_called_by_the_whole_address() -> None:
    assert str(User(email=PAULA)) == "paula"
    assert str(User(email=PAULA, name="Paula")) == "Paula"


def test_signing_out_needs_a_post(client: Client, paula: User) -> None:
    client.force_login(paula, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get("/sign-out/").status_code == 405
    assert signed_in(client)
    client.post("/sign-out/")
    assert not signed_in(client)


def test_nobody_signs_up_through_the_accounts_pages(client: Client) -> None:
    for path in ("/accounts/signup/", "/signup/", "/accounts/login/", "/password/reset/"):
        assert client.get(path).status_code == 404


class TestDemo:
    """The invented people, who sign in without a code."""

    @pytest.fixture
    def ines(self) -> User:
        return User.objects.create_user("ines@stoffkaia.example", "Ines Halvard")

    def test_an_invented_person_signs_in_by_post(self, client: Client, ines: User, settings: object) -> None:
        settings.DEMO = True  # type: ignore[attr-defined]  # a fixture of pytest-django
        assert client.get(f"/sign-in/as/{ines.pk}/").status_code == 405
        assert client.post(f"/sign-in/as/{ines.pk}/").status_code == 302
        assert signed_in(client)

    def test_outside_the_demo_nobody_does(self, client: Client, ines: User, settings: object) -> None:
        settings.DEMO = False  # type: ignore[attr-defined]  # a fixture of pytest-django
        assert client.post(f"/sign-in/as/{ines.pk}/").status_code == 404
        assert "Invented people" not in client.get("/sign-in/").content.decode()
        assert not signed_in(client)

    @pytest.mark.parametrize(
        "fields", [{"email": "real@example.net"}, {"is_staff": True}, {"is_active": False}]
    )
    def test_a_real_person_is_not_to_be_had(
        self, ines: User, settings: object, fields: dict[str, object]
    ) -> None:
        settings.DEMO = True  # type: ignore[attr-defined]  # a fixture of pytest-django
        client = Client()
        User.objects.filter(pk=ines.pk).update(**fields)
        assert client.post(f"/sign-in/as/{ines.pk}/").status_code == 404
        assert not signed_in(client)
