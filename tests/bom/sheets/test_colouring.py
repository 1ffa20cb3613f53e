"""The colouring page: outlines and letters, nothing of the colours."""

from __future__ import annotations

import base64
import io
import re
from typing import TYPE_CHECKING

import pikepdf
import pytest

from bom.domain.chain import work_of
from bom.domain.sheets.colouring import colouring_content
from bom.domain.sheets.document_kinds import document_pdf
from bom.domain.sheets.documents import Wish
from bom.enums import Document
from tests.factories import COLOURS

if TYPE_CHECKING:
    from pathlib import Path

    from bom.domain.sheets.variants import Variant
    from bom.models import Program

pytestmark = pytest.mark.slow


@pytest.fixture
def wish(program: Program, variant: Variant) -> Wish:
    return Wish(program=program, variant=variant)


def test_no_cloth_is_in_it_and_every_letter_of_the_top_is(program: Program, wish: Wish) -> None:
    content = colouring_content(wish)
    svg = base64.b64decode(content["picture"].partition("base64,")[2]).decode()
    assert not any(colour.lower() in svg.lower() for colour in COLOURS.values())
    assert [letter for letter, _role in content["letters"]] == ["A", "B", "C", "D"]  # no binding, no backing
    shown = set(re.findall(r">([A-Z])</text>", svg))
    assert shown == set(work_of(program).top.drawing.letters)


def test_it_is_one_page(wish: Wish, tmp_path: Path) -> None:
    from pdfua import validate

    made = document_pdf(Document.COLOURING, wish)
    assert document_pdf(Document.COLOURING, wish) == made
    with pikepdf.open(io.BytesIO(made)) as document:
        assert len(document.pages) == 1
    path = tmp_path / "colouring.pdf"
    path.write_bytes(made)
    assert list(validate(str(path)).findings) == []
