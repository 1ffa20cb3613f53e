"""Precuts that a program allows, beside the yardage of its packets."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bom.domain.chain import work_of
from bom.domain.frozen_state import present_hash
from bom.domain.packets import Packet, packets
from bom.domain.precut_choices import LABELS, cloth_text, precut_choices, precut_text, year_choices
from bom.domain.program_file_import import import_program
from bom.domain.program_files import export_program
from bom.domain.proofs import prove_program
from bom.domain.records import read_colorways
from bom.errors import BadProgramFile
from bom.models import Program
from patterns.engine.measure import Units
from patterns.engine.precut_sizes import PRECUTS
from patterns.engine.strips import Demand
from patterns.engine.yardage import FabricForm
from tests.bom.web.designers import NOW
from tests.cast import dora
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]
BOTH = ["fat quarter 18 x 22", "fat eighth 9 x 22"]
WIDTH = Fraction(44)


def year_packets(program: Program) -> list[Packet]:
    """Give the packets of the first colorway."""
    (colorway, *_others) = read_colorways(program)
    return list(packets(program, work_of(program), colorway))


def squares(side: str, count: int) -> tuple[Demand, ...]:
    return (Demand(label="A1", width=Fraction(side), length=Fraction(side), count=count),)


def test_every_precut_has_a_label() -> None:
    assert list(LABELS) == [precut.name for precut in PRECUTS]


def test_the_least_cloth_stands_first_and_is_said() -> None:
    """72 squares: an eighth holds 8 x 3, a quarter 8 x 7 of them."""
    program = make_program(precuts=BOTH)
    found = precut_choices(program, squares("5/2", 72), nominal_width=WIDTH)
    assert [precut_text(each.plan) for each in found] == [
        "3 fat eighths, 9 x 22 in",
        "2 fat quarters, 18 x 22 in",
    ]
    assert [each.as_length for each in found] == [Fraction(27, 2), 18]
    words = "as much cloth as 13 1/2 in; fewer are not possible"
    assert cloth_text(found[0], Units.INCHES) == words


def test_only_what_is_allowed_and_fits_is_offered() -> None:
    program = make_program()
    assert precut_choices(program, squares("5/2", 8), nominal_width=WIDTH) == ()
    program.precuts = ["5 in square", "10 in square"]
    assert [
        each.plan.precut.name for each in precut_choices(program, squares("6", 1), nominal_width=WIDTH)
    ] == ["10 in square"]
    assert precut_choices(program, (), nominal_width=WIDTH) == ()


def test_where_fabric_is_washed_precuts_are_too() -> None:
    program = make_program(precuts=BOTH[:1])
    (dry,) = precut_choices(program, squares("5/2", 56), nominal_width=WIDTH)
    program.prewash = True
    (washed,) = precut_choices(program, squares("5/2", 56), nominal_width=WIDTH)
    assert (dry.plan.count, washed.plan.count) == (1, 2)


def test_every_packet_of_the_year_has_its_choices() -> None:
    program = make_program(precuts=BOTH)
    (colorway, *_others) = read_colorways(program)
    found = year_choices(program, work_of(program), colorway)
    assert {each.number for each in found} <= {each.number for each in work_of(program).installments}
    for each in found:
        lengths = [choice.as_length for choice in each.choices]
        assert lengths == sorted(lengths)
        assert each.saves == (bool(lengths) and lengths[0] < each.line.line.suggested)
    assert any(each.choices for each in found)


def test_the_program_file_keeps_them_and_names_what_it_does_not_know() -> None:
    program = make_program(precuts=BOTH)
    data = export_program(program)
    assert data["settings"]["precuts"] == BOTH
    again = import_program({**data, "slug": "again"}, designer=dora(), now=NOW)
    assert again.precuts == BOTH
    data["settings"]["precuts"] = ["fat half"]
    with pytest.raises(BadProgramFile, match="fat quarter 18 x 22"):
        import_program({**data, "slug": "third"}, designer=dora(), now=NOW)
    program.precuts = []
    assert "precuts" not in export_program(program)["settings"]


def test_a_packet_holds_a_fat_eighth_or_quarter_where_that_is_less_cloth() -> None:
    """Two of them are one cut of 9 or 18 in: a share of 4 1/2 or 9 in of full width for each packet."""
    program = make_program(precuts=BOTH)
    small = [line for each in year_packets(program) for line in each.lines if not line.is_length]
    shares = {FabricForm.FAT_QUARTER: (9, 18), FabricForm.FAT_EIGHTH: (Fraction(9, 2), 9)}
    assert small
    assert all((each.line.suggested, each.line.cut_length) == shares[each.line.form] for each in small)
    assert {line.line.per_cut for line in small} == {2}
    program.precuts = []
    lengths = [line.line for each in year_packets(program) for line in each.lines]
    program.precuts = BOTH
    held = [line.line for each in year_packets(program) for line in each.lines]
    assert all(a.suggested <= b.suggested for a, b in zip(held, lengths, strict=True))


def test_a_year_with_fat_quarters_goes_together_and_has_a_hash_of_its_own() -> None:
    program = make_program()
    plain = present_hash(program)
    program.precuts = BOTH
    program.save()
    proof = prove_program(program)
    assert [each.number for each in proof.installments if each.stops] == []
    assert present_hash(program) != plain


def test_strips_along_lay_the_pieces_the_other_way() -> None:
    program = make_program(precuts=BOTH)
    small = next(line for each in year_packets(program) for line in each.lines if not line.is_length)
    along = replace(small, line=replace(small.line, strips_along=True))
    assert [(each.width, each.length) for each in along.laid] == [
        (each.length, each.width) for each in small.demands
    ]
    assert replace(small, line=replace(small.line, strips_along=False)).laid == small.demands
