"""The mails of a substitution: exactly to those whose print is replaced, once, in their language."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from bom.errors import WrongState
from bom.models import Outbox
from patterns.models import Fabric
from shops.domain.swap_letters import adopt_by_mail, take_back_by_mail, tell_of_swap
from shops.domain.swaps import SwapPlace
from shops.models import SignUp, Swap, Terms
from tests.cast import person, sam, seat
from tests.shops.factories import make_shop, make_sign_up, make_terms
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from bom.models import Program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def program() -> Program:
    return frozen_program()


@pytest.fixture
def terms(program: Program) -> Terms:
    """Paula and Marit have packets of the first colorway, Tove its sheet, Mia is of the second, Wim waits."""
    terms = priced_terms(program)
    three_people(terms)
    seat(terms, person("Mia"), colorway=program.quilt.colorways.get(slug="meadow"))
    left = seat(terms, person("Lena"))
    SignUp.objects.filter(pk=left.pk).update(left_on="2027-01-02")
    return terms


@pytest.fixture
def teal(terms: Terms) -> Fabric:
    collection = Fabric.objects.get(name="Tidewater star").collection
    return Fabric.objects.create(
        collection=collection, number="TW-20", name="Teal", colour="#117777", value=3
    )


def place(terms: Terms) -> SwapPlace:
    quilt = terms.program.quilt
    return SwapPlace(
        terms=terms,
        colorway=quilt.colorways.get(slug="harbour"),
        letter=quilt.letters.get(letter="B"),
        number=2,
    )


def names() -> list[str]:
    """Give the packets of those to whom a mail is queued, in order."""
    keys = Outbox.objects.order_by("pk").values_list("key", flat=True)
    return [SignUp.objects.get(pk=key.rpartition(":")[2]).packet_name for key in keys]


def test_exactly_the_people_of_that_shop_and_colorway_are_told(
    program: Program, terms: Terms, teal: Fabric
) -> None:
    make_sign_up(make_terms(program, make_shop("elsewhere")), "Elsa")
    assert adopt_by_mail(place(terms), teal, by=sam(), now=NOW) == 3
    assert names() == ["Paula", "Marit", "Tove"]


def test_a_second_run_sends_nothing(terms: Terms, teal: Fabric) -> None:
    adopt_by_mail(place(terms), teal, by=sam(), now=NOW)
    assert tell_of_swap(Swap.objects.get()) == 0
    with pytest.raises(WrongState):
        adopt_by_mail(place(terms), teal, by=sam(), now=NOW)
    assert Outbox.objects.count() == 3


def test_it_says_which_print_which_fabric_and_from_when(terms: Terms, teal: Fabric) -> None:
    adopt_by_mail(place(terms), teal, by=sam(), now=NOW)
    paula, _marit, tove = Outbox.objects.order_by("pk")
    assert paula.subject == "Small Tide: Teal stands in for Tidewater star"
    for words in ("cannot get Tidewater star, letter B in Harbour", "From installment 2 on, Teal stands in"):
        assert words in paula.text
        assert words in paula.html
    assert "It concerns installment 2." in paula.text
    assert "Your packets hold it, and your sheets show it." in paula.text
    assert "Your packets hold it" not in tove.text


def test_taking_it_back_tells_the_same_people_and_so_does_the_next_one(terms: Terms, teal: Fabric) -> None:
    adopt_by_mail(place(terms), teal, by=sam(), now=NOW)
    assert take_back_by_mail(Swap.objects.get(), by=sam(), now=NOW) == 3
    assert names() == ["Paula", "Marit", "Tove"] * 2
    assert "Small Tide: Tidewater star is back" in set(Outbox.objects.values_list("subject", flat=True))
    assert adopt_by_mail(place(terms), teal, by=sam(), now=NOW) == 3


def test_what_is_refused_tells_nobody(terms: Terms) -> None:
    with pytest.raises(WrongState):
        adopt_by_mail(place(terms), Fabric.objects.get(name="Tidewater star"), by=sam(), now=NOW)
    assert not Outbox.objects.exists()
