"""The demo: laid down around today, once, all invented."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from django.apps import apps
from django.core.management import CommandError, call_command

from bom.models import Installment, Program, SheetEdition
from patterns.models import Block, User
from shops.domain import demo
from shops.models import FabricOffer, Notice, PickUp, PricePlan, Shop, SignUp, Terms

if TYPE_CHECKING:
    from patterns.models import User as Person

FIXTURES = Path(__file__).parents[2] / "fixtures"
TODAY = "2027-04-01"
pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture(autouse=True)
def quick_freeze(monkeypatch: pytest.MonkeyPatch) -> None:
    """Freeze, order and make editions without the chain: it has tests of its own, and takes time."""

    def freeze(program: Program, *, by: Person, now: datetime) -> Program:
        program.frozen_at, program.frozen_by = now, by
        program.save()
        return program

    def edition(installment: Installment, *, by: Person, now: datetime, change_line: str) -> None:
        number, data = installment.editions.count() + 1, {"tips": installment.tips}
        fields = {"data": data, "made_at": now, "made_by": by, "change_line": change_line}
        SheetEdition.objects.create(installment=installment, number=number, **fields)

    monkeypatch.setattr(demo, "freeze_fabric", freeze)
    monkeypatch.setattr(demo, "make_edition", edition)
    monkeypatch.setattr(demo, "order_fabric", lambda terms: None)


def load(today: str = TODAY) -> str:
    out = StringIO()
    call_command("load_demo", "--today", today, stdout=out)
    return out.getvalue().strip()


def counts() -> dict[str, int]:
    models = [
        model for app in ("patterns", "bom", "shops") for model in apps.get_app_config(app).get_models()
    ]
    return {model.__name__: model._default_manager.count() for model in models}


def test_a_second_load_changes_nothing() -> None:
    assert load() == "The demo is loaded."
    before = counts()
    assert load() == "The demo is there already."
    assert load("2029-01-01") == "The demo is there already."
    assert counts() == before


def test_six_shops_have_275_places_and_206_are_taken() -> None:
    """As the story of the look says: 60 + 40 + 30 + 80 + 40 + 25 places."""
    load()
    assert sum(Terms.objects.values_list("cap", flat=True)) == 275
    taken = {
        each.slug: SignUp.objects.seated().filter(terms__shop=each).count() for each in Shop.objects.all()
    }
    assert taken == {
        "oblong-drawer": 41,
        "tern-and-tacking": 36,
        "stoffkaia-vardnes": 19,
        "six-fathom-cloth": 80,
        "long-paddock-cloth": 18,
        "kea-street-drapery": 12,
    }
    for terms in Terms.objects.all():
        seated = SignUp.objects.seated().filter(terms=terms)
        assert seated.count() <= terms.cap
        for offer in terms.colorways.all():
            assert seated.filter(colorway=offer.colorway).count() <= offer.cap
        sold = set(terms.colorways.values_list("colorway__fabrics__fabric", flat=True))
        assert sold == set(FabricOffer.objects.filter(shop=terms.shop).values_list("fabric", flat=True))


@pytest.mark.parametrize("today", ["2027-03-20", "2027-03-21", "2027-04-16", "2028-02-29", "2026-11-25"])
def test_three_are_out_and_the_fourth_is_scheduled_whatever_the_day(today: str) -> None:
    """On a third Saturday itself, noon in UTC is before 10:00 in Halifax."""
    load(today)
    now = datetime.fromisoformat(f"{today}T12:00+00:00")
    installments = list(Program.objects.get(slug="demo").installments.all())
    expected = ["released"] * 3 + ["scheduled", "approved", "edited"] + ["draft"] * 6
    assert [each.state for each in installments] == expected
    assert [each.number for each in installments if each.release_at <= now] == [1, 2, 3]
    assert [each.number for each in installments if each.by_exception] == [7]


def test_it_is_frozen_running_and_marked_as_invented() -> None:
    load()
    program = Program.objects.get(slug="demo")
    assert (program.state, program.invented, program.is_frozen) == ("running", True, True)
    assert program.frozen_at < program.installments.get(number=1).release_at
    assert [gate.name for gate in program.gates.order_by("passed_on")] == [
        "proof",
        "technical edit",
        "test sewing",
        "fabric freeze",
    ]


def test_what_is_out_or_scheduled_has_its_sheet() -> None:
    load()
    first = SheetEdition.objects.filter(number=1).order_by("installment__number")
    assert [each.installment.number for each in first] == [1, 2, 3, 4]
    assert all(each.made_at < each.installment.release_at for each in first)


def test_one_wrong_tip_is_corrected_in_a_second_edition() -> None:
    load()
    correction = SheetEdition.objects.get(number=2)
    assert correction.installment.title == "Netloft"
    assert correction.change_line.startswith("Do not wash")
    assert correction.data["tips"] == correction.installment.tips
    assert correction.installment.editions.get(number=1).data["tips"] != correction.installment.tips


def test_its_blocks_are_the_traditional_ones() -> None:
    """A drawing that differs from the one that comes with the program would be kept as the designer's own."""
    load()
    assert not Block.objects.exclude(owner=None).exists()


