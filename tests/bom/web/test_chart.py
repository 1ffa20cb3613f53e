"""The chart of a program as a page and as a PDF."""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
import pytest
from django.test import Client
from pdfua import validate

from bom.domain.sheets.chart import chart_html
from bom.enums import Paper
from bom.models import Program
from bom.permissions import get_program_for
from patterns.engine.measure import CENTIMETRE
from tests.bom.web.designers import YEAR, as_, editor_of
from tests.cast import dora, olga
from tests.factories import make_program

pytestmark = pytest.mark.django_db
FILES = ["chart/", "chart.pdf"]


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def test_every_number_stands_under_its_word(program: Program) -> None:
    page = as_(dora()).get(f"{YEAR}chart/")
    titles = [table.title for table in page.context["tables"]]
    assert titles == ["Half-square triangles", "Quarter-square triangles", "Flying geese"]
    half, quarter, geese = page.context["tables"]
    assert half.heads == ("finished", "trim to", *("cut exact", "cut oversized") * 3)
    assert [group.methods for group in half.groups][1:] == ["Eight at a time", "Four at a time"]
    assert half.rows[20].cells == ("3", "3 1/2", "3 7/8", "4", "7 3/4", "8", "5 1/2", "5 3/4")
    assert "exact, trim half-squares to" in quarter.heads
    assert "oversized, trim half-squares to" in quarter.heads
    assert geese.groups[0].methods == "Four at a time or one at a time from triangles"
    assert geese.heads[2:4] == ("cut exact, goose", "cut exact, wing")
    assert geese.rows[21].cells[-1] == "–"  # 3 1/8 in wide: corners cannot be flipped on eighths
    assert b'<th scope="col">finished</th><th scope="col">trim to</th>' in page.content


def test_the_blocks_page_leads_to_it(program: Program) -> None:
    assert f'href="{YEAR}chart/"' in as_(dora()).get(f"{YEAR}blocks/").content.decode()


def test_a_program_in_centimetres_is_charted_in_them(program: Program) -> None:
    program.centimetres, program.seam, program.cutting_step = True, CENTIMETRE * 3 / 4, CENTIMETRE / 4
    program.save()
    page = as_(dora()).get(f"{YEAR}chart/")
    assert "All sizes in centimetres" in page.content.decode()
    assert page.context["tables"][0].rows[0].cells[:2] == ("1.5", "3")


def test_the_editor_reads_it(program: Program) -> None:
    assert as_(editor_of(program)).get(f"{YEAR}chart/").status_code == 200


@pytest.mark.parametrize("path", FILES)
def test_olga_sees_what_an_unknown_program_shows(program: Program, path: str) -> None:
    mine, unknown = (as_(olga()).get(f"/program/{slug}/{path}") for slug in ("small", "nowhere"))
    assert (mine.status_code, unknown.status_code) == (404, 404)
    assert mine.content == unknown.content


@pytest.mark.parametrize("path", FILES)
def test_a_visitor_is_asked_to_sign_in(program: Program, path: str) -> None:
    answer = Client().get(YEAR + path)
    assert answer.status_code == 302
    assert answer["Location"].startswith("/sign-in/")


def test_a_paper_that_does_not_exist_is_unknown(program: Program) -> None:
    assert as_(dora()).get(f"{YEAR}chart.pdf?paper=a3").status_code == 404


@pytest.mark.slow
def test_the_pdf_is_tagged_and_the_second_asking_gives_the_same(program: Program, tmp_path: Path) -> None:
    client = as_(dora())
    answer = client.get(f"{YEAR}chart.pdf?paper=a4")
    assert answer["Content-Type"] == "application/pdf"
    assert 'filename="small-chart-a4.pdf"' in answer["Content-Disposition"]
    assert client.get(f"{YEAR}chart.pdf?paper=a4").content == answer.content
    file = tmp_path / "chart.pdf"
    file.write_bytes(answer.content)
    assert list(validate(str(file)).findings) == []
    with pikepdf.open(io.BytesIO(answer.content)) as document:
        assert document.Root.MarkInfo.Marked
        width = float(document.pages[0].MediaBox[2])
    assert round(width) == 595  # A4: 210 mm


def test_paper_is_said_to_the_printer(program: Program) -> None:
    mine = get_program_for(dora(), "small")
    letter, a4 = (chart_html(mine, paper) for paper in (Paper.LETTER, Paper.A4))
    assert "size: letter;" in letter
    assert letter.replace("size: letter;", "size: a4;") == a4
