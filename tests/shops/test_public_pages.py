"""The pages that everybody may see, and signing up on them."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime

import pytest
import time_machine
from django.core.cache import cache
from django.test import Client

from bom.enums import ProgramState
from bom.models import Outbox
from patterns.models import User
from shops.enums import Place, ShopRole
from shops.models import SignUp, Terms
from tests.factories import make_user
from tests.shops.factories import NOW, make_open_program, make_shop, make_sign_up, make_terms

pytestmark = pytest.mark.django_db
PAGE = "/p/small/"
SIGN_UP = "/p/small/sign-up/oblong-drawer/"


@pytest.fixture(autouse=True)
def _september() -> object:
    cache.clear()
    with time_machine.travel(NOW, tick=False):
        yield


@pytest.fixture
def terms() -> Terms:
    return make_terms(make_open_program(lead="Three stars and a tide."))


def words(page: bytes) -> str:
    """Give the words of a page, one blank between them."""
    plain = re.sub(r"<(svg|style).*?</\1>|<[^>]+>", " ", page.decode(), flags=re.DOTALL)
    plain = re.sub(r"\s+", " ", plain.replace("&#x27;", "'").replace("\u00a0", " "))
    return re.sub(r" (?=[.,])", "", plain)


def wish(terms: Terms, **fields: object) -> dict[str, object]:
    colorway = terms.program.quilt.colorways.first()
    usual = {"name": "Paula", "email": "paula@example.org", "packet_name": "Paula", "takes": "both"}
    return {**usual, "colorway": colorway.pk, **fields}


def test_the_page_says_what_is_made_and_when(client: Client, terms: Terms) -> None:
    page = words(client.get(PAGE).content)
    assert "28 × 12 in finished, from 3 blocks" in page  # the small program's top, by its factory
    assert "Saturday 16 January 2027 to Saturday 8 May 2027" in page
    assert "Sat 16 Jan 1 First Light Ohio Star one at 6 × 6 in" in page
    assert "Sawtooth Star, Nine Patch two at 6 × 6 in" in page
    assert "No new block. A month to catch up" in page
    assert "Border, backing, binding" in page
    assert "released at 10:00 Halifax time" in page


def test_the_page_adds_up_every_payment(client: Client, terms: Terms) -> None:
    page = words(client.get(PAGE).content)
    # 25.00 + 2 x 15.50 + 56.50 = 112.50 CAD; 14 % of it is 15.75; together 128.25
    for amount in ("25.00", "2 × 15.50", "31.00", "56.50", "112.50", "15.75", "128.25"):
        assert amount in page
    assert "Not included: batting" in page


def test_the_cost_of_a_chosen_shop_in_its_own_money(client: Client, terms: Terms) -> None:
    fields = {
        "country": "NO",
        "zone": "Europe/Oslo",
        "currency": "NOK",
        "tax_included": True,
        "tax_percent": 25,
    }
    make_terms(
        terms.program, make_shop("stoffkaia", **fields), sign_up_fee=100, monthly_fee=150, finishing_fee=400
    )
    page = words(client.get(PAGE, {"shop": "stoffkaia"}).content)
    assert "NOK 800.00 with tax" in page  # 100 + 2 x 150 + 400
    assert "of that tax, 25 % 160.00" in page  # 800 x 25 / 125
    assert "Sat 16 Jan, 15:00" in page  # 14:00 UTC in Oslo


def test_seats_left_and_the_waiting_list(client: Client, terms: Terms) -> None:
    assert "2 of 2" in words(client.get(PAGE).content)
    for name in ("Paula", "Marit"):
        make_sign_up(terms, name)
    page = words(client.get(PAGE).content)
    assert "none of 2" in page
    assert "Waiting list" in page


def test_a_shop_that_has_closed_offers_no_sign_up(client: Client, terms: Terms) -> None:
    Terms.objects.update(sign_up_until=date(2026, 8, 31))
    assert "closed after Mon 31 Aug" in words(client.get(PAGE).content)
    assert client.get(SIGN_UP).status_code == 404


@pytest.mark.parametrize("path", [PAGE, SIGN_UP, "/p/small/sign-up/oblong-drawer/done/"])
def test_a_draft_is_not_there(client: Client, terms: Terms, path: str) -> None:
    terms.program.state = ProgramState.DRAFT
    terms.program.save()
    client.force_login(
        make_user("olga@example.org", "Olga"), backend="django.contrib.auth.backends.ModelBackend"
    )
    answer = client.get(path)
    assert answer.status_code == 404 or answer["Location"] == PAGE


def test_an_unknown_program_or_shop_is_not_there(client: Client, terms: Terms) -> None:
    make_shop("tern-and-tacking")
    for path in ("/p/none/", "/p/small/sign-up/none/", "/p/small/sign-up/tern-and-tacking/"):
        assert client.get(path).status_code == 404


def test_the_page_costs_the_same_queries_for_one_shop_and_three(
    client: Client, terms: Terms, django_assert_max_num_queries: object
) -> None:
    client.get(PAGE)
    counts = []
    for _ in range(2):
        with django_assert_max_num_queries(30) as made:  # type: ignore[operator]  # a fixture of pytest-django
            client.get(PAGE)
        counts.append(len(made))
        for slug in ("tern-and-tacking", "kea-street"):
            if len(counts) == 1:
                make_sign_up(make_terms(terms.program, make_shop(slug)), "Marit")
    assert counts[0] == counts[1]


def test_the_form_shows_cost_and_days_before_anything_is_kept(client: Client, terms: Terms) -> None:
    page = words(client.get(SIGN_UP).content)
    assert "2 of 2 seats are left. Sign-up closes on Friday 18 September 2026." in page
    assert "packet only 128.25" in page
    assert "sheet only 28.50" in page  # 25.00 and 14 % of it
    assert "The first sheet opens Sat 16 Jan 2027, 10:00, Halifax time." in page
    assert "We keep what you write here to run the program" in page
    assert not SignUp.objects.exists()


def test_signing_up_keeps_a_seat_and_mails_the_way_in(client: Client, terms: Terms) -> None:
    answer = client.post(SIGN_UP, wish(terms), follow=True)
    made = SignUp.objects.get()
    assert "You have a seat" in words(answer.content)
    mail = Outbox.objects.get()
    assert (mail.key, mail.to) == (f"sign-up:{made.pk}", "paula@example.org")
    assert mail.subject == "Small Tide: your seat at Oblong Drawer"
    for text in (
        "CAD\u00a0128.25",
        "Sat 16 Jan 2027, 10:00, Halifax time",
        f"http://127.0.0.1:8000/my/{made.pk}/",
    ):
        assert text in mail.text
        assert text in mail.html
    assert "_auth_user_id" not in client.session  # an address that is typed proves nothing


def test_a_double_click_signs_up_once(client: Client, terms: Terms) -> None:
    for _ in range(2):
        assert client.post(SIGN_UP, wish(terms)).status_code == 302
    assert (SignUp.objects.count(), Outbox.objects.count()) == (1, 1)


def test_when_full_the_form_offers_the_waiting_list(client: Client, terms: Terms) -> None:
    for name in ("Marit", "Tobias"):
        make_sign_up(terms, name)
    assert "Go on the waiting list" in words(client.get(SIGN_UP).content)
    answer = client.post(SIGN_UP, wish(terms), follow=True)
    assert "You are on the waiting list" in words(answer.content)
    assert SignUp.objects.get(packet_name="Paula").place == Place.WAITING
    assert "waiting list" in Outbox.objects.get().subject


@pytest.mark.parametrize("field", ["name", "email", "packet_name", "colorway", "takes"])
def test_a_field_left_empty_is_named(client: Client, terms: Terms, field: str) -> None:
    page = client.post(SIGN_UP, wish(terms, **{field: ""})).content.decode()
    assert f'id="id_{field}_error"' in page
    assert not SignUp.objects.exists()


def test_a_person_who_is_signed_in_signs_up_under_the_own_address(client: Client, terms: Terms) -> None:
    client.force_login(
        make_user("olga@example.org", "Olga"), backend="django.contrib.auth.backends.ModelBackend"
    )
    client.post(SIGN_UP, wish(terms, email="paula@example.org"))
    assert SignUp.objects.get().participant.user.email == "olga@example.org"
    assert not User.objects.filter(email="paula@example.org").exists()


def test_the_done_page_is_for_the_browser_that_signed_up(client: Client, terms: Terms) -> None:
    client.post(SIGN_UP, wish(terms))
    answer = Client().get("/p/small/sign-up/oblong-drawer/done/")
    assert (answer.status_code, answer["Location"]) == (302, PAGE)


def test_too_many_sign_ups_from_one_place_wait(client: Client, terms: Terms, settings: object) -> None:
    settings.ACCOUNT_RATE_LIMITS = {"shop_sign_up": "1/h/ip"}  # type: ignore[attr-defined]  # a fixture of pytest-django
    client.post(SIGN_UP, wish(terms))
    page = client.post(SIGN_UP, wish(terms, email="marit@example.org"))
    assert "Too many sign-ups from here" in words(page.content)
    assert SignUp.objects.count() == 1


class TestStart:
    """The first page."""

    def test_a_visitor_sees_the_open_programs(self, client: Client, terms: Terms) -> None:
        assert 'href="/p/small/"' in client.get("/").content.decode()

    def test_a_draft_is_not_listed(self, client: Client, terms: Terms) -> None:
        terms.program.state = ProgramState.DRAFT
        terms.program.save()
        assert "No program is open yet." in words(client.get("/").content)

    def test_a_participant_goes_to_the_own_year(self, client: Client, terms: Terms) -> None:
        paula = make_sign_up(terms)
        client.force_login(paula.participant.user, backend="django.contrib.auth.backends.ModelBackend")
        assert client.get("/")["Location"] == f"/my/{paula.pk}/"
        assert 'href="/p/small/"' in client.get("/programs/").content.decode()

    def test_who_works_in_a_shop_goes_to_its_first_page(self, client: Client, terms: Terms) -> None:
        sam = make_user("sam@example.org", "Sam")
        terms.shop.members.create(user=sam, role=ShopRole.MANAGER)
        client.force_login(sam, backend="django.contrib.auth.backends.ModelBackend")
        assert client.get("/")["Location"] == "/shop/oblong-drawer/small/"

    def test_a_person_of_several_roles_may_choose(self, client: Client, terms: Terms) -> None:
        dora = terms.program.designer
        paula = make_sign_up(terms)
        SignUp.objects.update(participant=type(paula.participant).objects.create(user=dora))
        client.force_login(dora, backend="django.contrib.auth.backends.ModelBackend")
        page = words(client.get("/").content)
        assert "Where to" in page
        assert "Small Tide, Paula participant" in page

    def test_olga_who_has_nothing_sees_what_a_visitor_sees(self, client: Client, terms: Terms) -> None:
        olga = make_user("olga@example.org", "Olga")
        client.force_login(olga, backend="django.contrib.auth.backends.ModelBackend")
        assert 'href="/p/small/"' in client.get("/").content.decode()


def test_the_day_of_the_first_release_is_told_in_the_zone_of_each_shop(client: Client, terms: Terms) -> None:
    kea = {"country": "NZ", "zone": "Pacific/Auckland", "currency": "NZD"}
    make_terms(terms.program, make_shop("kea-street", **kea), hold_hours=2)
    assert datetime(2027, 1, 16, 16, tzinfo=UTC)  # 14:00 UTC and two hours: 05:00 on the 17th in Auckland
    assert "Sun 17 Jan, 05:00" in words(client.get(PAGE).content)
