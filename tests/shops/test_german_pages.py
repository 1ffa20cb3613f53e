"""Pages and mail in the reader's language: the browser's at first, the person's own once chosen."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
import time_machine
from django.test import Client

from bom.models import Outbox
from patterns.models import User
from shops.domain.copies import form_of
from shops.domain.ready_sheets import forms_in_use
from tests.factories import make_user
from tests.shops.factories import FIRST_RELEASE, NOW, make_open_program, make_sign_up, make_terms
from tests.shops.test_public_pages import wish, words

if TYPE_CHECKING:
    from shops.models import SignUp, Terms

pytestmark = pytest.mark.django_db
GERMAN = {"headers": {"Accept-Language": "de-AT,de;q=0.9,en;q=0.5"}}
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def terms() -> Terms:
    return make_terms(make_open_program(), cap=4)


@pytest.fixture
def paula(terms: Terms) -> SignUp:
    return make_sign_up(terms)


@pytest.fixture(autouse=True)
def _after_first_release() -> object:
    with time_machine.travel(FIRST_RELEASE + timedelta(days=3), tick=False):
        yield


def signed_in(sign_up: SignUp, **client: object) -> Client:
    found = Client(**client)
    found.force_login(sign_up.participant.user, backend=BACKEND)
    return found


@pytest.mark.parametrize(
    ("address", "said"),
    [
        ("/", "Programme"),
        ("/programs/", "Programme"),
        ("/sign-in/", "Code zusenden"),
        ("/nowhere/", "Nicht hier"),
    ],
)
def test_a_browser_that_prefers_german_is_answered_in_german(terms: Terms, address: str, said: str) -> None:
    answer = Client(**GERMAN).get(address)
    assert said in words(answer.content)
    assert answer["Content-Language"] == "de"
    assert "Accept-Language" in answer["Vary"]
    assert '<html lang="de"' in answer.content.decode()


def test_a_browser_that_prefers_what_we_lack_is_answered_in_english(terms: Terms) -> None:
    answer = Client(headers={"Accept-Language": "nl"}).get("/programs/")
    assert answer["Content-Language"] == "en"


@time_machine.travel(NOW, tick=False)
def test_who_signs_up_on_a_german_page_gets_german_mail_and_sheets(terms: Terms) -> None:
    client = Client(**GERMAN)
    address = f"/p/{terms.program.slug}/sign-up/{terms.shop.slug}/"
    assert "Eintragen bis" in words(client.get(address).content)
    assert client.post(address, wish(terms)).status_code == 302
    person = User.objects.get(email="paula@example.org")
    assert person.language == "de"
    made = person.participant.sign_ups.get()
    assert form_of(made, 1).language == "de"
    assert [each.language for each in forms_in_use(terms.program.installments.get(number=1))] == ["de"]
    mail = Outbox.objects.get()
    assert (mail.language, "Ihr Platz" in mail.subject) == ("de", True)
    assert "The " not in mail.text


def test_the_own_choice_comes_before_the_browsers(paula: SignUp) -> None:
    client = signed_in(paula, **GERMAN)
    page = f"/my/{paula.pk}/"
    assert "My year" in words(client.get(page).content)
    choice = {"units": "cm", "paper": "a4", "print_size": "usual", "language": "de"}
    assert "Gemerkt." in words(client.post("/my/settings/", choice, follow=True).content)
    found = words(signed_in(paula).get(page).content)
    assert "Mein Jahr" in found
    assert "My year" not in found


def test_a_language_that_is_none_is_refused(paula: SignUp) -> None:
    choice = {"units": "cm", "paper": "a4", "print_size": "usual", "language": "xx"}
    assert signed_in(paula).post("/my/settings/", choice).status_code == 200
    paula.participant.user.refresh_from_db()
    assert paula.participant.user.language == "en"


def test_pages_of_those_who_run_a_program_stay_english(terms: Terms) -> None:
    client = Client(**GERMAN)
    client.force_login(terms.program.designer, backend=BACKEND)
    User.objects.filter(pk=terms.program.designer_id).update(language="de")
    assert client.get(f"/program/{terms.program.slug}/allowances/")["Content-Language"] == "en"


def test_olga_is_told_in_german_that_a_page_is_not_hers(paula: SignUp) -> None:
    olga = Client(**GERMAN)
    person = make_user("olga@example.org", "Olga")
    User.objects.filter(pk=person.pk).update(language="de")
    olga.force_login(person, backend=BACKEND)
    answer = olga.get(f"/my/{paula.pk}/")
    assert answer.status_code == 404
    assert "Nicht hier" in words(answer.content)
