"""Every letter that a reader sees in a picture has a line in a packet, and in the shop's order."""

from __future__ import annotations

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from django.conf import settings

from bom.domain.chain import work_of
from bom.domain.making import illustrated
from bom.domain.packets import packets
from bom.domain.program_files import import_program
from bom.domain.quilt_pictures import quilt_drawing
from bom.domain.records import read_colorways
from bom.enums import PartKind
from tests.factories import make_program, make_user

if TYPE_CHECKING:
    from bom.domain.packets import Packet
    from bom.domain.work import InstallmentWork, ProgramWork
    from bom.models import Program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

DEMO = Path(settings.BASE_DIR) / "fixtures" / "programs" / "demo.json"


def letters_of(packet: Packet) -> set[str]:
    return {letter for line in packet.lines for letter in line.letters}


def block_letters(month: InstallmentWork) -> set[str]:
    """Give the letters of the finished blocks as they are drawn."""
    blocks = (part.drawing for part in month.parts if part.kind == PartKind.BLOCK and part.drawing)
    return {patch.fabric for drawing in blocks for patch in drawing.patches}


def step_letters(month: InstallmentWork) -> set[str]:
    """Give the letters of every patch in every picture of the block's steps."""
    blocks = (part for part in month.parts if part.kind == PartKind.BLOCK and part.recipe)
    pictures = (picture for part in blocks for step in illustrated(part).steps for picture in step.pictures)
    return {facet.fabric for picture in pictures for facet in picture.facets if facet.fabric}


def check(work: ProgramWork, program: Program, *, seen: bool) -> None:
    for colorway in read_colorways(program):
        year = packets(program, work, colorway)
        held = {packet.number: letters_of(packet) for packet in year}
        for month in work.installments:
            mine = held[month.number] | {
                letter for letter, number in month.carried.items() if letter in held[number]
            }
            assert block_letters(month) <= mine
            if seen:
                assert step_letters(month) <= mine
        drawn = {patch.fabric for part in quilt_drawing(work).parts for patch in part.patches}
        assert drawn <= set.union(*held.values())


@pytest.mark.parametrize("carried", [{}, {"B": 1}, {"A": 1, "B": 1, "C": 1}])
def test_every_letter_of_a_picture_has_a_line_in_its_packet_or_in_the_one_that_keeps_it(
    carried: dict[str, int],
) -> None:
    program = make_program()
    program.installments.filter(number=2).update(carried=carried)
    check(work_of(program), program, seen=True)


def test_every_letter_of_the_demo_has_a_line() -> None:
    data = json.loads(DEMO.read_text(encoding="utf-8"))
    program = import_program(data, designer=make_user(), now=datetime(2026, 1, 1, tzinfo=UTC))
    check(work_of(program), program, seen=False)
