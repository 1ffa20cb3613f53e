"""The PDF of a sheet: tagged, in our fonts, at its own size, the same bytes for the same words."""

from __future__ import annotations

import io
import subprocess
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2
import pytest
from pdfua import validate

from bom.domain.sheets.renderings import make_draft
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.pdf import SheetFile
    from bom.domain.sheets.variants import Variant
    from bom.models import Installment

OUR_FONTS = ("Atkinson", "Vollkorn")
INCH, THREE_CM = 72.0, 85.039  # pt; ISO 32000-1: 1 pt = 1/72 in


@pytest.fixture
def on_disk(drawn: SheetFile, tmp_path: Path) -> Path:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(drawn.data)
    return path


def test_the_same_sheet_gives_the_same_bytes(stars: Installment, variant: Variant, drawn: SheetFile) -> None:
    assert make_draft(stars, variant, now=NOW).data == drawn.data


def test_only_our_fonts_are_in_the_file(on_disk: Path) -> None:
    rows = subprocess.run(["pdffonts", on_disk], capture_output=True, text=True, check=True).stdout
    fonts = [row.split()[0] for row in rows.splitlines()[2:]]
    assert fonts
    assert [font for font in fonts if not any(ours in font for ours in OUR_FONTS)] == []


def test_sizes_are_read_as_plain_text(on_disk: Path) -> None:
    text = subprocess.run(
        ["pdftotext", "-layout", on_disk, "-"], capture_output=True, text=True, check=True
    ).stdout
    plain = text.replace("\N{NO-BREAK SPACE}", " ").replace("\N{FRACTION SLASH}", "/")
    assert "6 1/2" in plain  # the blocks, unfinished: 6 + 2 x 1/4
    assert "Two Boats" in plain


def test_it_is_tagged_titled_and_asks_for_no_scaling(drawn: SheetFile) -> None:
    with pikepdf.open(io.BytesIO(drawn.data)) as document:
        assert document.Root.MarkInfo.Marked
        assert document.Root.Lang == "en"
        assert document.Root.ViewerPreferences.PrintScaling == "/None"
        assert "Two Boats" in str(document.docinfo["/Title"])


def test_a_checker_of_accessibility_finds_no_error(on_disk: Path) -> None:
    assert list(validate(str(on_disk)).findings) == []


def test_test_squares_measure_an_inch_and_three_centimetres(drawn: SheetFile) -> None:
    page = pypdfium2.PdfDocument(drawn.data)[0]
    bounds = [item.get_bounds() for item in page.get_objects(max_depth=9) if item.type == 2]
    boxes = [(right - left, top - bottom) for left, bottom, right, top in bounds]
    line = 1.2  # pt; PDFium adds the whole width of a stroke, 0.6 pt, on every side
    widths = [width - line for width, height in boxes if abs(width - height) < 0.01]
    for side in (INCH, THREE_CM):
        assert any(abs(width - side) <= 0.01 for width in widths), widths
