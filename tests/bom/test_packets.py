"""Packets: one cut of fabric per installment, colorway and fabric; they add up to the year."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from bom.domain.chain import work_of
from bom.domain.packets import FabricLine, Packet, grams, packet, packets, year
from bom.domain.plan_checks import layout_faults
from bom.errors import ProgramError
from bom.models import Program
from patterns.engine.strips import StripPlan
from patterns.enums import Direction
from patterns.models import Colorway, ColorwayFabric, Fabric, Quilt
from tests.factories import make_program

pytestmark = pytest.mark.django_db

Q = Fraction


def colorway(program: Program, slug: str = "harbour") -> Colorway:
    return Colorway.objects.get(quilt=program.quilt_id, slug=slug)


def packed(program: Program, number: int, slug: str = "harbour") -> Packet:
    return packet(program, work_of(program), colorway(program, slug), number)


def line_of(found: Packet, letter: str) -> FabricLine:
    return next(line for line in found.lines if letter in line.letters)


def plan_of(line: FabricLine) -> StripPlan:
    assert line.line.plan is not None
    return line.line.plan


def test_background_of_two_blocks_is_one_strip() -> None:
    """4 1/2 + 5 x 2 1/2 + 4 x 2 = 25 in of 40 lie in one strip; 1 in to square up; sold by 4 1/2 in.

    A1 | A2 A2 A2 A2 A2 | A3 A3 A3 A3 ........ | 15 in left over
    """
    line = line_of(packed(make_program(house_style="exact"), 2), "A")
    first = next(piece for piece in line.pieces if piece.id == "A1")
    assert (line.line.minimum, line.line.suggested) == (first.length, Q(9))
    assert plan_of(line).proven


def test_letters_of_one_fabric_are_one_line_and_keep_their_names() -> None:
    program = make_program()
    apart = packed(program, 5, "harbour")
    assert [line.letters for line in apart.lines] == [("A",), ("E",), ("F",)]
    ColorwayFabric.objects.filter(colorway__slug="meadow", letter__letter="E").update(
        fabric=Fabric.objects.get(number="TW-1")
    )
    together = packed(program, 5, "meadow")
    assert [line.letters for line in together.lines] == [("A", "E"), ("F",)]
    assert [piece.id for piece in together.lines[0].pieces] == ["A1", "A2", "E1"]
    assert {demand.label for demand in together.lines[0].demands} == {"A1", "A2", "E1"}


def test_backing_is_a_length_of_its_own_even_beside_the_same_fabric() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(backing_letter="A")
    lines = packed(program, 5).lines
    assert [(line.letters, line.is_backing) for line in lines] == [
        (("A",), False),
        (("A",), True),
        (("E",), False),
    ]
    assert (lines[1].line.minimum, lines[1].line.suggested, lines[1].line.plan) == (20, Q(45, 2), None)


def test_binding_is_cut_as_strips_across() -> None:
    """Three strips of 2 1/2 in: 7 1/2 in, and 1 in to square up makes 9 in, with 1/2 in left over."""
    line = line_of(packed(make_program(), 5), "E")
    assert (line.line.minimum, line.line.suggested) == (Q(15, 2), Q(9))
    assert [(strip.height, strip.repeat, len(strip.cuts)) for strip in plan_of(line).strips] == [
        (Q(5, 2), 3, 1)
    ]


def test_long_border_is_cut_as_strips_across_and_not_along() -> None:
    program = make_program()
    Quilt.objects.filter(pk=program.quilt_id).update(block_size="12")
    line = line_of(packed(program, 5), "A")
    assert line.line.minimum == 4 * Q(7, 2)  # 3 strips for the long sides, 2 of 12 1/2 in in a fourth
    assert list(layout_faults(plan_of(line), line.demands, width=Q(40))) == []


def test_a_print_with_a_direction_is_never_turned_and_cut_in_strips_across() -> None:
    """2 of 2 1/2 x 6 1/2 in: one strip of 2 1/2 in."""
    program = make_program()
    Fabric.objects.filter(number="TW-4").update(direction=Direction.ONE_WAY)
    line = line_of(packed(program, 4), "D")
    assert line.line.minimum == Q(5, 2)
    assert not any(cut.turned for strip in plan_of(line).strips for cut in strip.cuts)


def test_the_fabrics_own_width_counts() -> None:
    program = make_program()
    wide = line_of(packed(program, 4), "D").line.minimum
    Fabric.objects.filter(number="TW-4").update(usable_width="7")
    assert (wide, line_of(packed(program, 4), "D").line.minimum) == (Q(5, 2), 5)  # one above the other


def test_allowances_are_the_programs() -> None:
    program = make_program(squaring_up="2", sold_by="1")
    assert line_of(packed(program, 5), "E").line.suggested == 10  # 7 1/2 + 2 = 9 1/2, up to 10


def test_a_fabric_too_narrow_for_a_piece_is_named() -> None:
    program = make_program()
    Fabric.objects.filter(number="TW-3").update(usable_width="3")
    with pytest.raises(ProgramError) as caught:
        packed(program, 2)
    assert caught.value.field == "usable_width"
    assert caught.value.facts["fabric"] == "Tidewater accent"


def test_a_letter_without_fabric_is_named() -> None:
    program = make_program()
    ColorwayFabric.objects.filter(colorway__slug="meadow", letter__letter="B").delete()
    packed(program, 1, "harbour")
    with pytest.raises(ProgramError) as caught:
        packed(program, 1, "meadow")
    assert (caught.value.field, caught.value.facts) == ("fabrics", {"letter": "B"})


def test_weight_of_half_a_yard() -> None:
    """18 x 44 in at 150 g per square metre: .4572 m x 1.1176 m = .51097 sq m, 76.6 g, up to 77."""
    fabric = Fabric(nominal_width=Q(44), weight_gsm=150)
    assert grams(fabric, Q(18)) == 77


@pytest.mark.parametrize("slug", ["harbour", "meadow"])
def test_packets_sum_to_the_year(slug: str) -> None:
    program = make_program()
    work = work_of(program)
    lines = [line for each in packets(program, work, colorway(program, slug)) for line in each.lines]
    for total in year(program, work, colorway(program, slug)):
        mine = [line for line in lines if line.fabric == total.fabric]
        assert total.suggested == sum(line.line.suggested for line in mine)
        assert total.minimum == sum(line.line.minimum for line in mine)
        assert total.pieces == sum(piece.count for line in mine for piece in line.pieces)
    assert sum(total.pieces for total in year(program, work, colorway(program, slug))) == sum(
        piece.count for month in work.installments for cut in month.pieces.values() for piece in cut
    )


def test_a_month_to_catch_up_has_an_empty_packet() -> None:
    empty = packed(make_program(), 3)
    assert (empty.lines, empty.weight_grams) == ((), 0)


def test_a_damaged_plan_is_found_out() -> None:
    """A piece moved onto its neighbour, one left out, one outside the fabric."""
    line = line_of(packed(make_program(), 2), "A")
    plan = plan_of(line)
    (strip,) = plan.strips
    onto = replace(strip.cuts[1], x=strip.cuts[0].x)
    outside = replace(strip.cuts[-1], x=Q(39))
    damaged = {
        "no piece on another": (strip.cuts[0], onto, *strip.cuts[2:]),
        "4 cut": strip.cuts[:-1],
        "inside": (*strip.cuts[:-1], outside),
    }
    for words, cuts in damaged.items():
        spoiled = replace(plan, strips=(replace(strip, cuts=cuts),))
        found = list(layout_faults(spoiled, line.demands, width=Q(40)))
        assert any(words in finding.expected for finding in found), words
    assert list(layout_faults(plan, line.demands, width=Q(40))) == []
