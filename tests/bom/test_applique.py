"""A program with an appliqué block: cut list, packets, proof, sheet, program file."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from bom.domain.chain import work_of
from bom.domain.cloth import cloths_of
from bom.domain.frozen import _part_data
from bom.domain.packets import packet, packets
from bom.domain.planning import schedule_by_rule
from bom.domain.program_files import export_program, import_program
from bom.domain.proofs import Result, prove_program
from bom.domain.quilt_pictures import block_key, quilt_drawing
from bom.domain.reconciling import area_sewn, reconciles
from bom.domain.sheets.true_size import true_size_pages
from bom.domain.sheets.variants import Variant
from bom.domain.times import PER_SHAPE, time_of
from bom.errors import ProgramError
from bom.models import Program
from patterns.engine.blocks import block_from_data
from patterns.engine.difficulty import difficulty_of
from patterns.engine.parts import Shape
from patterns.models import Quilt
from tests.cast import olga
from tests.factories import make_block, make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

NOW = datetime(2027, 1, 2, 12, tzinfo=UTC)
FOLDER = Path(__file__).parents[2] / "fixtures" / "applique"
FLOWER: dict[str, Any] = json.loads((FOLDER / "four-petals.json").read_text("utf-8"))


def flower_program(**fields: Any) -> Program:
    """Put the flower into the first place, and into the first installment."""
    program = make_program(**fields)
    program.quilt.block_size = 12
    program.quilt.save()
    placed = program.installments.get(number=1).parts.get().placed_block
    placed.block = make_block(FLOWER, program.designer)
    placed.letters = {letter: letter for letter in "ABCDE"}
    placed.turn = 1
    placed.save()
    return program


def test_shapes_are_on_the_cut_list_and_everything_adds_up() -> None:
    program = flower_program()
    work = work_of(program)
    first = work.installment(1)
    assert {letter: sum(p.count for p in cut) for letter, cut in first.pieces.items()} == {
        "A": 2, "B": 2, "C": 4, "D": 4, "E": 1,
    }  # fmt: skip
    assert [piece.shape for letter in "CDE" for piece in first.pieces[letter]] == ["template"] * 3
    proof = first.parts[0].proof
    assert proof is not None
    assert (proof.goes_together, proof.patches, proof.patches_right) == (True, 13, 13)
    colorway = program.quilt.colorways.get(slug="harbour")
    assert reconciles(work, program.quilt, [packets(program, work, colorway)])
    assert area_sewn(work) == work.top.width * work.top.height


def test_the_packet_holds_the_fabric_of_the_shapes() -> None:
    program = flower_program()
    colorway = program.quilt.colorways.get(slug="harbour")
    found = packet(program, work_of(program), colorway, 1)
    assert {letter for line in found.lines for letter in line.letters} == set("ABCDE")
    assert all(line.line.suggested > 0 for line in found.lines)


def test_the_proof_of_the_program_has_nothing_to_say_of_it() -> None:
    checks = prove_program(flower_program()).installments[0].checks
    assert [check.name for check in checks if check.result == Result.STOP] == []


def test_the_sheet_prints_every_template_at_its_own_size() -> None:
    program = flower_program()
    variant = Variant(colorway=program.quilt.colorways.get(slug="harbour"))
    mine = work_of(program).installment(1)
    pages = true_size_pages(mine, cloths_of(variant.colorway), variant)
    names = [row.name for page in pages for row in page.rows]
    assert list(dict.fromkeys(names)) == ["Template C1", "Template D1", "Template E1"]
    assert "cut 4" in pages[0].rows[0].notes


def test_the_picture_of_the_quilt_has_the_shapes_on_top() -> None:
    parts = {part.key: part for part in quilt_drawing(work_of(flower_program())).parts}
    laid = [isinstance(patch, Shape) for patch in parts[block_key((0, 0))].patches]
    assert laid == [False] * 4 + [True] * 9


def test_the_joined_top_has_the_shapes_where_the_block_lies() -> None:
    work = work_of(flower_program())
    for number in (4, 5):
        part = work.installment(number).parts[0]
        assert part.drawing is not None
        assert part.proof is not None
        assert len(part.drawing.applique) == 9
        assert part.proof.goes_together


def test_a_plain_square_with_shapes_is_a_block_of_its_month() -> None:
    program = flower_program()
    ground = {"fabric": "A", "points": [[0, 0], [8, 0], [8, 8], [0, 8]]}
    block = program.installments.get(number=1).parts.get().placed_block.block
    block.drawing = {**FLOWER, "patches": [ground]}
    block.save()
    work = work_of(program)
    colorway = program.quilt.colorways.get(slug="harbour")
    assert reconciles(work, program.quilt, [packets(program, work, colorway)])
    proof = work.installment(1).parts[0].proof
    assert proof is not None
    assert proof.goes_together


def test_the_program_file_carries_the_shapes() -> None:
    program = flower_program()
    schedule_by_rule(program, by=None, now=NOW)
    data = json.loads(json.dumps(export_program(program)))
    assert any(block["drawing"].get("applique") for block in data["blocks"])
    again = import_program({**data, "slug": "again"}, designer=olga(), now=NOW)
    assert export_program(again) == {**data, "slug": "again"}
    assert (
        work_of(again).installment(1).parts[0].drawing
        == work_of(Program.objects.get(slug="small")).installment(1).parts[0].drawing
    )


def test_what_is_frozen_of_a_block_includes_its_shapes() -> None:
    program = flower_program()
    before = _part_data(work_of(program).installment(1).parts[0])
    block = program.installments.get(number=1).parts.get().placed_block.block
    block.drawing = {**FLOWER, "applique": FLOWER["applique"][:-1]}
    block.save()
    after = _part_data(work_of(program).installment(1).parts[0])
    assert before["drawing"] != after["drawing"]
    assert before["letters"] == [*"ABBA", *"DDDDCCCCE"]


def test_shapes_take_time_and_a_careful_hand() -> None:
    part = work_of(flower_program()).installment(1).parts[0]
    assert part.recipe is not None
    assert part.drawing is not None
    found = difficulty_of(part.recipe, part.drawing.patches)
    assert (found.counts.shapes, found.counts.bias_edges, found.grade) == (9, 0, 3)
    first = work_of(Program.objects.get(slug="small")).installment(1)
    assert time_of(first).sewing[0] >= 9 * PER_SHAPE[0]


def test_the_drawing_board_shows_the_shapes_and_says_where_they_are_changed(client: Client) -> None:
    program = flower_program()
    block = program.installments.get(number=1).parts.get().placed_block.block
    client.force_login(program.designer)
    page = client.get(reverse("draw-block", args=[program.slug, block.pk])).content.decode()
    assert "9 appliqué shapes lie on the patches" in page
    assert "letters A, B, C, D, E" in page
    answer = client.get(reverse("draw-block-file", args=[program.slug, block.pk]))
    assert block_from_data(answer.json()) == block_from_data(FLOWER)


def test_a_border_repeats_no_block_with_shapes() -> None:
    program = flower_program()
    block = program.installments.get(number=1).parts.get().placed_block.block
    Quilt.objects.filter(pk=program.quilt_id).update(border_block=block)
    with pytest.raises(ProgramError) as error:
        work_of(Program.objects.get(pk=program.pk))
    assert error.value.field == "border_block"
    assert "appliqué shapes" in str(error.value)
