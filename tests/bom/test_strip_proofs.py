"""Open strip plans are proven by the worker: one row a list, the bound rises, the plan stays."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest
from django.utils import timezone

from bom.domain import strip_proofs
from bom.domain.chain import work_of
from bom.domain.frozen_state import present_state
from bom.domain.packets import packets
from bom.domain.strip_proofs import note, note_packets, offers, prove_waiting
from bom.models import StripProof
from bom.web import packet_rows
from patterns.engine.strips import Demand, PlanMode, StripPlan, plan_strips
from tests.factories import make_program

if TYPE_CHECKING:
    from collections.abc import Callable
    from contextlib import AbstractContextManager

    from bom.domain.packets import FabricLine, Packet

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


def with_open_plans(line: FabricLine, *, longer: int = 0) -> FabricLine:
    """Give a line as if only an inch of it were known to be needed, and as if its plan were longer."""
    assert line.line.plan is not None
    plan = replace(line.line.plan, total_length=line.line.plan.total_length + longer, lower_bound=Fraction(1))
    return replace(line, line=replace(line.line, plan=plan))


def test_packets_keep_their_open_lists_once_in_two_queries(
    django_assert_num_queries: Callable[[int], AbstractContextManager[object]],
) -> None:
    program = make_program()
    colorway = program.quilt.colorways.get(slug="harbour")
    listed = packets(program, work_of(program), colorway)
    with django_assert_num_queries(0):
        assert note_packets(listed) == 0
    first, *others = listed
    first = replace(first, lines=tuple(with_open_plans(line) for line in first.lines))
    with django_assert_num_queries(2):
        assert note_packets([first, *others]) == len(first.lines)
    with django_assert_num_queries(1):
        note_packets([first])
    assert StripProof.objects.count() == len(first.lines)


def test_after_the_freeze_the_offer_is_against_what_was_frozen() -> None:
    """The frozen packet is a yard longer than what would be planned now."""
    program = make_program()
    program.frozen_at, program.frozen_need = timezone.now(), present_state(program).needs
    assert list(offers(program)) == []
    need = program.frozen_need["harbour"]["1"]["TW-1 Tidewater background"]
    need["minimum"] = str(Fraction(need["minimum"]) + 36)
    (offer,) = offers(program)
    assert (offer.number, offer.letters, offer.saved) == (1, ("A",), Fraction(36))
    program.frozen_at = None
    assert list(offers(program)) == []


def test_the_page_of_an_installment_keeps_its_open_plans(monkeypatch: pytest.MonkeyPatch) -> None:
    program = make_program()
    whole = packet_rows.packet

    def opened(*given: object) -> Packet:
        found = whole(*given)  # type: ignore[arg-type]  # handed on as it came
        return replace(found, lines=tuple(with_open_plans(line) for line in found.lines))

    monkeypatch.setattr(packet_rows, "packet", opened)
    packet_rows.packet_rows(program, work_of(program), list(program.quilt.colorways.all()), number=1)
    assert StripProof.objects.filter(is_tried=False).count() == 3  # both colorways are cut alike
    assert prove_waiting(limit=9) == 3
