"""Something is wrong with a step."""

from __future__ import annotations

from datetime import timedelta

import pytest
import time_machine
from django.test import Client

from bom.models import Outbox, Problem
from shops.models import SignUp
from tests.cast import olga
from tests.shops.factories import (
    FIRST_RELEASE,
    NOW,
    make_edition,
    make_open_program,
    make_rendering,
    make_sign_up,
    make_terms,
)

pytestmark = pytest.mark.django_db
REPORT = {"step": "4", "words": "The square should be 2 1/2 in."}


@pytest.fixture
def paula() -> SignUp:
    paula = make_sign_up(make_terms(make_open_program()))
    make_edition(paula.terms.program.installments.get(number=1))
    return paula


@pytest.fixture(autouse=True)
def _after_release() -> object:
    with time_machine.travel(FIRST_RELEASE + timedelta(days=1), tick=False):
        yield


def as_paula(paula: SignUp) -> Client:
    client = Client()
    client.force_login(paula.participant.user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def test_a_report_is_kept_and_mailed_to_the_designer(paula: SignUp) -> None:
    answer = as_paula(paula).post(f"/my/{paula.pk}/problem/1/", REPORT, follow=True)
    assert "Thank you. The designer has your report." in answer.content.decode()
    problem = Problem.objects.get()
    assert (problem.step, problem.words, problem.state) == ("4", REPORT["words"], "new")
    assert (problem.reporter, problem.edition.number) == (paula.participant.user, 1)
    mail = Outbox.objects.get()
    assert (mail.key, mail.to) == (f"problem:{problem.pk}", "dora@example.org")
    assert mail.subject == "Something is wrong with a step of 1 First Light"
    for text in ("Step or page", "The square should be 2 1/2 in.", "paula@example.org"):
        assert text in mail.text
        assert text in mail.html


def test_the_same_words_again_are_one_report(paula: SignUp) -> None:
    client = as_paula(paula)
    for _ in range(2):
        client.post(f"/my/{paula.pk}/problem/1/", REPORT)
    assert (Problem.objects.count(), Outbox.objects.count()) == (1, 1)


def test_the_report_is_about_the_edition_that_was_taken(paula: SignUp) -> None:
    installment = paula.terms.program.installments.get(number=1)
    taken = make_rendering(installment.editions.get(), paula)
    paula.sheet_copies.create(rendering=taken, first_taken_at=NOW, stamp="Paula")
    make_edition(installment, number=2)
    as_paula(paula).post(f"/my/{paula.pk}/problem/1/", REPORT)
    assert Problem.objects.get().edition.number == 1


def test_words_of_markup_stay_words(paula: SignUp) -> None:
    as_paula(paula).post(f"/my/{paula.pk}/problem/1/", {"step": "", "words": "<b>4</b> & more"})
    mail = Outbox.objects.get()
    assert "<b>4</b> & more" in mail.text
    assert "&lt;b&gt;4&lt;/b&gt; &amp; more" in mail.html


def test_a_report_without_words_is_not_taken(paula: SignUp) -> None:
    answer = as_paula(paula).post(f"/my/{paula.pk}/problem/1/", {"step": "4", "words": ""})
    assert 'id="id_words_error"' in answer.content.decode()
    assert not Problem.objects.exists()


def test_a_sheet_that_is_not_out_takes_no_report(paula: SignUp) -> None:
    assert as_paula(paula).post(f"/my/{paula.pk}/problem/2/", REPORT).status_code == 404
    assert as_paula(paula).get(f"/my/{paula.pk}/problem/99/").status_code == 404


def test_the_code_of_a_page_leads_to_the_form_with_the_page_filled_in(paula: SignUp) -> None:
    client = as_paula(paula)
    answer = client.get("/r/small/1/1/?page=3")
    assert answer.status_code == 302
    assert answer["Location"] == f"/my/{paula.pk}/problem/1/?edition=1&page=3"
    assert 'value="page 3 of edition 1"' in client.get(answer["Location"]).content.decode()
    assert 'value="4"' in client.get("/r/small/1/1/?step=4", follow=True).content.decode()


def test_the_code_asks_who_is_not_signed_in_and_comes_back(paula: SignUp) -> None:
    answer = Client().get("/r/small/1/1/?page=3")
    assert answer["Location"] == "/sign-in/?next=/r/small/1/1/%3Fpage%3D3"


@pytest.mark.parametrize("address", ["/r/small/2/1/", "/r/small/9/1/", "/r/other/1/1/"])
def test_the_code_of_what_one_may_not_have_leads_nowhere(paula: SignUp, address: str) -> None:
    assert as_paula(paula).get(address).status_code == 404


def test_an_outsider_gets_404_from_a_code(paula: SignUp) -> None:
    other = Client()
    other.force_login(olga(), backend="django.contrib.auth.backends.ModelBackend")
    assert other.get("/r/small/1/1/?page=3").status_code == 404


@pytest.mark.parametrize("asked", ["page=<b>", "page=-1", "page=99999999", "page=%F0%9F%A6%86", "page="])
def test_nothing_but_a_number_is_taken_from_the_address(paula: SignUp, asked: str) -> None:
    page = as_paula(paula).get(f"/r/small/1/1/?{asked}", follow=True)
    assert page.context["form"].initial == {"step": ""}
