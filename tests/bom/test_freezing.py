"""The fabric freeze: passed once, on a proof that passes; from then on only words change."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, date, datetime

import pytest

from bom.domain.freezing import Break, freeze_fabric, guard_change, what_breaks
from bom.domain.proofs import Result, prove_program
from bom.errors import FabricIsFrozen, ProgramError, ProofStops, WrongState
from bom.models import AuditEntry, Program
from patterns.models import Block, ColorwayFabric, Fabric, PlacedBlock, Quilt
from tests.factories import make_program, ohio_star

pytestmark = pytest.mark.django_db

NOW = datetime(2026, 4, 30, 2, 30, tzinfo=UTC)  # still 29 April in Halifax
GEESE = "flying geese A-B-B 3 x 3/2 either"


def frozen_program() -> Program:
    program = make_program()
    return freeze_fabric(program, by=program.designer, now=NOW)


def star(program: Program) -> PlacedBlock:
    return PlacedBlock.objects.get(quilt=program.quilt_id, column=0)


def change_star(program: Program, **fields: object) -> int:
    return PlacedBlock.objects.filter(quilt=program.quilt_id, column=0).update(**fields)


def breaks_of(program: Program, apply: Callable[[], object]) -> tuple[Break, ...]:
    with pytest.raises(FabricIsFrozen) as caught:
        guard_change(program, apply)
    found: tuple[Break, ...] = caught.value.facts["breaks"]
    return found


def whats(found: tuple[Break, ...]) -> set[tuple[int, str, str]]:
    return {(each.number, each.what, each.place) for each in found}


def test_the_freeze_stores_needs_parts_and_who_and_when() -> None:
    program = frozen_program()
    stored = Program.objects.get(pk=program.pk)
    assert (stored.frozen_at, stored.frozen_by, len(stored.frozen_hash)) == (NOW, program.designer, 64)
    assert set(stored.frozen_need) == {"harbour", "meadow"}
    assert stored.frozen_need["harbour"]["5"]["TW-5 Tidewater binding"] == {
        "letters": ["E"],
        "minimum": "15/2",
        "suggested": "9",
        "bound": "15/2",
    }
    assert [part["title"] for part in stored.frozen_work["2"].values()] == ["Sawtooth Star", "Nine Patch"]
    assert {gate.name: gate.passed_on for gate in stored.gates.all()} == {
        "proof": date(2026, 4, 29),
        "fabric freeze": date(2026, 4, 29),
    }
    (entry,) = AuditEntry.objects.filter(verb="freeze fabric")
    assert (entry.subject, entry.actor, entry.at) == ("program:small", program.designer, NOW)


def test_a_second_freeze_is_refused_and_changes_nothing() -> None:
    program = frozen_program()
    with pytest.raises(WrongState):
        freeze_fabric(program, by=program.designer, now=datetime(2026, 5, 1, tzinfo=UTC))
    assert Program.objects.get(pk=program.pk).frozen_at == NOW
    assert AuditEntry.objects.filter(verb="freeze fabric").count() == 1


def test_a_proof_that_stops_stops_the_freeze() -> None:
    program = make_program()
    ColorwayFabric.objects.filter(colorway__slug="meadow", letter__letter="C").delete()
    with pytest.raises(ProofStops) as caught:
        freeze_fabric(program, by=program.designer, now=NOW)
    assert caught.value.facts == {"installments": "1, 2"}
    assert not Program.objects.get(pk=program.pk).is_frozen
    assert program.gates.count() == 0


def test_before_the_freeze_nothing_breaks() -> None:
    program = make_program()
    guard_change(program, lambda: PlacedBlock.objects.filter(quilt=program.quilt_id).update(turn=1))
    assert what_breaks(program) == ()


def test_words_and_dates_pass() -> None:
    program = frozen_program()

    def apply() -> None:
        Program.objects.filter(pk=program.pk).update(title="Little Tide", lead="New words.")
        program.installments.filter(number=1).update(
            title="Daybreak", tips="Press.", wall_day=date(2027, 1, 16)
        )
        Block.objects.filter(name="Ohio Star").update(name="Evening Star")
        Fabric.objects.filter(number="TW-2").update(value=9, colour="#000000")

    guard_change(program, apply)
    assert program.installments.get(number=1).title == "Daybreak"
    assert what_breaks(program) == ()
    assert prove_program(program).passed


def test_a_size_stops_month_by_month() -> None:
    program = frozen_program()
    found = breaks_of(program, lambda: Quilt.objects.filter(pk=program.quilt_id).update(block_size="12"))
    assert {each.number for each in found} == {1, 2, 4, 5}
    sizes = {each.place: (each.before, each.after) for each in found if each.what == "size"}
    assert sizes["Ohio Star"] == ("6", "12")
    assert sizes["border"] == ("28; 12", "46; 18")  # 3 x 12 + 2 x 2 + 2 x 3 by 12 + 2 x 3
    assert Quilt.objects.get(pk=program.quilt_id).block_size == 6


def test_a_block_of_its_own_size_stops_in_its_month() -> None:
    program = frozen_program()
    found = breaks_of(program, lambda: change_star(program, own_size="5", frame_letter="C"))
    assert {(each.number, each.what, each.before, each.after) for each in found if each.what == "size"} == {
        (1, "size", "6", "5")
    }
    assert star(program).own_size is None


def test_a_letter_stops_and_names_both_counts() -> None:
    program = frozen_program()
    letters = {"A": "A", "B": "B", "C": "B"}
    found = breaks_of(program, lambda: change_star(program, letters=letters))
    changed = next(each for each in found if each.what == "letters")
    assert (changed.number, changed.place) == (1, "Ohio Star")
    assert (changed.before, changed.after) == ("8 of B; 1 of C", "9 of B")
    assert star(program).letters == {"A": "A", "B": "B", "C": "C"}


def test_letters_that_change_places_stop_though_the_counts_are_the_same() -> None:
    program = frozen_program()
    drawing = ohio_star()
    first, last = drawing["patches"][0], drawing["patches"][-1]
    first["fabric"], last["fabric"] = last["fabric"], first["fabric"]
    found = breaks_of(program, lambda: Block.objects.filter(name="Ohio Star").update(drawing=drawing))
    changed = next(each for each in found if each.what == "letters")
    assert (changed.before, changed.after) == ("patch 1: A; patch 21: C", "patch 1: C; patch 21: A")


def test_a_method_stops() -> None:
    program = frozen_program()
    methods = {GEESE: "corners flipped"}
    found = breaks_of(
        program,
        lambda: PlacedBlock.objects.filter(quilt=program.quilt_id, column=1).update(methods=methods),
    )
    changed = next(each for each in found if each.what == "methods")
    assert (changed.number, changed.place) == (2, "Sawtooth Star")
    assert changed.after == "flying geese, A B B: corners flipped"


def test_a_drawing_stops() -> None:
    program = frozen_program()
    found = breaks_of(program, lambda: change_star(program, turn=1))
    assert (1, "drawing", "Ohio Star") in whats(found)


def test_another_cloth_and_a_new_colorway_stop() -> None:
    program = frozen_program()
    other = Fabric.objects.get(number="TW-6")
    rows = ColorwayFabric.objects.filter(colorway__slug="harbour", letter__letter="C")
    found = breaks_of(program, lambda: rows.update(fabric=other))
    assert {(each.number, each.what, each.place, each.colorway) for each in found} >= {
        (1, "fabric", "C", "harbour"),
        (2, "fabric", "C", "harbour"),
    }
    quilt = Quilt.objects.get(pk=program.quilt_id)
    quilt.colorways.filter(slug="meadow").delete()
    (gone,) = [each for each in what_breaks(program) if each.what == "colorway"]
    assert (gone.colorway, gone.after) == ("meadow", "")


def test_a_need_that_rises_stops_one_that_falls_passes() -> None:
    program = frozen_program()
    narrow = Fabric.objects.filter(number="TW-5")
    found = breaks_of(program, lambda: narrow.update(usable_width="20"))  # 6 strips of binding for 3
    needs = [each for each in found if each.what == "need"]
    assert [(each.number, each.place, each.colorway) for each in needs] == [
        (5, "E", "harbour"),
        (5, "E", "meadow"),
    ]
    assert [(each.before, each.after) for each in needs[:1]] == [("9", "18")]
    guard_change(program, lambda: Program.objects.filter(pk=program.pk).update(sold_by="1"))
    assert Program.objects.get(pk=program.pk).sold_by == 1


def test_a_part_moved_to_another_month_stops_in_both() -> None:
    program = frozen_program()
    part = program.installments.get(number=2).parts.last()
    catch_up = program.installments.get(number=3)

    def apply() -> None:
        part.installment = catch_up
        part.save()

    found = whats(breaks_of(program, apply))
    assert {(2, "part", "Nine Patch"), (3, "part", "Nine Patch"), (3, "need", "A")} <= found


def test_a_change_past_the_guard_is_a_stop_in_the_proof() -> None:
    program = frozen_program()
    change_star(program, own_size="5", frame_letter="C")
    proof = prove_program(program)
    assert not proof.passed
    (check,) = [each for each in proof.installments[0].checks if each.name == "as frozen"]
    assert check.result is Result.STOP
    found = {each.piece: (each.expected, each.found) for each in check.findings}
    assert found["Ohio Star, size"] == ("6", "5")


def test_a_change_that_cannot_be_worked_out_is_taken_back_too() -> None:
    program = frozen_program()
    with pytest.raises(ProgramError) as caught:
        guard_change(program, lambda: change_star(program, own_size="9"))
    assert caught.value.field == "own_size"
    assert star(program).own_size is None
