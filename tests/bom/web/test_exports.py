"""Yardage and packets as files: the page's numbers, read back from each kind of file."""

from __future__ import annotations

import csv
import io
import subprocess
from fractions import Fraction
from pathlib import Path

import pytest
from django.test import Client
from openpyxl import load_workbook
from pdfua import validate

from bom.domain.chain import work_of
from bom.domain.packets import packets, year
from bom.domain.records import read_colorways
from bom.models import Program
from patterns.engine.measure import write_inches
from tests.bom.web.designers import YEAR, as_
from tests.cast import dora
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def expected(program: Program, name: str) -> list[tuple[str, str]]:
    """Give minimum and bought inches, line by line, straight from the packets."""
    work = work_of(program)
    if name == "yardage":
        lines = [line for each in read_colorways(program) for line in year(program, work, each)]
        return [(write_inches(line.minimum), write_inches(line.suggested)) for line in lines]
    found = [packet for each in read_colorways(program) for packet in packets(program, work, each)]
    return [
        (write_inches(line.line.minimum), write_inches(line.line.suggested))
        for packet in found
        for line in packet.lines
    ]


@pytest.mark.parametrize(("name", "column"), [("yardage", 5), ("packets", 6)])
def test_each_file_has_the_numbers_of_the_page(
    program: Program, tmp_path: Path, *, name: str, column: int
) -> None:
    client, wanted = as_(dora()), expected(program, name)
    rows = list(csv.reader(io.StringIO(client.get(f"{YEAR}{name}.csv").content.decode("utf-8-sig"))))
    assert [(row[column], row[column + 1]) for row in rows[1:]] == wanted
    sheet = load_workbook(io.BytesIO(client.get(f"{YEAR}{name}.xlsx").content)).active
    assert sheet is not None
    cells = list(sheet.iter_rows(min_row=2, values_only=True))
    assert [(write_number(row[column]), write_number(row[column + 1])) for row in cells] == wanted
    file = tmp_path / "table.pdf"
    file.write_bytes(client.get(f"{YEAR}{name}.pdf?paper=a4").content)
    assert list(validate(str(file)).findings) == []
    text = subprocess.run(
        ["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True
    ).stdout
    assert rows[1][1] in text
    assert all(minimum in text and suggested in text for minimum, suggested in wanted)


def write_number(value: object) -> str:
    assert isinstance(value, int | float)
    return write_inches(Fraction(value))  # eighths are exact in a spreadsheet's numbers


def test_other_kinds_and_papers_are_unknown(program: Program) -> None:
    client = as_(dora())
    assert client.get(f"{YEAR}yardage.doc").status_code == 404
    assert client.get(f"{YEAR}yardage.pdf?paper=a9").status_code == 404
    answer = client.get(f"{YEAR}packets.xlsx")
    assert answer["Content-Disposition"] == 'attachment; filename="small-packets.xlsx"'


def test_the_page_of_fabrics_offers_them(program: Program) -> None:
    page = as_(dora()).get(f"{YEAR}fabrics/").content.decode()
    for name in ("yardage", "packets"):
        for kind in ("csv", "xlsx", "pdf"):
            assert f'href="{YEAR}{name}.{kind}"' in page


def test_a_stranger_gets_no_file(program: Program) -> None:
    assert Client().get(f"{YEAR}packets.pdf")["Location"].startswith("/sign-in/")
