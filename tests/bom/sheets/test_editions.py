"""Editions: immutable, numbered, equal where they say the same."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from bom.domain.corrections import changes_of, changes_to_come, is_superseded
from bom.domain.editions import make_edition, newest_edition, sheet_data
from bom.domain.keeping import hash_of
from bom.domain.sheets.content import sheet_context, sheet_html
from bom.domain.sheets.variants import Variant
from bom.errors import ProgramError
from bom.models import AuditEntry, SheetEdition
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from bom.models import Installment, Program

pytestmark = pytest.mark.slow


def test_the_first_edition_has_number_one_and_the_hash_of_its_data(edition: SheetEdition) -> None:
    assert edition.number == 1
    assert edition.content_hash == hash_of(edition.data)


def test_the_same_content_makes_no_second_edition(stars: Installment, edition: SheetEdition) -> None:
    assert make_edition(stars, by=None, now=NOW) == edition
    assert stars.editions.count() == 1
    assert AuditEntry.objects.filter(verb="make edition").count() == 1


def test_a_change_without_a_line_is_refused(stars: Installment, edition: SheetEdition) -> None:
    stars.story = "The tide is out."
    with pytest.raises(ProgramError, match=f"since edition {edition.number}") as caught:
        make_edition(stars, by=None, now=NOW)
    assert caught.value.field == "change_line"


def test_a_correction_makes_the_next_edition_and_leaves_the_old_one(
    stars: Installment, edition: SheetEdition
) -> None:
    stars.tips = "Press the geese away from the point."
    second = make_edition(stars, by=None, now=NOW, change_line="A tip is added.")
    assert (second.number, second.change_line) == (2, "A tip is added.")
    assert newest_edition(stars) == second
    edition.refresh_from_db()
    assert edition.data["tips"] == ""


def test_a_change_of_size_is_another_sheet(program: Program, stars: Installment) -> None:
    before = hash_of(sheet_data(stars))
    program.quilt.block_size = 9
    program.quilt.save()
    stars.refresh_from_db()
    assert hash_of(sheet_data(stars)) != before


def test_another_installments_words_change_nothing(program: Program, stars: Installment) -> None:
    before = hash_of(sheet_data(stars))
    program.installments.filter(number=1).update(story="Fog.")
    assert hash_of(sheet_data(stars)) == before


def test_a_correction_stands_on_the_first_page_with_what_it_changed(
    stars: Installment, edition: SheetEdition
) -> None:
    stars.tips = "Press the geese away from the point."
    second = make_edition(stars, by=None, now=NOW, change_line="A tip is added.")
    variant = Variant(colorway=stars.program.quilt.colorways.get(slug="harbour"))
    html = sheet_html(second, variant)
    assert "Corrections in this edition" in html
    assert "A tip is added." in html
    assert "tips: changed" in html
    assert "Corrections in this edition" not in sheet_html(edition, variant)
    draft = SheetEdition(installment=stars, number=0, data=second.data, made_at=NOW)
    assert "Corrections in this edition" not in sheet_html(draft, variant)  # it says what edition 2 says


def test_more_changes_than_the_cover_holds_stand_at_the_end(
    program: Program, stars: Installment, edition: SheetEdition
) -> None:
    program.quilt.block_size = 9
    program.quilt.save()
    fresh = program.installments.get(pk=stars.pk)
    second = make_edition(fresh, by=None, now=NOW, change_line="The block is larger.")
    context = sheet_context(second, Variant(colorway=program.quilt.colorways.get(slug="harbour")))
    assert sum(len(row.lines) for row in context["corrections"]) == 5
    assert sum(len(row.lines) for row in context["all_corrections"]) == 5 + context["more_corrections"]


def test_an_older_edition_is_superseded_and_keeps_its_own_changes(
    stars: Installment, edition: SheetEdition
) -> None:
    assert not is_superseded(edition)
    stars.tips = "Press the geese away from the point."
    assert [change.name.text for change in changes_to_come(stars)] == ["tips"]
    second = make_edition(stars, by=None, now=NOW, change_line="A tip is added.")
    assert is_superseded(edition)
    assert not is_superseded(second)
    assert changes_of(edition) == changes_to_come(stars) == ()
    assert [change.name.text for change in changes_of(second)] == ["tips"]
