"""The supply list: the year in amounts, months, tools, from the same numbers as packets and sheets."""

from __future__ import annotations

import re
from datetime import date
from html import unescape
from typing import TYPE_CHECKING

import pytest

from bom.domain.chain import work_of
from bom.domain.packets import packets, year
from bom.domain.sheets.document_kinds import document_pdf, said_in
from bom.domain.sheets.documents import Wish
from bom.domain.sheets.supplies import supplies_content
from bom.domain.sheets.variants import Variant
from bom.enums import Document
from patterns.domain.wording import fabric_text
from patterns.engine.measure import up_to_eighth_yard

if TYPE_CHECKING:
    from pathlib import Path

    from bom.models import Program

pytestmark = pytest.mark.slow
NAMES = ("background", "star", "accent", "frame", "binding", "backing")


@pytest.fixture
def wish(program: Program, variant: Variant) -> Wish:
    return Wish(program=program, variant=variant)


def plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", "", html.replace("><", "> <"))).split())


def test_the_year_takes_what_all_packets_hold(program: Program, wish: Wish) -> None:
    rows = supplies_content(wish)["fabrics"]
    found = year(program, work_of(program), wish.variant.colorway)
    assert [row.name for row in rows] == [line.fabric.name for line in found]
    assert [plain(str(row.takes)).split(",")[0] for row in rows] == [
        fabric_text(up_to_eighth_yard(line.suggested)).replace("/", "⁄") for line in found
    ]
    backing = next(row for row in rows if row.name == "Tidewater backing")
    assert backing.takes == backing.finishing != ""


def test_two_letters_of_one_fabric_are_one_row(program: Program) -> None:
    meadow = Variant(colorway=program.quilt.colorways.get(slug="meadow"))
    rows = supplies_content(Wish(program=program, variant=meadow))["fabrics"]
    shared = next(row for row in rows if len(row.swatches) == 2)
    assert [letter for _address, letter in shared.swatches] == ["C", "D"]
    assert shared.role == "accent, frame"


def test_every_month_has_its_day_and_its_packet(program: Program, wish: Wish) -> None:
    program.installments.filter(number=1).update(wall_day=date(2027, 1, 16))
    rows = supplies_content(wish)["months"]
    held = packets(program, work_of(program), wish.variant.colorway)
    assert [len(row.holds) for row in rows] == [len(packet.lines) for packet in held]
    assert [row.is_finishing for row in rows] == [False, False, False, True, True]
    words = plain(said_in(Document.SUPPLIES, wish))
    assert "1 First Light Sat 16 Jan 2027" in words
    assert "2 Two Boats to be told" in words
    assert "3 Catch Up to be told no packet: a month to catch up" in words


def test_tools_are_those_that_are_asked_for(program: Program, wish: Wish) -> None:
    words = plain(said_in(Document.SUPPLIES, wish))
    assert "a foot for a seam" not in words
    assert "sewing machine with a guide or foot for a seam of 1⁄4 in" in words
    assert "a line at 45 degrees" in words  # for the triangles of the stars
    assert "clips or pins and a hand needle" in words
    assert "templates" not in words
    assert "batting, 36 × 20 in. Batting in a pack: 34 × 45 in is large enough." in words
    program.installments.get(number=5).parts.all().delete()
    assert "hand needle" not in plain(said_in(Document.SUPPLIES, wish))


def test_washing_is_told_as_the_program_counts_it(program: Program, wish: Wish) -> None:
    assert "Wash all fabrics or none." in plain(said_in(Document.SUPPLIES, wish))
    program.prewash = True
    program.save()
    assert "Wash all fabrics before you cut" in plain(said_in(Document.SUPPLIES, wish))


def test_cost_stands_there_only_where_it_is_known(wish: Wish) -> None:
    assert "What it costs" not in said_in(Document.SUPPLIES, wish)


def test_a_shops_substitute_counts_from_its_month(program: Program, wish: Wish) -> None:
    """From installment 4 on the other colorway stands in: its one fabric for C and D joins the rows."""
    meadow = program.quilt.colorways.get(slug="meadow")
    own = Wish(program=program, variant=wish.variant, own={4: meadow, 5: meadow})
    before, after = supplies_content(wish)["fabrics"], supplies_content(own)["fabrics"]
    assert [row.name for row in before] == [f"Tidewater {name}" for name in NAMES]
    assert [row.name for row in after] == [f"Tidewater {name}" for name in NAMES if name != "frame"]


def test_the_file_is_tagged_and_the_second_is_the_same(wish: Wish, tmp_path: Path) -> None:
    from pdfua import validate

    made = document_pdf(Document.SUPPLIES, wish)
    assert document_pdf(Document.SUPPLIES, wish) == made
    path = tmp_path / "supplies.pdf"
    path.write_bytes(made)
    assert list(validate(str(path)).findings) == []
