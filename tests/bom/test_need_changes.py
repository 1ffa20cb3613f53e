"""What a change does to the fabric: method, size, width, colorway, fabric by fabric."""

from __future__ import annotations

from fractions import Fraction

import pytest

from bom.domain.changes import change
from bom.domain.effects import needs_changed, numbers_of
from bom.domain.need_changes import NeedChange, need_changes
from bom.models import AuditEntry, Program
from patterns.models import Fabric
from tests.bom.web.designers import NOW, placed
from tests.cast import dora
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

Q = Fraction


@pytest.fixture
def program() -> Program:
    return make_program(designer=dora())


def need(minimum: str, suggested: str, *letters: str) -> dict[str, object]:
    return {"letters": list(letters), "minimum": minimum, "suggested": suggested, "bound": minimum}


def test_lines_are_compared_by_colorway_installment_and_fabric() -> None:
    before = {"harbour": {"2": {"1 Fog": need("8", "9", "A"), "2 Kelp": need("4", "9", "B")}}}
    after = {"harbour": {"2": {"1 Fog": need("10", "27/2", "A")}, "10": {"3 Rope": need("1", "9/2", "C")}}}
    assert [(each.number, each.cloth, each.before, each.after) for each in need_changes(before, after)] == [
        (2, "1 Fog", (8, 9), (10, Q(27, 2))),
        (2, "2 Kelp", (4, 9), (0, 0)),
        (10, "3 Rope", (0, 0), (1, Q(9, 2))),
    ]
    assert [each.rises for each in need_changes(before, after)] == [True, False, True]
    assert need_changes(after, after) == ()


def test_plain_data_is_read_back() -> None:
    (found,) = need_changes({}, {"harbour": {"2": {"1 Fog": need("10", "27/2", "A")}}})
    assert NeedChange.from_data(found.as_data()) == found


def test_a_wider_border_changes_the_finishing_only(program: Program) -> None:
    done = change(program, "quilt", {"border_width": "5"}, by=dora(), now=NOW)
    assert {each.number for each in done.needs} <= {5}
    assert {each.colorway for each in done.needs} == {"harbour", "meadow"}
    (entry,) = AuditEntry.objects.filter(verb="changed quilt")
    assert [NeedChange.from_data(data) for data in entry.facts["needs"]] == list(done.needs)


def test_another_method_changes_its_own_packet(program: Program) -> None:
    block = placed(program, "Ohio Star")
    values = {
        "own_size": None,
        "frame_letter": "",
        "turn": 0,
        "letters": block.letters,
        "chosen": ["from triangles"] * 3,
    }
    before = numbers_of(program)
    done = change(program, f"block:{block.pk}", values, by=dora(), now=NOW)
    assert {each.number for each in done.needs} <= {1}
    assert done.needs == needs_changed(before, numbers_of(program))


def test_narrower_cloth_is_seen_in_every_packet_that_holds_it(program: Program) -> None:
    before = numbers_of(program)
    Fabric.objects.update(usable_width="20")
    found = needs_changed(before, numbers_of(program))
    assert found
    assert all(each.after[0] >= each.before[0] for each in found)
