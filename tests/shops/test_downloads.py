"""Taking a sheet: from its instant, by who may have it, in the person's own form."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pikepdf
import pytest
import time_machine
from django.test import Client

from bom.models import Installment, Rendering
from shops.domain.sign_ups import leave
from shops.enums import Takes
from shops.models import SheetCopy, SignUp
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
SECOND = timedelta(seconds=1)


@pytest.fixture
def paula() -> SignUp:
    paula = make_sign_up(make_terms(make_open_program()))
    make_rendering(make_edition(first(paula)), paula)
    return paula


def first(sign_up: SignUp) -> Installment:
    return sign_up.terms.program.installments.get(number=1)


def take(sign_up: SignUp, at: datetime, number: int = 1) -> object:
    client = Client()
    with time_machine.travel(at, tick=False):
        client.force_login(sign_up.participant.user, backend="django.contrib.auth.backends.ModelBackend")
        return client.get(f"/my/{sign_up.pk}/sheet/{number}.pdf")


def status(sign_up: SignUp, at: datetime, number: int = 1) -> int:
    return take(sign_up, at, number).status_code  # type: ignore[attr-defined]  # a response


def test_refused_one_second_early_and_given_at_the_instant(paula: SignUp) -> None:
    assert status(paula, FIRST_RELEASE - SECOND) == 404
    assert not SheetCopy.objects.exists()
    assert status(paula, FIRST_RELEASE) == 200


def test_the_refusal_looks_like_any_unknown_address(paula: SignUp) -> None:
    early, unknown = (take(paula, FIRST_RELEASE - SECOND, number) for number in (1, 99))
    assert early.content == unknown.content  # type: ignore[attr-defined]  # responses


def test_the_file_has_a_name_and_no_cache_keeps_it(paula: SignUp) -> None:
    answer = take(paula, FIRST_RELEASE)
    assert answer["Content-Type"] == "application/pdf"  # type: ignore[index]  # a response
    name = 'attachment; filename="small-01-first-light-edition-1.pdf"'
    assert answer["Content-Disposition"] == name  # type: ignore[index]  # a response
    assert answer["Cache-Control"] == "private, no-store"  # type: ignore[index]  # a response


def test_every_page_says_whose_copy_it_is(paula: SignUp, tmp_path: object) -> None:
    path = tmp_path / "taken.pdf"  # type: ignore[operator]  # a path
    path.write_bytes(take(paula, FIRST_RELEASE).content)  # type: ignore[attr-defined]  # a response
    assert SheetCopy.objects.get().stamp == "Paula, 1, Oblong Drawer"
    with pikepdf.open(path) as document:
        assert len(document.pages) == 1
        assert "/Font" in document.pages[0].Resources


def test_the_first_taking_is_recorded_once(paula: SignUp) -> None:
    for moment in (FIRST_RELEASE, FIRST_RELEASE + timedelta(days=1)):
        take(paula, moment)
    assert SheetCopy.objects.get().first_taken_at == FIRST_RELEASE


def test_who_takes_it_again_gets_the_same_file_without_another_stamp(
    paula: SignUp, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken = take(paula, FIRST_RELEASE)
    monkeypatch.setattr("shops.web.downloads.stamp", None)  # nobody calls it
    again = take(paula, FIRST_RELEASE + SECOND)
    assert again.content == taken.content  # type: ignore[attr-defined]  # responses
    assert again.headers == taken.headers  # type: ignore[attr-defined]  # responses


def test_what_is_kept_of_a_taking_follows_every_change(paula: SignUp) -> None:
    take(paula, FIRST_RELEASE)
    make_rendering(make_edition(first(paula), number=2), paula)
    take(paula, FIRST_RELEASE)
    assert sorted(SheetCopy.objects.values_list("rendering__edition__number", flat=True)) == [1, 2]
    paula.terms.hold_hours = 24
    paula.terms.save()
    assert status(paula, FIRST_RELEASE) == 404
    SignUp.objects.update(takes=Takes.PACKET)
    assert status(paula, FIRST_RELEASE + timedelta(days=2)) == 404


def test_another_form_is_not_kept_for_the_own_one(paula: SignUp) -> None:
    paula.participant.units = "cm"
    paula.participant.save()
    take(paula, FIRST_RELEASE)
    make_rendering(first(paula).editions.get(), paula)
    take(paula, FIRST_RELEASE + SECOND)
    assert sorted(SheetCopy.objects.values_list("rendering__units", flat=True)) == ["cm", "in"]


def test_the_newest_edition_is_given(paula: SignUp) -> None:
    make_rendering(make_edition(first(paula), number=2), paula)
    take(paula, FIRST_RELEASE)
    assert SheetCopy.objects.get().rendering.edition.number == 2


def test_who_may_not_have_it_gets_none(paula: SignUp) -> None:
    for change in ({"place": "waiting"}, {"takes": Takes.PACKET}, {"first_installment": 2}):
        before = {key: getattr(paula, key) for key in change}
        SignUp.objects.update(**change)
        assert status(paula, FIRST_RELEASE) == 404
        SignUp.objects.update(**before)
    assert status(paula, FIRST_RELEASE) == 200


def test_a_shop_that_holds_back(paula: SignUp) -> None:
    paula.terms.hold_hours = 24
    paula.terms.save()
    assert status(paula, FIRST_RELEASE + timedelta(hours=24) - SECOND) == 404
    assert status(paula, FIRST_RELEASE + timedelta(hours=24)) == 200


def test_what_is_not_scheduled_is_not_there(paula: SignUp) -> None:
    Installment.objects.update(state="approved")
    assert status(paula, FIRST_RELEASE + timedelta(days=30)) == 404


def test_a_leaver_keeps_the_sheet_that_had_come_out(paula: SignUp) -> None:
    second = paula.terms.program.installments.get(number=2)
    make_rendering(make_edition(second), paula)
    leave(sign_up=paula, day=date(2027, 1, 20), now=NOW)
    later = FIRST_RELEASE + timedelta(days=100)
    assert (status(paula, later), status(paula, later, 2)) == (200, 404)


def test_before_the_first_edition_there_is_no_file(paula: SignUp) -> None:
    assert status(paula, FIRST_RELEASE + timedelta(weeks=4), 2) == 404


def test_only_reading_is_allowed(paula: SignUp) -> None:
    client = Client()
    client.force_login(paula.participant.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.post(f"/my/{paula.pk}/sheet/1.pdf").status_code == 405


def test_an_edition_that_cannot_be_set_is_told_and_nothing_is_recorded(paula: SignUp) -> None:
    make_edition(first(paula), number=2)  # says something else than the records do, and has no file
    Rendering.objects.all().delete()
    answer = take(paula, FIRST_RELEASE)
    assert answer["Location"] == f"/my/{paula.pk}/"  # type: ignore[index]  # a redirect
    assert not SheetCopy.objects.exists()


def test_the_edition_in_another_form_is_better_than_none(paula: SignUp) -> None:
    paula.participant.units = "cm"  # set in inches only, and the records have moved on since
    paula.participant.save()
    assert status(paula, FIRST_RELEASE) == 200
    assert SheetCopy.objects.get().rendering.units == "in"


def test_a_file_that_is_gone_is_told_and_nothing_is_recorded(paula: SignUp) -> None:
    kept = Rendering.objects.get()
    kept.file.storage.delete(kept.file.name)  # and the records have moved on since
    assert take(paula, FIRST_RELEASE)["Location"] == f"/my/{paula.pk}/"  # type: ignore[index]  # a redirect
    assert not SheetCopy.objects.exists()
