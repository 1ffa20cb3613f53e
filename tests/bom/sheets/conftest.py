"""One small program with its sheet; tests that only look at the file share it while its words stay."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from typing import TYPE_CHECKING

import pytest

from bom.domain.editions import make_edition
from bom.domain.sheets import renderings
from bom.domain.sheets.pdf import make_pdf
from bom.domain.sheets.variants import Variant
from tests.factories import make_program

if TYPE_CHECKING:
    from bom.domain.sheets.pdf import SheetFile
    from bom.models import Installment, Program, SheetEdition

NOW = datetime(2027, 1, 2, 12, tzinfo=UTC)


@pytest.fixture
def program(db: None) -> Program:
    return make_program()


@pytest.fixture
def stars(program: Program) -> Installment:
    """Give installment 2: two blocks."""
    return program.installments.get(number=2)


@pytest.fixture
def edition(stars: Installment) -> SheetEdition:
    return make_edition(stars, by=None, now=NOW)


@pytest.fixture
def variant(program: Program) -> Variant:
    return Variant(colorway=program.quilt.colorways.get(slug="harbour"))


@cache
def set_once(html: str) -> SheetFile:
    return make_pdf(html)


@pytest.fixture
def drawn(stars: Installment, variant: Variant, monkeypatch: pytest.MonkeyPatch) -> SheetFile:
    """Set the draft, or take the file that the same words gave before."""
    with monkeypatch.context() as patch:
        patch.setattr(renderings, "make_pdf", set_once)
        return renderings.make_draft(stars, variant, now=NOW)
