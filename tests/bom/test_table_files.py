"""Tables as CSV, spreadsheet and PDF: read back, the same numbers; text stays text."""

from __future__ import annotations

import csv
import io
from decimal import Decimal
from fractions import Fraction

import pytest
from openpyxl import load_workbook

from bom.domain.sheets.tables import table_html
from bom.domain.table_files import table_csv, table_xlsx
from bom.domain.tables import Table
from bom.enums import Paper
from patterns.engine.measure import Units

Q = Fraction
RISKY = ["=1+1", "+1", "-1", "@x", "\tx", "#N/A"]


def table(*rows: tuple[object, ...], units: Units = Units.INCHES) -> Table:
    heads = tuple(f"head {n}" for n in range(len(rows[0])))
    return Table(name="x", title="List [of 1]", lead="all of it", heads=heads, rows=rows, units=units)  # type: ignore[arg-type]  # rows of any cells


def csv_rows(data: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))


def test_csv_is_read_back_as_it_is_shown() -> None:
    found = csv_rows(table_csv(table(("Fog", 3, Q(27, 2), Decimal("12.50"), None))))
    assert found == [["head 0", "head 1", "head 2", "head 3", "head 4"], ["Fog", "3", "13 1/2", "12.50", ""]]


def test_a_spreadsheet_holds_numbers_as_numbers() -> None:
    sheet = load_workbook(io.BytesIO(table_xlsx(table(("Fog", 3, Q(27, 2), Decimal("12.50"), None))))).active
    assert sheet is not None
    assert sheet.title == "List of 1"
    assert [cell.value for cell in sheet[2]] == ["Fog", 3, 13.5, 12.5, None]
    assert sheet["C2"].number_format == "# ?/?"


def test_a_length_that_a_spreadsheet_cannot_hold_is_text_and_centimetres_are_decimal() -> None:
    third = load_workbook(io.BytesIO(table_xlsx(table((Q(40, 3),))))).active
    metric = load_workbook(io.BytesIO(table_xlsx(table((Q(5, 2),), units=Units.CENTIMETRES)))).active
    assert third is not None
    assert metric is not None
    assert (third["A2"].value, metric["A2"].value) == ("13 1/3", 6.4)


@pytest.mark.parametrize("cell", RISKY)
def test_what_reads_like_a_formula_stays_text(cell: str) -> None:
    made = table((cell, 1))
    assert csv_rows(table_csv(made))[1][0] == (cell if cell.startswith("#") else f"'{cell}")
    sheet = load_workbook(io.BytesIO(table_xlsx(made))).active
    assert sheet is not None
    assert (sheet["A2"].data_type, sheet["A2"].value) == ("s", cell.lstrip("\t"))


def test_on_paper_numbers_stand_under_their_heads() -> None:
    html = table_html(table(("<Fog>", 3, Q(27, 2))), Paper.A4)
    assert '<th scope="col" class="n">head 2</th>' in html
    assert '<th scope="row">&lt;Fog&gt;</th><td class="n">3</td><td class="n">13 1/2</td>' in html
    assert "size: a4 landscape" in html
