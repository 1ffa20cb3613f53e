"""One small program with its sheet, set once for the tests that only look at the file."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from bom.domain.editions import make_edition
from bom.domain.sheets.renderings import make_draft
from bom.domain.sheets.variants import Variant
from tests.factories import make_program

if TYPE_CHECKING:
    from bom.domain.sheets.pdf import SheetFile
    from bom.models import Installment, Program, SheetEdition

NOW = datetime(2027, 1, 2, 12, tzinfo=UTC)
SET_ONCE: list[SheetFile] = []


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


@pytest.fixture
def drawn(request: pytest.FixtureRequest, db: None) -> SheetFile:
    """Give the draft of installment 2; it is set by the first test that looks at it."""
    if not SET_ONCE:
        stars, variant = request.getfixturevalue("stars"), request.getfixturevalue("variant")
        SET_ONCE.append(make_draft(stars, variant, now=NOW))
    return SET_ONCE[0]
