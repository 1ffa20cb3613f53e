"""A runner with pointed ends: one row on point, bound round six corners."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from bom.domain.chain import work_of
from bom.domain.proof_types import Result
from bom.domain.proofs import prove_program
from bom.domain.quilt_tops import quilt_top
from bom.errors import ProgramError
from bom.models import Program
from patterns.engine.binding_corners import outline_length
from patterns.engine.surds import root
from patterns.models import Quilt
from tests.bom.web.designers import as_
from tests.cast import dora
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

RUNNER = {"setting": "runner", "triangle_letter": "D", "sashing_width": "0", "border_width": "0"}


def runner(**fields: Any) -> Program:
    program = make_program(designer=dora())
    program.installments.get(number=5).parts.filter(kind="border").delete()
    Quilt.objects.filter(pk=program.quilt_id).update(**{**RUNNER, **fields})
    program.refresh_from_db()
    return program


def test_three_blocks_come_out_with_pointed_ends() -> None:
    """Three 6 in blocks on point: 18 sqrt 2 long and 6 sqrt 2 high, two tips and four blunt corners."""
    work = work_of(runner())
    assert (work.top.width, work.top.height) == (18 * root(2), 6 * root(2))
    assert len(work.top.edge) == 6
    joined = work.installment(4).parts[0]
    assert joined.fault is None
    assert joined.proof is not None
    assert joined.proof.goes_together


def test_it_is_bound_round_its_own_outline() -> None:
    """Two sides of 12 sqrt 2 and four of 6 in: less than round its rectangle."""
    work = work_of(runner())
    binding = next(part for part in work.installment(5).parts if part.corners)
    assert outline_length(work.top.edge) == 2 * 12 * root(2) + 4 * 6
    assert sorted(str(corner.kind) for corner in binding.corners) == ["blunt"] * 4 + ["square"] * 2
    assert binding.finishing is not None


def test_its_year_is_proven_whole() -> None:
    """The patches fill its outline, not its rectangle."""
    proof = prove_program(runner())
    checks = [check for month in proof.installments for check in month.checks]
    found = {finding.piece for check in checks for finding in check.findings}
    assert "area in square inches" not in found
    assert {check.name for check in checks if check.result is Result.STOP} <= {"dates"}


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"rows": 2}, "rows"),
        ({"border_width": "3"}, "border_width"),
        ({"sashing_width": "2"}, "sashing_width"),
        ({"triangle_letter": ""}, "triangle_letter"),
    ],
)
def test_what_a_runner_cannot_have_is_named(fields: dict[str, Any], field: str) -> None:
    with pytest.raises(ProgramError) as refused:
        quilt_top(Quilt.objects.get(pk=runner(**fields).quilt_id))
    assert refused.value.field == field


def test_one_block_is_no_runner() -> None:
    program = runner(columns=1)
    program.installments.get(number=2).parts.all().delete()
    program.quilt.placed_blocks.filter(column__gt=0).delete()
    with pytest.raises(ProgramError) as refused:
        quilt_top(Quilt.objects.get(pk=program.quilt_id))
    assert refused.value.field == "columns"


def test_its_pages_are_shown() -> None:
    runner()
    client = as_(dora())
    for page in ("", "blocks/", "quilt/", "4/", "5/", "fabrics/"):
        answer = client.get(f"/program/small/{page}")
        assert answer.status_code == 200, page
    assert "one row on point, its ends pointed" in client.get("/program/small/quilt/").content.decode()
    assert Fraction(6) == Quilt.objects.get().block_size