def test_every_address_reaches_nobody() -> None:
    """RFC 2606 keeps example.org and .example for this."""
    load()
    for email in [
        *User.objects.values_list("email", flat=True),
        *Shop.objects.values_list("email", flat=True),
    ]:
        assert email.endswith(("@example.org", ".example"))


def test_all_are_told_of_the_first_two_and_the_third_is_still_to_be_told() -> None:
    load()
    numbers = set(Notice.objects.values_list("installment__number", flat=True))
    assert numbers == {1, 2}


def test_the_people_of_the_story_are_there() -> None:
    load()
    ines = SignUp.objects.get(participant__user__name="Ines Halvard")
    assert (ines.terms.shop.name, ines.participant.paper) == ("Stoffkaia Vardnes", "a4")
    assert ines.participant.user.zone == "Europe/Oslo"
    assert ines.sewn_blocks.count() == 2
    maud = SignUp.objects.get(participant__user__name="Maud Inverlach")
    assert maud.terms.shop.name == "The Oblong Drawer"


def test_one_head_count_is_open_and_the_others_are_frozen() -> None:
    load()
    still_open = [each.shop.slug for each in Terms.objects.all() if not each.head_count_is_frozen]
    assert still_open == ["oblong-drawer"]
    assert (
        Terms.objects.get(shop__slug="oblong-drawer").head_count_day > datetime(2027, 4, 1, tzinfo=UTC).date()
    )


def test_packets_of_past_months_are_given_and_a_few_wait() -> None:
    load()
    assert set(PickUp.objects.values_list("installment__number", flat=True)) == {1, 2}
    at_the_drawer = PickUp.objects.filter(sign_up__terms__shop__slug="oblong-drawer", installment__number=1)
    assert at_the_drawer.count() == 39 - 3  # of numbers 9, 18, 27 and 36 one takes the sheet only


def test_every_shop_says_what_a_packet_costs_and_what_posting_takes() -> None:
    load()
    for plan in PricePlan.objects.all():
        steps = [grams for grams, _price in plan.posting]
        assert steps == sorted(set(steps))
        assert (plan.sheet_licence > 0, plan.bag > 0, plan.margin_percent > 0) == (True, True, True)
    assert PricePlan.objects.count() == Terms.objects.count() == 6


def test_a_day_that_is_none_is_refused() -> None:
    with pytest.raises(CommandError) as caught:
        load("soon")
    assert caught.value.returncode == 2


def test_the_people_of_the_file_have_a_shop_each_by_name() -> None:
    """One address belongs to one person of the file, so that a shop's list is read without surprises."""
    data = json.loads((FIXTURES / "people" / "demo.json").read_text(encoding="utf-8"))
    names = [{each["name"] for each in shop["people"]} for shop in data["shops"]]
    assert sum(len(each) for each in names) == len(set().union(*names))
