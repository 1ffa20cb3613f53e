"""From the records to every number: pieces, names, strips, proofs; the same answer until a record changes."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from bom.domain.chain import work_of
from bom.domain.reconciling import area_sewn, year_faults
from bom.enums import PartKind
from bom.errors import ProgramError
from bom.models import Program
from patterns.enums import Direction
from patterns.models import Fabric, PlacedBlock, Quilt
from tests.factories import make_block, make_installment, make_program, nine_patch, place

pytestmark = pytest.mark.django_db

Q = Fraction


def sizes(program: Program, number: int) -> dict[str, tuple[Fraction, Fraction, int]]:
    """Give width, length and count of every piece of an installment, by name."""
    pieces = work_of(program).installment(number).pieces
    return {each.id: (each.width, each.length, each.count) for cut in pieces.values() for each in cut}


def put_on_point(program: Program) -> None:
    """Set the three blocks and two more on point, 2 over 1 over 2, without sashing."""
    Quilt.objects.filter(pk=program.quilt_id).update(
        setting="on point", rows=3, columns=2, triangle_letter="A", sashing_width="0"
    )
    quilt = Quilt.objects.get(pk=program.quilt_id)
    quilt.placed_blocks.filter(column=2).update(row=2, column=0)
    block = make_block(nine_patch(), program.designer)
    more = [place(quilt, block, 1, row=2), place(quilt, block, 0, row=1)]
    make_installment(program, 6, "More", *more)


def test_every_part_goes_together() -> None:
    """21 patches of the Ohio Star, 17 of the Sawtooth Star, 9 of the Nine Patch, sashing 2, border 4."""
    work = work_of(make_program())
    found = {
        part.title: (part.proof.patches_right, part.proof.patches)
        for month in work.installments
        for part in month.parts
        if part.proof
    }
    assert found == {
        "Ohio Star": (21, 21),
        "Sawtooth Star": (17, 17),
        "Nine Patch": (9, 9),
        "sashing and cornerstones": (49, 49),
        "border": (53, 53),
    }
    assert [part.fault for month in work.installments for part in month.parts] == [None] * 7


def test_oversized_pieces_of_the_ohio_star() -> None:
    """6 in: quarter-squares 2 + 1 1/2, half of them first as half-squares; corners and middle 2 + 1/2."""
    exact = sizes(make_program(house_style="exact"), 1)
    assert exact == {
        "A1": (Q(13, 4), Q(13, 4), 2),  # 2 + 1 1/4 (common practice)
        "A2": (Q(5, 2), Q(5, 2), 4),
        "B1": (Q(13, 4), Q(13, 4), 2),
        "C1": (Q(5, 2), Q(5, 2), 1),
    }


def test_two_blocks_of_a_month_share_one_list_of_names() -> None:
    """The nine-patch cuts 2 1/2 in squares: A2 and B1, the latter together with the geese."""
    program = make_program()
    assert sizes(program, 2)["A2"] == (Q(5, 2), Q(5, 2), 5)
    assert sizes(program, 2)["B1"] == (Q(5, 2), Q(5, 2), 8)  # 4 for the geese, 4 for the nine-patch
    star, nine = work_of(program).installment(2).parts
    assert {piece.id: piece.count for piece in nine.pieces} == {"A2": 5, "B1": 4}
    assert {piece.id: piece.count for piece in star.pieces} == {"A1": 1, "A3": 4, "B1": 4, "C1": 1}
    assert nine.recipe is not None
    named = {ref for step in nine.recipe.steps for row in step.operations for ref in str(row).split("'")}
    assert {"A2", "B1"} <= named
    assert "A1" not in named


def test_a_month_to_catch_up_holds_nothing() -> None:
    month = work_of(make_program()).installment(3)
    assert (month.parts, dict(month.pieces), month.letters) == ((), {}, ())


def test_binding_and_backing() -> None:
    """Round 28 x 12 in and 10 in of tail: 90 in, 3 strips of 40 less 2 x 2 1/2 in; the back is 36 x 20 in."""
    month = work_of(make_program()).installment(5)
    assert [(s.label, s.count, s.length, s.across) for s in month.strips] == [("E1", 3, 90, 40)]
    assert month.panels == {"F1"}
    assert month.pieces["F"][0].length == 20


def test_border_longer_than_the_cloth_is_joined_from_strips() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(block_size="12")
    strips = {each.label: each for each in work_of(program).installment(5).strips}
    border = strips["A1"]  # 3 x 12 + 2 x 2 + 2 x 3 + 1/2 = 46 1/2 in, twice; the sides fit across
    assert (border.length, border.count, border.width) == (93, 3, Q(7, 2))
    pieces = work_of(program).installment(5).pieces
    assert [piece.purpose for piece in pieces["A"]] == [
        "from strips across the fabric, joined end to end",
        "side borders",
    ]
    assert [piece.purpose for piece in pieces["E"]] == ["binding strips"]


def test_the_narrowest_cloth_of_a_letter_counts() -> None:
    program = make_program()
    Fabric.objects.filter(number="TW-5").update(usable_width="30")
    (strips,) = work_of(program).installment(5).strips
    assert (strips.across, strips.count) == (30, 4)  # 4 x 30 - 3 x 2 1/2 = 112 1/2; 3 give 85


def test_cloth_too_narrow_to_join_is_named() -> None:
    program = make_program()
    Fabric.objects.filter(number="TW-5").update(usable_width="2")
    with pytest.raises(ProgramError) as caught:
        work_of(program)
    assert (caught.value.field, caught.value.facts) == ("usable_width", {"width": "2 1/2", "usable": "2"})


def test_finished_areas_fill_the_quilt_exactly() -> None:
    program = make_program()
    work = work_of(program)
    assert area_sewn(work) == 28 * 12
    assert list(year_faults(work, Quilt.objects.get(pk=program.quilt_id))) == []


def test_on_point_fills_the_quilt_exactly_too() -> None:
    """2 x 2 blocks of 6 in on point and 3 in of border: (12 sqrt 2 + 6) squared, and no root is rounded."""
    program = make_program()
    put_on_point(program)
    work = work_of(program)
    assert area_sewn(work) == work.top.width * work.top.height
    assert all(part.proof.goes_together for month in work.installments for part in month.parts if part.proof)


def test_a_part_that_no_installment_holds_is_named() -> None:
    program = make_program()
    program.installments.get(number=1).parts.all().delete()
    (part, area) = year_faults(work_of(program), program.quilt)
    assert (part.piece, part.found) == ("block in row 1, column 1", "in 0")
    assert (area.expected, area.found) == ("336", "300")  # 6 x 6 in are missing


def test_asked_twice_it_is_the_same_work_and_few_queries(django_assert_max_num_queries: Any) -> None:
    program = make_program()
    first = work_of(program)
    with django_assert_max_num_queries(8):
        assert work_of(program) is first


def test_more_blocks_take_no_more_queries(django_assert_max_num_queries: Any) -> None:
    program = make_program()
    put_on_point(program)
    with django_assert_max_num_queries(8):
        assert len(work_of(program).installments) == 6


def test_new_words_keep_the_hash_new_numbers_do_not() -> None:
    program = make_program()
    before = work_of(program)
    program.installments.filter(number=1).update(title="Daybreak")
    renamed = work_of(program)
    assert renamed.content_hash == before.content_hash
    assert renamed.installment(1).title == "Daybreak"
    PlacedBlock.objects.filter(quilt=program.quilt, column=0).update(turn=1)
    assert work_of(program).content_hash != before.content_hash


def test_a_method_of_ones_own_is_used_and_an_unknown_one_is_a_fault() -> None:
    program = make_program()
    placed = PlacedBlock.objects.get(quilt=program.quilt, column=1)
    key = "flying geese A-B-B 3 x 3/2 either"
    PlacedBlock.objects.filter(pk=placed.pk).update(methods={key: "corners flipped"})
    part = work_of(program).installment(2).parts[0]
    methods = {row.kind.value: row.method for row in part.recipe.units} if part.recipe else {}
    assert methods.get("flying geese") == "corners flipped", part.fault
    PlacedBlock.objects.filter(pk=placed.pk).update(methods={key: "by magic"})
    part = work_of(program).installment(2).parts[0]
    assert part.recipe is None
    assert part.fault is not None
    assert part.fault.facts == {"block": "Sawtooth Star", "unit": key}


def test_a_block_of_a_program_may_need_a_partial_seam() -> None:
    """Bright Hopes: four rectangles round a square."""
    program = make_program()
    block = PlacedBlock.objects.get(quilt=program.quilt, column=0).block
    corners = [(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3), (1, 1, 2, 2)]
    patches = [{"fabric": "A", "points": [[a, b], [c, b], [c, d], [a, d]]} for a, b, c, d in corners]
    block.drawing = {"name": "Bright Hopes", "grid": [3, 3], "patches": patches}
    block.save()
    (part,) = work_of(program).installment(1).parts
    assert part.fault is None
    assert part.recipe is not None
    assert part.recipe.order == "partial seam"
    assert part.proof is not None
    assert part.proof.goes_together


def test_parts_of_the_top_that_the_quilt_has_not_are_faults() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(border_width="0", backing_letter="", binding_letter="")
    parts = work_of(program).installment(5).parts
    assert [part.kind for part in parts if part.fault] == [
        PartKind.BORDER,
        PartKind.BACKING,
        PartKind.BINDING,
    ]


def test_a_print_with_a_direction_reaches_the_style_and_is_told() -> None:
    program = make_program()
    before = work_of(program)
    Fabric.objects.filter(number="TW-2").update(direction=Direction.ONE_WAY)
    after = work_of(program)
    assert (before.style.directions, after.style.directions) == ({}, {"B": "one-way"})
    assert before.content_hash != after.content_hash
    told = {
        warning.facts.get("fabric")
        for month in after.installments
        for part in month.parts
        if part.recipe
        for warning in part.recipe.warnings
    }
    assert "B" in told
