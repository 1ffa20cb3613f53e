"""The code at the foot of every page: read back from the page, module by module, its quiet zone too."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pikepdf
import pypdfium2
import pytest

from bom.domain.sheets.page_codes import (
    FROM_BOTTOM,
    FROM_RIGHT,
    REPORT,
    SIDE,
    modules,
    report_address,
    with_codes,
)
from bom.domain.sheets.pdf import SheetFile
from bom.domain.sheets.renderings import make_draft
from bom.domain.sheets.variants import Variant
from bom.enums import Paper
from shops.urls import my_urls
from tests.bom.sheets.conftest import NOW

if TYPE_CHECKING:
    from typing import Any

    from bom.models import Installment, SheetEdition

pytestmark = pytest.mark.slow
FINE = 8  # pixels to a point


def read(pdf: bytes, number: int, *, count: int) -> list[list[bool]]:
    """Read the code of a page, counted from 1, at the middles of so many modules each way."""
    page = pypdfium2.PdfDocument(pdf)[number - 1]
    pixels = page.render(scale=FINE, grayscale=True).to_numpy()
    left, top = page.get_width() - FROM_RIGHT - SIDE, page.get_height() - FROM_BOTTOM - SIDE
    middles = [(at + 0.5) * SIDE / count for at in range(count)]
    at = lambda x, y: int(pixels[int((top + y) * FINE), int((left + x) * FINE)].flat[0]) < 128  # noqa: E731 -- a reader of one module
    return [[at(x, y) for x in middles] for y in middles]


@pytest.mark.parametrize("paper", [Paper.LETTER, Paper.A4])
def test_every_page_has_the_code_of_its_own_address(stars: Installment, paper: Paper, settings: Any) -> None:
    settings.SITE_URL = "https://quilts.example"
    colorway = stars.program.quilt.colorways.get(slug="harbour")
    made = make_draft(stars, Variant(colorway=colorway, paper=paper), now=NOW)
    assert made.pages > 2
    for page in range(1, made.pages + 1):
        wanted = modules(f"https://quilts.example/r/small/2/0/?page={page}")
        assert read(made.data, page, count=len(wanted)) == wanted


def test_the_address_names_program_installment_edition_and_page(edition: SheetEdition, settings: Any) -> None:
    settings.SITE_URL = "https://quilts.example/"
    assert report_address(edition) == "https://quilts.example/r/small/2/1/"
    assert report_address(edition, 4) == "https://quilts.example/r/small/2/1/?page=4"


def test_the_site_answers_at_that_address() -> None:
    answers = next(each for each in my_urls if each.name == "sheet-problem")
    names = {"program": "<slug:slug>", "number": "<int:number>", "edition": "<int:edition>"}
    assert str(answers.pattern) == REPORT.format(**names)


def test_the_same_addresses_give_the_same_bytes_and_no_other_mark(drawn: SheetFile) -> None:
    one, other = (with_codes(drawn, lambda page: f"https://quilts.example/{page}") for _ in range(2))
    assert one == other
    with pikepdf.open(io.BytesIO(one.data)) as document:
        streams = [bytes(stream.read_bytes()) for stream in document.pages[0].Contents]
    assert streams[-1].startswith(b"Q /Artifact BMC")
    assert streams[-1].endswith(b"EMC")
