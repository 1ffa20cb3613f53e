"""Open strip plans are proven by the worker: one row a list, the bound rises, the plan stays."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bom.domain import strip_proofs
from bom.domain.strip_proofs import note, offers, prove_waiting
from bom.models import StripProof
from patterns.engine.strips import Demand, PlanMode, StripPlan, plan_strips
from tests.factories import make_program

pytestmark = pytest.mark.django_db

SQUARES = [Demand(label="A1", width=Fraction(5, 2), length=Fraction(5, 2), count=40)]


def open_plan(*, longer: int = 0) -> StripPlan:
    """Give the plan of 40 squares, 7 1/2 in, as if only 6 in were known to be needed."""
    plan = plan_strips(SQUARES, usable_width=Fraction(40))
    return replace(plan, lower_bound=Fraction(6), total_length=plan.total_length + longer)


def test_a_proven_plan_is_not_kept() -> None:
    plan = plan_strips(SQUARES, usable_width=Fraction(40))
    assert note(plan, SQUARES) == plan
    assert not StripProof.objects.exists()


def test_the_worker_raises_the_bound_once() -> None:
    assert not note(open_plan(), SQUARES).proven
    note(open_plan(), SQUARES)
    assert (prove_waiting(limit=5), prove_waiting(limit=5)) == (1, 0)
    assert StripProof.objects.get().bound == "15/2"
    assert note(open_plan(), SQUARES).proven


def test_a_longer_plan_stays_and_is_still_open() -> None:
    note(open_plan(longer=1), SQUARES)
    prove_waiting(limit=1)
    known = note(open_plan(longer=1), SQUARES)
    assert (known.total_length, known.lower_bound) == (Fraction(17, 2), Fraction(15, 2))


def test_other_numbers_or_another_way_to_cut_are_another_row() -> None:
    note(open_plan(), SQUARES)
    note(open_plan(), SQUARES, mode=PlanMode.STACK)
    note(open_plan(), [replace(SQUARES[0], count=41)])
    assert StripProof.objects.count() == 3


def test_a_shorter_plan_is_offered(monkeypatch: pytest.MonkeyPatch) -> None:
    program = make_program()
    assert list(offers(program)) == []
    whole = strip_proofs.packets

    def with_an_open_plan(*given: object) -> tuple[object, ...]:
        first, *others = whole(*given)  # type: ignore[arg-type]  # handed on as it came
        line = first.lines[0]
        plan = replace(line.line.plan, total_length=line.line.plan.total_length + 9, lower_bound=Fraction(1))
        line = replace(line, line=replace(line.line, plan=plan))
        return (replace(first, lines=(line, *first.lines[1:])), *others)

    monkeypatch.setattr(strip_proofs, "packets", with_an_open_plan)
    assert list(offers(program)) == []
    prove_waiting(limit=9)
    assert {offer.saved for offer in offers(program)} == {Fraction(9)}
