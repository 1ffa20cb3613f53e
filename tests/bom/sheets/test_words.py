"""What a sheet says to the one who sews: the words, read as plain text from the page's HTML."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from html import unescape
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.editions import make_edition
from bom.domain.sheets.content import sheet_html
from bom.domain.sheets.finishing import finishing_rows
from bom.domain.sheets.rows import cut_words
from bom.enums import PartKind
from patterns.engine.binding_corners import binding_corners
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


def test_the_back_is_told_both_ways_and_as_wide_backing(program: Program, variant: Variant) -> None:
    """The top is 28 x 12 in, 4 in more on every side: 36 x 20 in, one width of 40 in either way."""
    words = said(program, 5, variant)
    assert "trim the backing to 36 × 20 in. Cut the batting as large." in words
    assert "no seam: one length of 36 in, 1 yd." in words
    assert "no seam: one length of 20 in, 5 ⁄ 8 yd." in words  # 20 in up to an eighth of a yard
    assert "one length of 36 in, at least 20 in wide inside the selvages" in words
    assert "Batting in a pack: 34 × 45 in is large enough" in words  # the smallest that is sold


def test_binding_says_joins_and_the_fold_at_its_corners(program: Program, variant: Variant) -> None:
    """Round 80 in and 10 in of tail: 3 strips of 40 in less two joins of 2 1/2 in give 115 in.

    A strip of 2 1/2 in, sewn 1/4 in inside the edge, finishes 1/2 in wide: the fold takes twice that.
    """
    words = said(program, 5, variant)
    assert "Cut 3 strips 2 1 ⁄ 2 in wide across the fabric." in words
    assert "2 joins give 115 in; you need 90 in." in words
    assert "At 4 square corners: Mark the edge 1 ⁄ 4 in before the corner." in words
    assert "The fold takes 1 in of the strip. Begin again 1 ⁄ 4 in after the corner." in words
    assert words.count("square corners") == 1


def test_odd_corners_have_a_mark_and_a_fold_of_their_own(program: Program, variant: Variant) -> None:
    """A runner with pointed ends has two tips of 90 and four corners of 135 degrees.

    The cotangent of half of 135 degrees is the root of 2 less 1: the stop 1/4 in times 0.4142 = 0.1036 in,
    the fold 0.4142 in, both shown up to 1/16 in.
    """
    outline = ((0, 4), (4, 0), (12, 0), (16, 4), (12, 8), (4, 8))
    points = tuple((Fraction(x), Fraction(y)) for x, y in outline)
    corners = binding_corners(points, seam=Fraction(1, 4), finished=Fraction(1, 2))
    bound = next(part for part in work_of(program).installment(5).parts if part.kind == PartKind.BINDING)
    (rows,) = finishing_rows((replace(bound, corners=corners),), variant)
    words = " ".join(unescape(re.sub(r"<[^>]*>", "", " ".join(rows.words))).split())
    assert "At 2 square corners: Mark the edge 1⁄4 in before the corner." in words
    assert "At 4 blunt corners: Mark the edge about 1⁄8 in before the corner." in words
    assert "The fold takes about 7⁄16 in of the strip." in words


def test_bias_binding_and_sleeve_are_told_from_cut_to_sewn(program: Program, variant: Variant) -> None:
    type(program.quilt).objects.filter(pk=program.quilt_id).update(binding_cut="bias", sleeve_letter="F")
    words = said(program, 5, variant)
    assert "Cut a square of 17 in and cut it once diagonally" in words
    assert "along the bias edges: 4 strips" in words
    assert "Hanging sleeve 1 Cut 1 strip" in words
    assert "Press the strip in half along its length" in words
