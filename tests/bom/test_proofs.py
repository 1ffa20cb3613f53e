"""The proof passes on what is right, and says where and why on what is not."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from datetime import date
from fractions import Fraction
from typing import Any

import pytest

from bom.domain.chain import work_of
from bom.domain.proofs import Check, ProgramProof, Result, prove_program, prove_recipe
from bom.domain.sewing_checks import goes_together, rows_add_up, sizes_stand
from bom.domain.work import InstallmentWork, PartWork
from bom.models import Program
from patterns.engine.measure import Units
from patterns.models import Block, ColorwayFabric, Fabric, PlacedBlock, Quilt
from tests.factories import make_program

pytestmark = pytest.mark.django_db

Data = dict[str, Any]
CHECKS = [
    "goes together",
    "sizes",
    "rows add up",
    "pieces reconcile",
    "letters",
    "packet",
    "left over",
    "narrow fabric",
    "centimetres",
    "colorways",
    "dates",
    "words",
]
# Two geese that mirror each other: wings C and D change sides.
HANDED = {
    "name": "Two Geese",
    "grid": [2, 2],
    "patches": [
        {"fabric": "A", "points": [[0, 1], [1, 0], [2, 1]]},
        {"fabric": "C", "points": [[0, 0], [1, 0], [0, 1]]},
        {"fabric": "D", "points": [[1, 0], [2, 0], [2, 1]]},
        {"fabric": "A", "points": [[0, 2], [1, 1], [2, 2]]},
        {"fabric": "D", "points": [[0, 1], [1, 1], [0, 2]]},
        {"fabric": "C", "points": [[1, 1], [2, 1], [2, 2]]},
    ],
}


def check(proof: ProgramProof, number: int, name: str) -> Check:
    (found,) = [
        check
        for month in proof.installments
        if month.number == number
        for check in month.checks
        if check.name == name
    ]
    return found


def test_every_check_of_the_small_program_passes() -> None:
    proof = prove_program(make_program())
    assert proof.passed
    assert [[each.name for each in month.checks] for month in proof.installments] == [
        *[CHECKS] * 4,
        [*CHECKS, "the year adds up"],
    ]
    assert {each.result for month in proof.installments for each in month.checks} == {Result.PASSED}
    fact = check(proof, 2, "goes together").fact
    assert fact.facts == {"right": 26, "patches": 26}


def test_as_data_is_what_the_command_prints() -> None:
    data = prove_program(make_program()).as_data("small")
    assert (data["program"], data["passed"]) == ("small", True)
    assert data["installments"][0]["checks"][0] == {
        "name": "goes together",
        "result": "passed",
        "findings": [],
    }


# Faults of a sheet: one number, letter, hand or step changed in the data that is printed


def part_of(program: Program, number: int = 2) -> tuple[InstallmentWork, PartWork]:
    month = work_of(program).installment(number)
    return month, month.parts[0]


def spoiled(month: InstallmentWork, part: PartWork, spoil: Callable[[Data], object]) -> Check:
    """Spoil a copy of the recipe's data, and prove it in place of the right one."""
    assert part.recipe is not None
    assert part.drawing is not None
    data = deepcopy(part.recipe.as_data())
    spoil(data)
    proof = prove_recipe(data, part.drawing)
    return goes_together(replace(month, parts=(replace(part, proof=proof),)))


def piece(data: Data, name: str) -> Data:
    (found,) = [row for row in data["pieces"] if row["id"] == name]
    return found


def cut_smaller(data: Data) -> None:
    piece(data, "C1")["width"] = str(Fraction(piece(data, "C1")["width"]) - Fraction(1, 8))


def one_less(data: Data) -> None:
    piece(data, "B2")["count"] -= 1


def another_letter(data: Data) -> None:
    piece(data, "C1")["fabric"] = "B"


def trim_to_less(data: Data) -> None:
    """Trim the geese 1/8 in narrower."""
    text = str(data["steps"][0]["operations"])
    assert "trim" in text
    for operation in data["steps"][0]["operations"]:
        gives = operation["gives"]
        for row in gives if isinstance(gives, list) else [gives]:
            if isinstance(row, dict) and "trim" in row:
                row["trim"]["width"] = str(Fraction(row["trim"]["width"]) - Fraction(1, 8))


def steps_exchanged(data: Data) -> None:
    data["steps"] = [data["steps"][-1], *data["steps"][1:-1], data["steps"][0]]


@pytest.mark.parametrize(
    ("spoil", "where"),
    [
        (cut_smaller, "C1"),
        (one_less, "B2"),
        (another_letter, "C1"),
        (trim_to_less, "geese-1"),
        (steps_exchanged, ""),
    ],
)
def test_one_changed_number_stops_with_its_place(spoil: Callable[[Data], object], where: str) -> None:
    month, part = part_of(make_program(house_style="exact"))
    found = spoiled(month, part, spoil)
    assert found.result is Result.STOP
    assert all(finding.step.startswith("Sawtooth Star") for finding in found.findings)
    assert any(where in finding.piece for finding in found.findings), found.findings


