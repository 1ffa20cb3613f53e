"""Substitution at one shop: exactly its people of that colorway, from that installment on."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bom.domain.chain import work_of
from bom.domain.editions import make_edition, sheet_data
from bom.domain.freezing import what_breaks
from bom.errors import WrongState
from bom.models import AuditEntry
from patterns.models import Colorway, Fabric
from shops.domain.copies import rendering_of
from shops.domain.cutting_day import count_cut, cutting_day
from shops.domain.needs import needs_of
from shops.domain.orders import order_of
from shops.domain.own_colorways import own_colorways
from shops.domain.ready_sheets import forms_in_use
from shops.domain.swaps import SwapPlace, adopt, candidates, contrasts, replaced, take_back, touched
from shops.models import SignUp, Swap, Terms
from tests.cast import dora, person, sam, seat
from tests.factories import make_program
from tests.shops.factories import make_shop, make_terms
from tests.shops.shop_cases import NOW, frozen_program, priced_terms, three_people

if TYPE_CHECKING:
    from bom.models import Program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def program() -> Program:
    return frozen_program()


@pytest.fixture
def terms(program: Program) -> Terms:
    """Paula and Marit have packets of the first colorway, Tove the sheet only; Mia is of the second."""
    terms = priced_terms(program)
    three_people(terms)
    seat(terms, person("Mia"), colorway=program.quilt.colorways.get(slug="meadow"))
    return terms


@pytest.fixture
def teal(terms: Terms) -> Fabric:
    """Make a fabric of the same collection that is in no colorway."""
    collection = Fabric.objects.get(name="Tidewater star").collection
    return Fabric.objects.create(
        collection=collection, number="TW-20", name="Teal", colour="#117777", value=3
    )


@pytest.fixture
def place(terms: Terms) -> SwapPlace:
    """Letter B of the first colorway, from installment 2 on."""
    return place_of(terms, "B", number=2)


def place_of(terms: Terms, letter: str, *, number: int, colorway: str = "harbour") -> SwapPlace:
    quilt = terms.program.quilt
    return SwapPlace(
        terms=terms,
        colorway=quilt.colorways.get(slug=colorway),
        letter=quilt.letters.get(letter=letter),
        number=number,
    )


def cloth(terms: Terms, number: int, colorway: str = "harbour") -> set[str]:
    needs = needs_of(terms, {"harbour": 2, "meadow": 1}, numbers=[number])
    return {
        need.line.fabric.name for need in needs if need.colorway.slug == colorway and "B" in need.line.letters
    }


def test_what_is_touched_is_said_before(place: SwapPlace, terms: Terms) -> None:
    found = touched(place)
    assert (found.numbers, found.packets) == ((2,), 6)  # two people, two spares, one first packet, one sample
    assert [each.packet_name for each in found.people] == ["Paula", "Marit", "Tove"]
    assert found.sheets_taken == 0
    assert touched(replace(place, number=1)).numbers == (1, 2)


def test_adopting_follows_for_that_shop_that_colorway_and_from_that_installment(
    place: SwapPlace, terms: Terms, teal: Fabric
) -> None:
    other = make_terms(terms.program, make_shop())
    adopt(place, teal, by=sam(), now=NOW)
    assert cloth(terms, 1) == {"Tidewater star"}
    assert cloth(terms, 2) == {"Teal"}
    assert cloth(terms, 2, "meadow") == {"Tidewater star"}
    assert cloth(other, 2) == {"Tidewater star"}
    rows = {row.fabric.name: row.numbers for row in order_of(terms).rows}
    assert (rows["Teal"], rows["Tidewater star"]) == ((2,), (1, 2))  # 2 for the other colorway
    day = cutting_day(terms, terms.program.installments.get(number=2))
    assert "Teal" in {line.fabric.name for line in dict(day.bags)["Harbour"]}
    assert "Teal" not in {line.fabric.name for line in dict(day.bags)["Meadow"]}
    assert AuditEntry.objects.get(verb="substitute fabric").facts == {
        "colorway": "harbour", "letter": "B", "from": 2, "fabric": "TW-20",
    }  # fmt: skip


def test_the_designers_records_editions_and_freeze_do_not_change(
    place: SwapPlace, terms: Terms, teal: Fabric
) -> None:
    program, second = terms.program, terms.program.installments.get(number=2)
    before, work, breaks = sheet_data(second), work_of(program).content_hash, what_breaks(program)
    adopt(place, teal, by=sam(), now=NOW)
    assert sheet_data(second) == before
    assert work_of(program).content_hash == work
    assert what_breaks(program) == breaks
    assert [each.slug for each in program.quilt.colorways.all()] == ["harbour", "meadow"]


def test_sheets_follow_for_exactly_these_people(place: SwapPlace, terms: Terms, teal: Fabric) -> None:
    second = terms.program.installments.get(number=2)
    make_edition(second, by=dora(), now=NOW)
    adopt(place, teal, by=sam(), now=NOW)
    paula, mia = (SignUp.objects.get(packet_name=name) for name in ("Paula", "Mia"))
    theirs, others = rendering_of(paula, second, now=NOW), rendering_of(mia, second, now=NOW)
    assert theirs is not None
    assert others is not None
    assert theirs.colorway.stands_for == place.colorway
    assert {row.fabric.name for row in theirs.colorway.fabrics.all()} >= {"Teal", "Tidewater background"}
    assert others.colorway.slug == "meadow"


def test_sheets_set_ahead_are_those_that_will_be_taken(place: SwapPlace, terms: Terms, teal: Fabric) -> None:
    adopt(place, teal, by=sam(), now=NOW)
    first, second = (terms.program.installments.get(number=number) for number in (1, 2))
    own = own_colorways(terms).at(place.colorway, 2)
    assert {form.colorway.slug for form in forms_in_use(first)} == {"harbour", "meadow"}
    assert {form.colorway.slug for form in forms_in_use(second)} == {own.slug, "meadow"}


def test_taking_back_gives_everything_as_it_was(place: SwapPlace, terms: Terms, teal: Fabric) -> None:
    before = [(row.fabric.name, row.cuts) for row in order_of(terms).rows]
    swap = adopt(place, teal, by=sam(), now=NOW)
    take_back(swap, by=sam(), now=NOW)
    assert [(row.fabric.name, row.cuts) for row in order_of(terms).rows] == before
    assert AuditEntry.objects.filter(verb="take back substitution").count() == 1
    again = adopt(place, teal, by=sam(), now=NOW)  # the own colorway is made once
    assert Swap.objects.get() == again
    assert Colorway.everything.exclude(stands_for=None).count() == 1


def test_two_letters_substituted_at_different_times_are_a_colorway_each_time(
    place: SwapPlace, terms: Terms, teal: Fabric
) -> None:
    adopt(place, teal, by=sam(), now=NOW)
    rust = Fabric.objects.create(
        collection=teal.collection, number="TW-21", name="Rust", colour="#884422", value=4
    )
    adopt(place_of(terms, "A", number=5), rust, by=sam(), now=NOW)
    own = own_colorways(terms)
    names = [{row.fabric.name for row in own.at(place.colorway, n).fabrics.all()} for n in (1, 2, 5)]
    assert ["Teal" in each for each in names] == [False, True, True]
    assert ["Rust" in each for each in names] == [False, False, True]


def test_candidates_come_by_role_then_value(place: SwapPlace, terms: Terms, teal: Fabric) -> None:
    collection = teal.collection
    for number, (name, value, fields) in enumerate(
        [("Far", 9, {}), ("Narrow", 2, {"usable_width": "36"}), ("Stripes", 2, {"direction": "one-way"})], 30
    ):
        Fabric.objects.create(
            collection=collection, number=f"TW-{number}", name=name, colour="#222222", value=value, **fields
        )
    assert replaced(place).value == 2
    found = candidates(place)
    assert [(each.fabric.name, each.darker) for each in found] == [("Teal", 1), ("Far", 7)]
    role = Fabric.objects.get(name="Far")
    terms.program.quilt.colorways.get(slug="meadow").fabrics.filter(letter=place.letter).update(fabric=role)
    assert [each.fabric.name for each in candidates(place)] == ["Far", "Teal"]


def test_contrast_is_told_with_what_the_letter_meets(place: SwapPlace, terms: Terms, teal: Fabric) -> None:
    """Star has value 2, background 1, accent 3: teal, of value 3, is no darker than the accent."""
    found = {each.letter: each for each in contrasts(place, teal)}
    assert set(found) == {"A", "C"}
    assert (found["A"].before, found["A"].after, found["A"].is_lost) == (1, 2, False)
    assert (found["C"].before, found["C"].after, found["C"].is_lost) == (-1, 0, True)


@pytest.mark.parametrize(
    ("letter", "number", "field"), [("B", 5, "installment"), ("B", 99, "installment"), ("A", 2, "")]
)
def test_a_letter_that_is_not_cut_from_then_on_is_refused(  # noqa: PLR0917 -- one row of the table
    terms: Terms, teal: Fabric, letter: str, number: int, field: str
) -> None:
    place = place_of(terms, letter, number=number)
    if not field:
        assert adopt(place, teal, by=sam(), now=NOW).pk
        return
    with pytest.raises(WrongState) as refused:
        adopt(place, teal, by=sam(), now=NOW)
    assert refused.value.field == field


def test_a_second_substitution_a_foreign_fabric_and_cuts_made_are_refused(
    place: SwapPlace, terms: Terms, teal: Fabric
) -> None:
    with pytest.raises(WrongState) as refused:
        adopt(place, replaced(place), by=sam(), now=NOW)
    assert refused.value.field == "fabric"
    second = terms.program.installments.get(number=2)
    count_cut(terms, second, fabric=replaced(place), seen=0, to=1)
    with pytest.raises(WrongState, match="installment 2"):
        adopt(place, teal, by=sam(), now=NOW)
    count_cut(terms, second, fabric=replaced(place), seen=1, to=0)
    swap = adopt(place, teal, by=sam(), now=NOW)
    with pytest.raises(WrongState) as refused:
        adopt(place, teal, by=sam(), now=NOW)
    assert refused.value.field == "letter"
    count_cut(terms, second, fabric=teal, seen=0, to=1)
    with pytest.raises(WrongState, match="Teal"):
        take_back(swap, by=sam(), now=NOW)


def test_an_own_colorway_of_one_program_is_not_anothers(place: SwapPlace, teal: Fabric) -> None:
    adopt(place, teal, by=sam(), now=NOW)
    other = make_program("second", designer=dora())
    assert [each.slug for each in other.quilt.colorways.all()] == ["harbour", "meadow"]
