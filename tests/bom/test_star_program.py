"""A program with a block of diamonds, from the drawing to packets: what is cut, planned and proven."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from bom.domain.chain import work_of
from bom.domain.packets import packet
from bom.domain.proofs import Result, prove_program
from bom.domain.reconciling import area_sewn, year_faults
from bom.domain.sheets.rows import cut_words
from bom.domain.sheets.variants import Variant
from bom.models import Program
from patterns.models import Block, Quilt
from tests.engine.fitted_samples import drawing_of, eight_point_star
from tests.factories import make_program

pytestmark = pytest.mark.django_db

Q = Fraction


def star_program() -> Program:
    """Draw the Ohio Star of the first month anew, as a star of eight diamonds, 6 in finished."""
    program = make_program()
    drawing: dict[str, Any] = {"name": "Ohio Star", **drawing_of(eight_point_star())}
    Block.objects.filter(slug="ohio-star").update(drawing=drawing)
    return program


def test_star_goes_together_and_every_sum_agrees() -> None:
    program = star_program()
    work = work_of(program)
    (star,) = work.installment(1).parts
    assert star.proof is not None
    assert (star.proof.goes_together, star.proof.patches_right) == (True, 16)
    assert area_sewn(work) == 28 * 12
    assert list(year_faults(work, Quilt.objects.get(pk=program.quilt_id))) == []


def test_diamonds_are_planned_as_strips() -> None:
    """Edges of 6 - 3 sqrt 2 in: strips of (3 sqrt 2 - 3) + 1/2 in, 1.7426 in, from 1 3/4 in.

    Eight cut 1 3/4 in wide at 45 degrees take 8 x 1 3/4 sqrt 2 + 1 3/4 in, 21.55 in, of a strip.
    """
    program = star_program()
    work = work_of(program)
    pieces = {piece.id: piece for cut in work.installment(1).pieces.values() for piece in cut}
    assert (pieces["A1"].width, pieces["A1"].length, pieces["A1"].count) == (Q(7, 4), Q(173, 8), 1)
    lines = packet(program, work, program.quilt.colorways.first(), 1).lines
    line = next(line for line in lines if "A" in line.letters)
    assert line.line.plan is not None
    assert line.line.minimum == Q(7, 4)


def test_proof_of_the_program_stops_at_nothing() -> None:
    proof = prove_program(star_program())
    month = proof.installments[0]
    assert [check.name for check in month.checks if check.result is Result.STOP] == []


def test_cutting_table_names_the_strip() -> None:
    program = star_program()
    variant = Variant(colorway=program.quilt.colorways.get(slug="harbour"))
    (piece, *_) = work_of(program).installment(1).pieces["A"]
    words = cut_words(piece, variant).replace("\N{NO-BREAK SPACE}", " ")
    assert (words, piece.then) == ("1 strip, 1 3/4 × 21 5/8 in", "cut into slanting pieces")


def test_cutting_table_names_template_and_rectangle() -> None:
    """A star of 10 in: no mark of the ruler is near 2.571 in from above."""
    program = star_program()
    program.quilt.block_size = 10
    program.quilt.save()
    variant = Variant(colorway=program.quilt.colorways.get(slug="harbour"))
    (piece, *_) = work_of(program).installment(1).pieces["A"]
    words = cut_words(piece, variant).replace("\N{NO-BREAK SPACE}", " ")
    assert words == "8 with template A1, each from a rectangle 2 5/8 × 6 1/4 in"
