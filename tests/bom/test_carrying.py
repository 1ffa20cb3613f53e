"""Carried fabric: a line of the earlier packet, never a duty found later; the year stays the quilt."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import chain
from typing import TYPE_CHECKING

import pytest
from django.utils import timezone

from bom.domain.carrying import may_carry
from bom.domain.chain import work_of
from bom.domain.changes import change, take_back
from bom.domain.editions import sheet_data
from bom.domain.freezing import freeze_fabric
from bom.domain.packet_checks import carried_is_kept
from bom.domain.packets import Packet, packet, packets, year
from bom.domain.program_files import export_program, import_program
from bom.domain.proofs import prove_program
from bom.domain.yardage_report import yardage_of
from bom.domain.yardage_tables import packets_table
from bom.errors import BadProgramFile, FabricIsFrozen, ProgramError
from tests.cast import dora, person
from tests.factories import make_program

if TYPE_CHECKING:
    from bom.models import Program
    from patterns.models import Colorway

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

NOW = timezone.now()


@pytest.fixture
def program() -> Program:
    """Give the small program: letter A is in the blocks of 1 and 2 and in the border of 5."""
    return make_program(designer=dora())


def carry(program: Program, number: int, **letters: int) -> None:
    program.installments.filter(number=number).update(carried=letters)


def first_colorway(program: Program) -> Colorway:
    found: Colorway = program.quilt.colorways.get(slug="harbour")
    return found


def packed(program: Program, number: int) -> Packet:
    return packet(program, work_of(program), first_colorway(program), number)


def letters(found: Packet) -> list[str]:
    return list(chain.from_iterable(line.letters for line in found.lines))


def pieces(found: Packet) -> Counter[str]:
    return Counter({piece.id: piece.count for line in found.lines for piece in line.pieces})


def test_the_pieces_join_the_earlier_packet_and_leave_the_later_one(program: Program) -> None:
    own, later = packed(program, 1), packed(program, 2)
    carry(program, 2, B=1)
    line = next(line for line in packed(program, 1).lines if "B" in line.letters)
    assert letters(packed(program, 2)) == [letter for letter in letters(later) if letter != "B"]
    kept = {f"{name} (2)": count for name, count in pieces(later).items() if name.startswith("B")}
    assert pieces(packed(program, 1)) == pieces(own) + Counter(kept)
    assert line.kept_for == (2,)
    assert kept.keys() <= {demand.label for demand in line.demands}


def test_a_packet_may_hold_a_letter_that_it_does_not_sew(program: Program) -> None:
    carry(program, 5, E=1)
    assert letters(packed(program, 1)) == ["A", "B", "C", "E"]
    assert letters(packed(program, 5)) == ["A", "F"]
    line = packed(program, 1).lines[-1]
    assert line.line.minimum == Fraction(15, 2)  # three strips of 2 1/2 in, as in the packet of the binding


def test_long_strips_stay_strips_across_the_fabric(program: Program) -> None:
    before = packed(program, 5).lines[0]
    carry(program, 5, A=4)
    line = packed(program, 4).lines[0]
    assert [each.count for each in line.strips] == [each.count for each in before.strips]
    assert line.line.minimum == before.line.minimum


def test_packets_of_the_year_still_sum_to_the_quilt(program: Program) -> None:
    before = {line.fabric: line.pieces for line in year(program, work_of(program), first_colorway(program))}
    carry(program, 2, A=1, B=1)
    carry(program, 5, A=2, E=4)
    after = {line.fabric: line.pieces for line in year(program, work_of(program), first_colorway(program))}
    assert after == before
    assert yardage_of(program).reconciles


def test_carrying_never_takes_more_fabric_than_two_cuts(program: Program) -> None:
    """One plan of both lists is at most as long as the two plans after each other."""
    apart = year(program, work_of(program), first_colorway(program))
    carry(program, 2, A=1, B=1)
    together = year(program, work_of(program), first_colorway(program))
    lengths = {line.fabric: line.minimum for line in apart}
    assert all(line.minimum <= lengths[line.fabric] for line in together)


def test_the_proof_passes_with_carried_fabric(program: Program) -> None:
    carry(program, 2, A=1, B=1)
    carry(program, 5, A=2, E=4)
    stops = [
        (month.number, check.name, check.findings)
        for month in prove_program(program).installments
        for check in month.checks
        if check.result == "stop" and check.name != "dates"
    ]
    assert stops == []


def test_the_proof_stops_where_the_earlier_packet_lacks_what_is_carried(program: Program) -> None:
    """A packet worked out before the letter was carried holds nothing for installment 2."""
    bare = [packed(program, 1)]
    carry(program, 2, B=1)
    month, held = work_of(program).installment(2), [packed(program, 1)]
    assert carried_is_kept(month, {1: held}).result == "passed"
    missing = carried_is_kept(month, {1: bare})
    assert missing.result == "stop"
    assert {(each.piece, each.found) for each in missing.findings} == {
        (f"{piece.id} (2)", "0") for piece in month.pieces["B"]
    }


def test_a_packet_that_is_not_earlier_is_refused(program: Program) -> None:
    for number in (2, 3, 9):
        carry(program, 2, B=number)
        with pytest.raises(ProgramError, match="not earlier"):
            work_of(program)


def test_a_letter_that_is_not_cut_carries_nothing(program: Program) -> None:
    before = work_of(program).installment(3)
    carry(program, 3, B=1)
    assert work_of(program).installment(3) == before
    assert may_carry(before) == ()


def test_backing_is_never_carried(program: Program) -> None:
    assert may_carry(work_of(program).installment(5)) == ("A", "E")


def test_a_change_tells_the_needs_before_and_after_and_is_taken_back(program: Program) -> None:
    done = change(program, "carried:5", {"E": 1}, by=dora(), now=NOW)
    assert done.followed == ("Letter E of Finishing is cut from packet 1 and kept.",)
    both = [(need.number, need.letters) for need in done.needs if need.colorway == "harbour"]
    assert both == [(1, ("E",)), (5, ("E",))]
    assert done.needs[0].before[0] == 0
    take_back(program, done.as_data(), by=dora(), now=NOW)
    assert program.installments.get(number=5).carried == {}


def test_after_the_fabric_freeze_nothing_is_carried_anew_or_given_back(program: Program) -> None:
    carry(program, 2, B=1)
    for installment in program.installments.all():
        installment.save()
    freeze_fabric(program, by=dora(), now=NOW)
    for values in ({}, {"B": 1, "A": 1}):
        with pytest.raises(FabricIsFrozen) as caught:
            change(program, "carried:2", values, by=dora(), now=NOW)
        assert "carried" in {each.what for each in caught.value.facts["breaks"]} or values == {}


def test_the_sheets_of_both_installments_say_it(program: Program) -> None:
    plain = sheet_data(program.installments.get(number=1))
    assert not {"carried", "kept"} & plain.keys()
    carry(program, 2, B=1)
    assert sheet_data(program.installments.get(number=1))["kept"][0][:2] == [2, "B"]
    assert sheet_data(program.installments.get(number=2))["carried"] == {"B": 1}


def test_the_program_file_carries_it_in_and_out(program: Program) -> None:
    carry(program, 2, B=1)
    data = {**export_program(program), "slug": "again"}
    made = import_program(data, designer=person("Dunja"), now=NOW)
    assert made.installments.get(number=2).carried == {"B": 1}
    written = export_program(made)["installments"]
    assert [each.get("carried") for each in written] == [None, {"B": 1}, None, None, None]
    lengths = [
        [line.suggested for line in year(each, work_of(each), each.quilt.colorways.get(slug="harbour"))]
        for each in (program, made)
    ]
    assert lengths[0] == lengths[1]


@pytest.mark.parametrize(
    ("number", "carried"), [(1, {"A": 1}), (2, {"B": 2}), (2, {"B": "1"}), (2, {"B": 0})]
)
def test_a_program_file_that_carries_from_a_later_packet_is_refused(
    program: Program, number: int, carried: dict[str, object]
) -> None:
    data = {**export_program(program), "slug": "again"}
    data["installments"][number - 1]["carried"] = carried
    with pytest.raises(BadProgramFile, match=r"."):
        import_program(data, designer=person("Dunja"), now=NOW)


def test_each_packet_is_worked_out_alike_twice(program: Program) -> None:
    carry(program, 2, A=1)
    work = work_of(program)
    assert packets(program, work, first_colorway(program)) == packets(program, work, first_colorway(program))


def test_the_table_of_packets_says_what_else_a_cut_is_for(program: Program) -> None:
    carry(program, 2, B=1)
    table = packets_table(program)
    assert table.heads[-1] == "also for installment"
    kept = [(row[1], row[3], row[-1]) for row in table.rows if row[0] == "Harbour" and row[-1]]
    assert kept == [(1, "B", "2")]
