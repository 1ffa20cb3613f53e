"""Finishing instructions: every number from the chain, in the order of sewing."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from html import unescape
from typing import TYPE_CHECKING

import pytest
from django.core.files.storage import default_storage

from bom.domain.chain import loose_work, work_of
from bom.domain.sheets.document_kinds import document_pdf, said_in
from bom.domain.sheets.documents import Wish
from bom.domain.sheets.finishing_sheet import finishing_content, finishing_months
from bom.enums import Document, Paper, PartKind, UnitsChoice
from patterns.models import Quilt

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.variants import Variant
    from bom.models import Program

pytestmark = pytest.mark.slow
KIND = Document.FINISHING


def html(program: Program, variant: Variant) -> str:
    return said_in(KIND, Wish(program=program, variant=variant))


def said(program: Program, variant: Variant) -> str:
    """Give the words of the document, without tags and with plain spaces."""
    return " ".join(unescape(re.sub(r"<[^>]*>", "", html(program, variant).replace("><", "> <"))).split())


def test_sizes_of_the_setting_stand_first(program: Program, variant: Variant) -> None:
    """Three 6 in blocks with 2 in sashing are 22 x 6 in, with a 3 in border 28 x 12 in."""
    words = said(program, variant)
    assert "Quilt 28 × 12 in finished Set straight, 1 row of 3" in words
    assert "Block 6 × 6 in finished, 6 1⁄2 × 6 1⁄2 in unfinished" in words
    assert "Centre 22 × 6 in finished, 22 1⁄2 × 6 1⁄2 in unfinished" in words
    assert "Sashing D, 2 in finished, cut 2 1⁄2 in wide" in words
    assert "Border A, 3 in finished, cut 3 1⁄2 in wide" in words
    assert "Backing 36 × 20 in, 4 in more on each side Batting 36 × 20 in" in words
    assert "Binding strips cut 2 1⁄2 in wide, 90 in in all" in words


def test_months_come_in_order_with_their_own_names_and_numbered_on(
    program: Program, variant: Variant
) -> None:
    joining, finishing = finishing_months(Wish(program=program, variant=variant))
    assert joining.work == work_of(program).installment(4)
    assert finishing.work == work_of(program).installment(5)
    content = finishing_content(Wish(program=program, variant=variant))
    numbers = [step.number for part in _parts(content) for step in part.steps]
    assert numbers == list(range(1, len(numbers) + 1))
    words = said(program, variant)
    assert words.index("From installment 4, Joining") < words.index("From installment 5, Finishing")
    assert words.index("Borders are measured through the middle because edges stretch") < words.index(
        "Side borders"
    )
    assert "blocks too" not in words


def _parts(content: dict[str, object]) -> list[object]:
    return [part for section in content["sections"] for part in section.parts]  # type: ignore[attr-defined]  # rows


def test_what_no_month_holds_is_cut_from_own_fabric(program: Program, variant: Variant) -> None:
    assert loose_work(program).parts == ()
    program.installments.get(number=5).parts.all().delete()
    loose = loose_work(program)
    assert [part.kind for part in loose.parts] == [PartKind.BORDER, PartKind.BACKING, PartKind.BINDING]
    (own,) = (
        month for month in finishing_months(Wish(program=program, variant=variant)) if month.work.number == 0
    )
    backing = next(line for line in own.packet.lines if line.is_backing)
    assert backing.fabric.name == "Tidewater backing"
    assert backing.line.minimum == 20  # one length, along the 20 in
    assert "From your own fabric" in said(program, variant)


def test_a_month_shared_with_a_block_counts_only_what_finishes(program: Program, variant: Variant) -> None:
    """Installment 1 gets the joining: of its packet only the two sashing strips are listed."""
    program.installments.get(number=4).parts.update(installment=program.installments.get(number=1))
    joining = finishing_months(Wish(program=program, variant=variant))[0]
    assert joining.is_shared
    assert list(joining.work.pieces) == ["D"]
    assert [piece.count for piece in joining.work.pieces["D"]] == [2]
    assert [line.fabric.name for line in joining.lines.lines] == ["Tidewater frame"]
    assert "The packet serves that month's blocks too" in said(program, variant)


def test_fabric_kept_from_an_earlier_month_is_named(program: Program, variant: Variant) -> None:
    program.installments.filter(number=5).update(carried={"E": 4})
    words = said(program, variant)
    assert "Tidewater binding binding kept from installment 4" in words
    assert "keep for installment 5" in words
    assert "What is kept from installment 4 lies with its card." in words


def test_setting_triangles_are_told_by_their_squares(program: Program, variant: Variant) -> None:
    """6 in blocks in one row on point: the side triangles' long edge is 6 root 2.

    Squares cut twice are 6 root 2 + 1 1/4 = 9.735 in, up to 9 3/4; cut once they are 6 / root 2 + 7/8 =
    5.118, up to 5 1/8 in (common practice).
    """
    shape = {"setting": "on point", "triangle_letter": "A", "sashing_width": Fraction(0)}
    Quilt.objects.filter(pk=program.quilt_id).update(**shape)
    program.house_style = "exact"
    program.save()
    program.quilt.refresh_from_db()
    words = said(program, variant)
    assert "Set on point, 1 row" in words
    assert "1 square 9 3⁄4 × 9 3⁄4 in, cut twice diagonally" in words
    assert "2 squares 5 1⁄8 × 5 1⁄8 in, cut once diagonally" in words


def test_centimetres_change_what_is_shown(program: Program, variant: Variant) -> None:
    words = said(program, replace(variant, units=UnitsChoice.CENTIMETRES, paper=Paper.A4))
    assert "Quilt 71.2 × 30.5 cm finished" in words
    assert "size: a4;" in html(program, replace(variant, paper=Paper.A4))


def test_the_file_is_tagged_and_kept(program: Program, variant: Variant, tmp_path: Path) -> None:
    from pdfua import validate

    first = document_pdf(KIND, Wish(program=program, variant=variant))
    assert document_pdf(KIND, Wish(program=program, variant=variant)) == first
    assert len(default_storage.listdir("documents")[1]) == 1
    path = tmp_path / "finishing.pdf"
    path.write_bytes(first)
    assert list(validate(str(path)).findings) == []
