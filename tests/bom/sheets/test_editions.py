"""Editions: immutable, numbered, equal where they say the same."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from bom.domain.editions import make_edition, newest_edition, sheet_data
from bom.domain.keeping import hash_of
from bom.errors import ProgramError
from bom.models import AuditEntry
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from bom.models import Installment, Program, SheetEdition

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
