"""Cutting the whole quilt: every month's pieces on one list, and only the months that may be told of."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from bom.domain.chain import whole_work, work_of
from bom.domain.packets import year
from bom.domain.piece_names import size_of
from bom.domain.sheets.document_kinds import document_pdf, said_in
from bom.domain.sheets.documents import Wish
from bom.domain.sheets.whole_cutting import whole_cutting_content
from bom.enums import Document
from tests.bom.sheets.test_supplies import plain

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.variants import Variant
    from bom.models import Program

pytestmark = pytest.mark.slow
KIND = Document.CUTTING


@pytest.fixture
def wish(program: Program, variant: Variant) -> Wish:
    return Wish(program=program, variant=variant)


def test_the_list_holds_exactly_what_the_months_cut(program: Program) -> None:
    months = work_of(program).installments
    whole = whole_work(program, months)
    counted: dict[object, int] = {}
    for piece in (piece for month in months for cut in month.pieces.values() for piece in cut):
        counted[size_of(piece)] = counted.get(size_of(piece), 0) + piece.count
    listed = [piece for cut in whole.pieces.values() for piece in cut]
    assert {size_of(piece): piece.count for piece in listed} == counted
    names = [piece.id for piece in listed]
    assert len(set(names)) == len(names)


def test_each_fabric_is_told_largest_first_and_for_which_month(program: Program, wish: Wish) -> None:
    fabrics = whole_cutting_content(wish)["fabrics"]
    assert [fabric.name for fabric in fabrics][:3] == [
        "Tidewater background",
        "Tidewater star",
        "Tidewater accent",
    ]
    accent = fabrics[2]  # the middles of both stars: 2 in and 3 in finished
    rows = [(row.label, plain(str(row.words)), months) for row, months in accent.rows]
    assert rows == [
        ("C1", "1 square, 3 1⁄2 × 3 1⁄2 in", "2: 1\u00a0C1"),
        ("C2", "1 square, 2 1⁄2 × 2 1⁄2 in", "1: 1\u00a0C1"),
    ]


def test_at_once_takes_no_more_than_month_by_month(program: Program, wish: Wish) -> None:
    by_month = {
        line.fabric.name: line.suggested for line in year(program, work_of(program), wish.variant.colorway)
    }
    for fabric in whole_cutting_content(wish)["fabrics"]:
        if fabric.plan:
            at_once, month = (plain(str(said)) for said in (fabric.at_once, fabric.by_month))
            assert _inches(at_once) <= _inches(month) == by_month[fabric.name]


def _inches(words: str) -> Fraction:
    """Read the length between brackets: "1⁄2 yd (18 in)"."""
    found = words.partition("(")[2].removesuffix(" in)").replace("⁄", "/")
    return sum((Fraction(part) for part in found.split()), start=Fraction(0))


def test_months_that_are_not_out_are_not_told(program: Program, wish: Wish) -> None:
    words = plain(said_in(KIND, replace(wish, only=frozenset({1}))))
    assert "installments 1 to 1 of 5" in words
    assert "2: 1" not in words
    assert "Tidewater binding" not in words
    assert "What the months take that are out so far" in words
    assert whole_cutting_content(replace(wish, only=frozenset({99})))["fabrics"] == []


def test_what_no_month_holds_is_cut_too(program: Program, wish: Wish) -> None:
    program.installments.get(number=5).parts.all().delete()
    words = plain(said_in(KIND, wish))
    assert "to finish: " in words
    assert "Tidewater backing, backing" in words
    told = plain(said_in(KIND, replace(wish, only=frozenset({1, 2, 3, 4}))))
    assert "Tidewater backing" not in told


def test_the_file_is_tagged_and_the_second_is_the_same(wish: Wish, tmp_path: Path) -> None:
    from pdfua import validate

    made = document_pdf(KIND, wish)
    assert document_pdf(KIND, wish) == made
    path = tmp_path / "cutting.pdf"
    path.write_bytes(made)
    assert list(validate(str(path)).findings) == []
