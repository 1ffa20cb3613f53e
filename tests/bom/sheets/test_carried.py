"""What the sheets say of carried fabric: cut and keep, with a card; later, what lies ready."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from django.utils.html import strip_tags

from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.editions import make_edition
from bom.domain.sheets.carried import keep_cards, month_cut_rows, month_joined_rows
from bom.domain.sheets.content import sheet_context, sheet_html
from bom.domain.sheets.variants import Variant
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from bom.models import Program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def program(program: Program) -> Program:
    """Let packet 1 hold letter B of installment 2, and packet 4 the border of installment 5."""
    program.installments.filter(number=2).update(carried={"B": 1})
    program.installments.filter(number=5).update(carried={"A": 4})
    return program


def words_of(html: str) -> str:
    return " ".join(strip_tags(html).split())


def context(program: Program, number: int) -> dict[str, Any]:
    installment = program.installments.get(number=number)
    variant = Variant(colorway=program.quilt.colorways.get(slug="harbour"))
    return sheet_context(make_edition(installment, by=None, now=NOW), variant)


def test_the_earlier_sheet_lists_what_to_cut_and_keep(program: Program) -> None:
    found = context(program, 1)
    kept = [row for row in found["cuts"] if row.purpose == "keep for installment 2"]
    assert {row.letter for row in kept} == {"B"}
    assert all(row.label.endswith(" (2)") and not row.then for row in kept)
    fabric = next(row for row in found["fabrics"] if row.letter == "B")
    assert "pieces of it are kept for installment 2" in words_of(fabric.in_packet)


def test_the_card_names_pieces_as_the_later_sheet_does(program: Program) -> None:
    (card,) = context(program, 1)["keeps"]
    assert (card.number, card.title, card.letter, card.name) == (2, "Two Boats", "B", "Tidewater star")
    later = {row.label: row for row in context(program, 2)["cuts"] if row.letter == "B"}
    assert [label for _words, label in card.rows] == list(later)
    for words, label in card.rows:
        assert words_of(later[label].words) == f"kept from installment 1: {words_of(words)}"


def test_the_later_sheet_says_where_the_fabric_is(program: Program) -> None:
    found = context(program, 2)
    fabric = next(row for row in found["fabrics"] if row.letter == "B")
    assert fabric.in_packet == "kept from installment 1"
    assert not [plan for plan in found["plans"] if plan.title.startswith("B")]


def test_strips_of_a_border_stay_uncut_until_they_are_sewn(program: Program) -> None:
    work, variant = work_of(program), Variant(colorway=program.quilt.colorways.get(slug="harbour"))
    cloths = cloths_of(variant.colorway)
    assert context(program, 4)["keeps_borders"]
    cards = keep_cards(work.installment(4), work, cloths, variant=variant)
    assert [card.letter for card in cards] == ["A"]
    labels = [row.label for row in month_cut_rows(work.installment(4), cloths, variant)]
    assert [label for label in labels if label.endswith("(5)")]
    assert len(labels) == len(set(labels))
    joined = month_joined_rows(work.installment(5), variant)
    assert all("kept strips" in words for words in joined)


def test_the_whole_sheet_says_it_in_words(program: Program) -> None:
    variant = Variant(colorway=program.quilt.colorways.get(slug="harbour"))
    pages = [
        words_of(sheet_html(make_edition(program.installments.get(number=n), by=None, now=NOW), variant))
        for n in (1, 2, 3)
    ]
    assert "Keep for later" in pages[0]
    assert "For installment 2, Two Boats" in pages[0]
    assert "What is kept from installment 1 lies with its card." in pages[1]
    assert "Keep for later" not in pages[2]
