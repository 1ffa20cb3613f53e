"""A program that was exported and imported again is the same in every number and every word."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from bom.domain.editions import sheet_data
from bom.domain.keeping import hash_of
from bom.domain.program_files import export_program, import_program
from bom.domain.proofs import prove_program
from bom.domain.sheets.renderings import make_draft
from bom.domain.sheets.variants import Variant
from bom.domain.yardage_report import yardage_of
from bom.enums import Paper, UnitsChoice
from tests.cast import dora

if TYPE_CHECKING:
    from bom.models import Program

NOW = datetime(2027, 1, 2, 12, tzinfo=UTC)
PROGRAMS = ("demo", "on_point_cm")

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


def stored(name: str) -> dict[str, Any]:
    return json.loads(Path(f"fixtures/programs/{name}.json").read_text())


def brought_in(data: dict[str, Any], slug: str) -> Program:
    return import_program({**data, "slug": slug}, designer=dora(), now=NOW)


def edition_hashes(program: Program) -> list[str]:
    return [hash_of(sheet_data(installment)) for installment in program.installments.all()]


@pytest.mark.parametrize("name", PROGRAMS)
def test_yardage_and_edition_hashes_are_equal(name: str) -> None:
    first = brought_in(stored(name), "first")
    second = brought_in(export_program(first), "second")
    assert yardage_of(second).as_data()["colorways"] == yardage_of(first).as_data()["colorways"]
    assert edition_hashes(second) == edition_hashes(first)


@pytest.mark.parametrize("name", PROGRAMS)
def test_the_proof_passes_and_the_sums_agree(name: str) -> None:
    program = brought_in(stored(name), name.replace("_", "-"))
    assert prove_program(program).passed
    assert yardage_of(program).reconciles


@pytest.mark.parametrize("number", [1, 6, 7, 8])
def test_sheets_on_point_and_in_centimetres_are_set(number: int) -> None:
    program = brought_in(stored("on_point_cm"), "eight-gates")
    variant = Variant(colorway=program.quilt.colorways.get(), paper=Paper.A4, units=UnitsChoice.CENTIMETRES)
    made = make_draft(program.installments.get(number=number), variant, now=NOW)
    assert made.pages > 2  # a cover, the fabrics, the steps
