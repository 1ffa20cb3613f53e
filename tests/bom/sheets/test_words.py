"""What a sheet says to the one who sews: the words, read as plain text from the page's HTML."""

from __future__ import annotations

import re
from html import unescape
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.editions import make_edition
from bom.domain.sheets.content import sheet_html
from bom.domain.sheets.rows import cut_words
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from bom.domain.sheets.variants import Variant
    from bom.models import Program


def said(program: Program, number: int, variant: Variant) -> str:
    """Give the words of one installment's sheet, without tags and with plain spaces."""
    edition = make_edition(program.installments.get(number=number), by=None, now=NOW)
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", sheet_html(edition, variant))).split())


def test_a_block_asks_for_what_is_marked_and_cut_on_the_diagonal(program: Program, variant: Variant) -> None:
    assert "ruler with a 45 degree line, pencil" in said(program, 1, variant)


def test_joining_asks_for_no_pencil(program: Program, variant: Variant) -> None:
    words = said(program, 4, variant)
    assert "rotary cutter and mat, ruler, pins" in words
    assert "pencil, pins" not in words


def test_borders_are_cut_when_the_quilt_is_measured(program: Program, variant: Variant) -> None:
    words = said(program, 5, variant)
    assert "Do not cut the borders to length yet" in words
    assert "Side borders Measure the quilt through its middle" in words
    assert "batting, and pins or thread to baste with" in words


def test_long_pieces_are_strips(program: Program, variant: Variant) -> None:
    pieces = work_of(program).installment(5).pieces["E"]
    assert [cut_words(piece, variant).split(",")[0] for piece in pieces] == [f"{pieces[0].count} strips"]


def test_bias_binding_and_sleeve_are_told_from_cut_to_sewn(program: Program, variant: Variant) -> None:
    type(program.quilt).objects.filter(pk=program.quilt_id).update(binding_cut="bias", sleeve_letter="F")
    words = said(program, 5, variant)
    assert "Cut a square of 17 in and cut it once diagonally" in words
    assert "along the bias edges: 4 strips" in words
    assert "Hanging sleeve 1 Cut 1 strip" in words
    assert "Press the strip in half along its length" in words
