"""The PDF of a sheet: tagged, in our fonts, at its own size, the same bytes for the same words."""

from __future__ import annotations

import io
import subprocess
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2
import pytest
from pdfua import validate

from bom.domain.sheets.content import sheet_html
from bom.domain.sheets.pdf import OURS, is_part_of_a_sheet, make_pdf
from bom.domain.sheets.renderings import make_draft
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.pdf import SheetFile
    from bom.domain.sheets.variants import Variant
    from bom.models import Installment, SheetEdition

pytestmark = pytest.mark.slow

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


def test_words_of_a_designer_are_words_and_never_tags(edition: SheetEdition, variant: Variant) -> None:
    words = "<img src='file:///etc/hostname'> & <b>bold</b>"
    for name in ("title", "story", "tips"):
        setattr(edition.installment, name, words)
    html = sheet_html(edition, variant)
    assert "<img src='file" not in html and "<b>bold" not in html
    assert html.count("&lt;b&gt;bold&lt;/b&gt;") >= 3


@pytest.mark.parametrize(
    "url",
    [
        "file:///etc/hostname",
        f"{OURS.as_uri()}/../settings.py",
        f"{OURS.as_uri()}/%2e%2e/settings.py",
        f"file://elsewhere{OURS}/css/sheet.css",
        "http://127.0.0.1:1/",
        "ftp://127.0.0.1/",
    ],
)
def test_nothing_but_our_own_folder_is_read(url: str) -> None:
    assert not is_part_of_a_sheet(url)
    assert is_part_of_a_sheet(f"{OURS.as_uri()}/css/../fonts/x.woff2")


def test_a_file_of_the_machine_is_not_attached(tmp_path: Path) -> None:
    secret = tmp_path / "secret"
    secret.write_text("not for a sheet")
    made = make_pdf(f"<html lang=en><title>x</title><link rel=attachment href='{secret.as_uri()}'><p>x")
    with pikepdf.open(io.BytesIO(made.data)) as document:
        assert not document.attachments
