"""Settings, borders, bias binding and sleeve from the records of a quilt to its pieces."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

import pytest

from bom.domain.chain import work_of
from bom.domain.proofs import prove_program
from bom.domain.quilt_borders import coping_widths
from bom.domain.quilt_tops import quilt_top
from bom.domain.reconciling import area_sewn
from bom.errors import ProgramError
from bom.models import Program
from patterns.engine.binding_bias import BiasBinding
from patterns.engine.surds import root
from patterns.models import Quilt
from tests.factories import make_block, make_program, nine_patch, square

pytestmark = pytest.mark.django_db

Q = Fraction


def program_with(**fields: Any) -> Program:
    """Make the small program with other fields of the quilt."""
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(**fields)
    return Program.objects.get(pk=program.pk)


def refused(**fields: Any) -> ProgramError:
    with pytest.raises(ProgramError) as caught:
        quilt_top(program_with(**fields).quilt)
    return caught.value


def test_three_borders_lie_round_each_other() -> None:
    """22 x 6 in the middle; 3 in, then 1 in with corner squares, then 2 in mitred."""
    program = program_with(
        second_border_width="1",
        second_border_letter="B",
        second_border_corners="corner squares",
        second_border_corner_letter="C",
        third_border_width="2",
        third_border_letter="D",
        third_border_corners="mitred",
    )
    work = work_of(program)
    assert (work.top.width, work.top.height) == (22 + 2 * 6, 6 + 2 * 6)
    assert work.top.centre_size == (22, 6)
    assert Counter(patch.fabric for patch in work.top.border_strips) == {"A": 4, "B": 4, "C": 4, "D": 4}
    border = work.installment(5).parts[0]
    assert border.fault is None
    assert border.proof is not None
    assert border.proof.goes_together
    assert area_sewn(work) == work.top.width * work.top.height
    assert prove_program(program).passed


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"border_corners": "corner squares"}, "border_corner_letter"),
        ({"third_border_width": "1"}, "third_border_letter"),
    ],
)
def test_a_border_without_its_letter_is_named(fields: dict[str, str], field: str) -> None:
    assert refused(**fields).field == field


def test_on_point_with_sashing_is_as_wide_as_block_and_sashing() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(
        setting="on point", rows=5, columns=1, triangle_letter="A", border_width="0"
    )
    program.quilt.placed_blocks.filter(column=1).update(row=2, column=0)
    program.quilt.placed_blocks.filter(column=2).update(row=4, column=0)
    work = work_of(program)
    assert (work.top.width, work.top.height) == (8 * root(2), 24 * root(2))
    joining = work.installment(4).parts[0]
    assert joining.proof is not None
    assert joining.proof.goes_together


def test_on_point_the_rows_are_odd_in_number() -> None:
    error = refused(setting="on point", triangle_letter="A", rows=2)
    assert (error.field, error.facts) == ("setting", {"rows": 2})


def test_a_setting_names_the_block_that_has_no_place_in_it() -> None:
    """On point the second row is a place shorter."""
    program = program_with(setting="on point", triangle_letter="A", plain_letter="A", rows=3)
    program.quilt.placed_blocks.filter(column=2).update(row=1)
    with pytest.raises(ProgramError) as caught:
        quilt_top(Quilt.objects.get(pk=program.quilt_id))
    assert (caught.value.field, caught.value.facts["row"], caught.value.facts["column"]) == ("setting", 2, 3)


def test_rows_hold_blocks_of_their_own_size() -> None:
    """Two blocks of 6 with 2 in between above one of 9: the short row gets 2 1/2 in at both ends."""
    program = program_with(setting="rows", rows=2, fill_letter="F", border_width="0")
    program.quilt.placed_blocks.filter(column=2).update(row=1, column=0, own_size="9")
    work = work_of(program)
    assert (work.top.width, work.top.height) == (14, 6 + 2 + 9)
    assert [laid.place for laid in work.top.blocks] == [(0, 0), (0, 1), (1, 0)]
    assert work.top.blocks[2].outline[0] == (Q(5, 2), 8)
    joining = work.installment(4).parts[0]
    assert joining.proof is not None
    assert joining.proof.goes_together
    assert area_sewn(work) == 14 * 17


def test_rows_may_have_sashing_outside_too() -> None:
    program = program_with(setting="rows", sashing_outside=True, border_width="0")
    assert work_of(program).top.width == 3 * 6 + 4 * 2
    assert work_of(program).top.height == 6 + 2 * 2


def test_a_short_row_without_a_fabric_names_both_widths() -> None:
    program = program_with(setting="rows", rows=2)
    program.quilt.placed_blocks.filter(column=2).update(row=1, column=0)
    with pytest.raises(ProgramError) as caught:
        quilt_top(Quilt.objects.get(pk=program.quilt_id))
    assert (caught.value.field, caught.value.facts) == ("fill_letter", {"width": "6", "needed": "14"})


def test_an_empty_row_is_named() -> None:
    assert refused(setting="rows", rows=2).facts == {"row": 2, "column": 1}


def test_bias_binding_comes_from_one_square() -> None:
    """80 in round and 10 in of tail, 2 1/2 in wide: 225 sq in by area, 15 in; its sheet holds 4 rounds."""
    month = work_of(program_with(binding_cut="bias")).installment(5)
    plan = next(part.finishing for part in month.parts if isinstance(part.finishing, BiasBinding))
    assert plan.joined >= plan.length == 90
    (square,) = month.pieces["E"]
    assert (square.width, square.length, square.count) == (plan.square, plan.square, 1)
    assert (square.purpose, month.strips) == ("bias binding", ())


def test_a_sleeve_is_cut_with_the_binding() -> None:
    """28 in wide: one strip 8 1/2 x 30 in, hemmed to 27 in."""
    program = program_with(sleeve_letter="F")
    month = work_of(program).installment(5)
    sleeves = [part.sleeve for part in month.parts if part.sleeve]
    assert [sleeve.finished_length for sleeve in sleeves] == [27]
    cut = [piece for piece in month.pieces["F"] if piece.purpose == "hanging sleeve"]
    assert [(piece.width, piece.length, piece.count) for piece in cut] == [(Q(17, 2), 30, 1)]
    assert [strips.label for strips in month.strips] == ["E1"]
    assert prove_program(program).passed


def test_a_sleeve_wider_than_the_cloth_is_joined_from_strips() -> None:
    month = work_of(program_with(sleeve_letter="F", block_size="12")).installment(5)
    cut = [piece for piece in month.pieces["F"] if piece.purpose == "hanging sleeve"]
    assert [(piece.width, piece.length, piece.count) for piece in cut] == [(Q(17, 2), 40, 2)]


def test_places_without_a_block_are_plain_squares() -> None:
    """Two rows of three with 2 in between: three blocks above, three plain squares below."""
    program = program_with(rows=2, plain_letter="F", border_width="0")
    work = work_of(program)
    assert (work.top.width, work.top.height) == (22, 6 + 2 + 6)
    assert Counter(patch.fabric for patch in work.top.drawing.patches)["F"] == 3
    joining = work.installment(4).parts[0]
    assert joining.proof is not None
    assert joining.proof.goes_together
    assert area_sewn(work) == 22 * 14


def test_fewer_columns_than_a_placed_block_needs_are_a_stop() -> None:
    error = refused(columns=2)
    assert (error.field, error.facts) == ("columns", {"row": 1, "column": 3, "block": "Nine Patch"})


def pieced(**fields: Any) -> dict[str, Any]:
    """Repeat the Nine Patch round the centre of 22 x 6 in."""
    block = make_block(nine_patch())
    return {"border_block": block, "border_letter": "", **fields}


def test_a_pieced_border_that_fits_needs_no_coping_strip() -> None:
    """2 in repeats: 11 along the top, 3 along the side, a block in each corner: 32 in all."""
    drawing = {**nine_patch(), "name": "Four Patch", "grid": [2, 2]}
    drawing["patches"] = [square("AB"[(x + y) % 2], x, y) for y in range(2) for x in range(2)]
    program = program_with(**pieced(border_width="2", border_block=make_block(drawing)))
    work = work_of(program)
    assert (work.top.width, work.top.height) == (26, 10)
    assert coping_widths(work.top) == ()
    assert len(work.top.border_strips) == 4 * (2 * 11 + 2 * 3 + 4)
    border = work.installment(5).parts[0]
    assert border.proof is not None
    assert border.proof.goes_together
    assert area_sewn(work) == 26 * 10
    assert prove_program(program).passed


def test_coping_strips_fill_what_a_pieced_border_is_longer() -> None:
    """3 in repeats: 8 reach 24 in, so 1 in at both sides; 2 are 6 in, so none at top and bottom."""
    program = program_with(**pieced(border_width="3", border_letter="D", border_corner_letter="C"))
    work = work_of(program)
    assert (work.top.width, work.top.height) == (24 + 6, 6 + 6)
    assert coping_widths(work.top) == (1,)
    assert Counter(patch.fabric for patch in work.top.border_strips)["C"] == 4
    border = work.installment(5).parts[0]
    assert border.proof is not None
    assert border.proof.goes_together
    assert area_sewn(work) == 30 * 12


def test_a_coping_strip_without_a_fabric_is_asked_for() -> None:
    assert refused(**pieced(border_width="3")).field == "border_letter"


def test_of_two_borders_the_one_without_its_coping_fabric_is_named() -> None:
    second = {"second_border_width": "5", "second_border_block": make_block(nine_patch())}
    assert refused(**second).field == "second_border_letter"


def test_a_block_in_letters_that_the_quilt_lacks_cannot_be_repeated() -> None:
    drawing = {**nine_patch(), "name": "Other Nine"}
    drawing["patches"] = [{**patch, "fabric": "H"} for patch in drawing["patches"]]
    error = refused(**pieced(border_width="2", border_block=make_block(drawing)))
    assert (error.field, error.facts["letter"]) == ("border_block", "H")


def test_a_block_that_is_not_square_cannot_be_repeated() -> None:
    wide = {"name": "Wide", "grid": [2, 1], "patches": [square("A", 0, 0), square("B", 1, 0)]}
    assert refused(**pieced(border_width="2", border_block=make_block(wide))).field == "border_block"


def test_rounds_lie_about_one_block() -> None:
    """A medallion: a 6 in block, 1 in plain, then 2 in repeats: 4 along each side."""
    program = program_with(
        columns=1,
        sashing_width="0",
        border_width="1",
        second_border_width="2",
        second_border_block=make_block(nine_patch()),
    )
    program.installments.all().delete()
    program.quilt.placed_blocks.exclude(column=0).delete()
    top = quilt_top(Quilt.objects.get(pk=program.quilt_id))
    assert (top.width, top.height) == (12, 12)
    assert len(top.border_strips) == 4 + 9 * (4 * 4 + 4)


def test_the_numbers_follow_plain_squares_and_repeated_blocks() -> None:
    program = program_with(border_width="2")
    hashes = {work_of(program).content_hash}
    for fields in ({"border_block": make_block(nine_patch())}, {"border_block": None, "plain_letter": "F"}):
        Quilt.objects.filter(pk=program.quilt_id).update(**fields)
        hashes.add(work_of(program).content_hash)
    assert len(hashes) == 3
