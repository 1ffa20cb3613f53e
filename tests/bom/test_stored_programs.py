"""The program files that are kept here: each is proved, reconciles, and is packed to the last piece."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings

from bom.domain.chain import work_of
from bom.domain.program_files import import_program
from bom.domain.proofs import prove_program
from bom.domain.reconciling import area_sewn
from bom.domain.yardage_report import yardage_of
from bom.models import Program
from tests.factories import make_user

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

FILES = sorted((Path(settings.BASE_DIR) / "fixtures" / "programs").glob("*.json"))


@pytest.fixture(params=FILES, ids=lambda path: path.stem)
def program(request: pytest.FixtureRequest) -> Program:
    data = json.loads(request.param.read_text(encoding="utf-8"))
    return import_program(data, designer=make_user(), now=datetime(2026, 1, 1, tzinfo=UTC))


def test_goes_together_reconciles_and_fills_the_quilt(
    program: Program, django_assert_max_num_queries: Any
) -> None:
    proof = prove_program(program)
    stops = [
        (month.number, check.name, check.findings)
        for month in proof.installments
        for check in month.checks
        if check.result == "stop"
    ]
    assert (stops, proof.passed) == ([], True)
    work = work_of(program)
    assert area_sewn(work) == work.top.width * work.top.height
    with django_assert_max_num_queries(14):  # as few as a program of three blocks
        report = yardage_of(program)
    assert report.reconciles
    listed = sum(piece.count for month in work.installments for cut in month.pieces.values() for piece in cut)
    for colorway in report.colorways:
        assert sum(line.pieces for line in colorway.year) == listed
        assert all(line.minimum < line.suggested for line in colorway.year)