def test_the_other_hand_stops() -> None:
    """The geese are each other's mirror image; exchanged, every wing has the wrong fabric."""
    program = make_program()
    placed = PlacedBlock.objects.get(quilt=program.quilt, column=0)
    Block.objects.filter(pk=placed.block_id).update(drawing=HANDED)
    PlacedBlock.objects.filter(pk=placed.pk).update(letters={letter: letter for letter in "ACD"})
    month, part = part_of(program, 1)
    assert part.recipe is not None, part.fault
    assert sorted(row.hand.value for row in part.recipe.units) == ["left", "right"]

    def exchange(data: Data) -> None:
        rows = data["steps"][-1]["operations"][-1]["rows"]
        (first, second) = [cell for row in rows for cell in row]
        first[0], second[0] = second[0], first[0]

    assert goes_together(month).result is Result.PASSED
    found = spoiled(month, part, exchange)
    assert found.result is Result.STOP
    assert {finding.expected.split(" ")[0] for finding in found.findings} >= {"C", "D"}


def test_a_printed_trim_size_that_is_not_two_seams_more_stops() -> None:
    month, part = part_of(make_program())
    assert part.recipe is not None
    first, *others = part.recipe.units
    wrong = replace(part.recipe, units=(replace(first, trim_to=(Fraction(3), Fraction(2))), *others))
    found = sizes_stand(replace(month, parts=(replace(part, recipe=wrong),)), units=Units.INCHES)
    assert found.result is Result.STOP
    assert (found.findings[0].step, found.findings[0].found) == ("Sawtooth Star", "3 x 2")


def test_rows_that_do_not_sum_to_the_block_stop() -> None:
    month, part = part_of(make_program())
    assert part.recipe is not None
    wrong = replace(part.recipe, finished=(Fraction(6), Fraction(13, 2)))
    found = rows_add_up(replace(month, parts=(replace(part, recipe=wrong),)))
    assert (found.findings[0].expected, found.findings[0].found) == ("6 x 6 1/2", "6 x 6")


# Faults of the records


def test_a_letter_without_fabric_stops_in_its_months_only() -> None:
    program = make_program()
    ColorwayFabric.objects.filter(colorway__slug="meadow", letter__letter="C").delete()
    proof = prove_program(program)
    assert not proof.passed
    assert [month.number for month in proof.installments if month.stops] == [1, 2]
    (finding,) = check(proof, 1, "colorways").findings
    assert (finding.step, finding.piece, finding.found) == ("Meadow", "C", "none")


def test_a_quilt_without_colorways_stops() -> None:
    program = make_program()
    program.quilt.colorways.all().delete()
    proof = prove_program(program)
    assert [check(proof, number, "colorways").result for number in (1, 3)] == [Result.STOP, Result.STOP]


def test_a_packet_that_would_not_hold_pieces_of_whole_millimetres_wants_a_look() -> None:
    """2 1/2 x 6 1/2 in are shown as 6.4 x 16.6 cm; the long side outgrows 6 1/2 in (16.51 cm)."""
    program = make_program(squaring_up="0", sold_by="1/8")
    Fabric.objects.filter(number="TW-4").update(usable_width="13/2")
    found = check(prove_program(program), 4, "centimetres")
    assert found.result is Result.LOOK
    assert found.findings[0].found == "16.6 cm"  # side by side 12.8 cm of 16.51, one strip of 16.6


def test_a_block_that_cannot_be_sewn_stops_with_its_reason() -> None:
    program = make_program()
    PlacedBlock.objects.filter(quilt=program.quilt, column=1).update(
        methods={"flying geese A-B-B 3 x 3/2 either": "by magic"}
    )
    proof = prove_program(program)
    (finding,) = check(proof, 2, "goes together").findings
    assert finding.step == "Sawtooth Star"
    assert "Choose another method" in finding.found


def test_a_block_that_no_installment_holds_stops_the_year() -> None:
    program = make_program()
    program.installments.get(number=1).parts.all().delete()
    found = check(prove_program(program), 5, "the year adds up")
    assert found.result is Result.STOP
    assert found.findings[0].piece == "block in row 1, column 1"


def test_dates_that_run_backwards_stop() -> None:
    program = make_program()
    days = {1: date(2027, 1, 16), 2: date(2027, 3, 20), 3: date(2027, 2, 20)}
    for number, day in days.items():
        program.installments.filter(number=number).update(wall_day=day)
    proof = prove_program(program)
    assert [month.number for month in proof.installments if month.stops] == [3]
    (finding,) = check(proof, 3, "dates").findings
    assert (finding.expected, finding.found) == ("after 2027-03-20", "2027-02-20")


def test_a_plan_that_needs_a_strip_more_on_narrow_fabric_wants_a_look() -> None:
    """Two sashing strips of 6 1/2 in side by side fill 13 in; on 12 1/2 in they take two strips."""
    program = make_program()
    Fabric.objects.filter(number="TW-4").update(usable_width="13")
    proof = prove_program(program)
    assert proof.passed
    found = check(proof, 4, "narrow fabric")
    assert found.result is Result.LOOK
    assert found.findings[0].expected == "2 1/2 in at 13 in"
    assert found.findings[0].found == "5 in at 12 1/2 in"


def test_the_present_records_are_proved_not_an_old_copy() -> None:
    program = make_program()
    assert prove_program(program).passed
    Quilt.objects.filter(pk=program.quilt_id).update(binding_letter="")
    proof = prove_program(program)  # the copy at hand still says E
    assert [month.number for month in proof.installments if month.stops] == [5]
