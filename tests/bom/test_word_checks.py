"""What stops a designer's words, and where; what fills the places of the numbers."""

from __future__ import annotations

import pytest

from bom.domain.chain import work_of
from bom.domain.editions import sheet_data
from bom.domain.proofs import Result, prove_program
from bom.domain.records import read_colorways
from bom.domain.word_checks import WordFault, known_now, word_faults, words_hold
from bom.domain.word_pages import said_words, settable
from bom.domain.word_places import key_of, places_by_key
from bom.models import Installment, Program
from patterns.engine.measure import Units, write_inches
from tests.factories import make_program

pytestmark = [pytest.mark.django_db, pytest.mark.slow]


@pytest.fixture
def program() -> Program:
    return make_program()


@pytest.fixture
def stars(program: Program) -> Installment:
    """Give installment 2: two blocks of 6 in."""
    return program.installments.get(number=2)


def faults(installment: Installment, tips: str) -> list[WordFault]:
    return word_faults({"tips": tips}, known_now(installment))


def said(installment: Installment, text: str, *, units: Units = Units.INCHES, at: int = 0) -> str:
    colorway = read_colorways(installment.program)[at]
    work = work_of(installment.program)
    return said_words(installment, text, work=work, colorway=colorway, units=units)


def filled(installment: Installment, name: str, units: Units = Units.INCHES) -> str:
    colorway = read_colorways(installment.program)[0]
    return places_by_key(installment, work_of(installment.program), colorway)[key_of(name)].text(units)


def test_places_are_filled_from_the_chain(stars: Installment) -> None:
    assert filled(stars, "seam") == "1/4 in"
    assert filled(stars, "Finished  Size") == "6\u00a0×\u00a06 in"
    assert filled(stars, "unfinished size") == "6 1/2\u00a0×\u00a06 1/2 in"  # 6 + 2 x 1/4
    assert filled(stars, "quilt size") == "28\u00a0×\u00a012 in"
    assert filled(stars, "number of installments") == "5"
    (first, *_rest) = work_of(stars.program).installment(2).pieces["A"]
    assert filled(stars, "number of a1") == str(first.count)


def test_places_follow_the_reader_s_measure_and_cloth(stars: Installment) -> None:
    assert filled(stars, "finished size", Units.CENTIMETRES) == "15.3\u00a0×\u00a015.3 cm"  # 15.24 cm
    first, second = (said(stars, "{fabric D}", at=at) for at in (0, 1))
    assert ("Tidewater frame" in first, "Tidewater accent" in second) == (True, True)


def test_finishing_has_its_own_places(program: Program) -> None:
    last = program.installments.get(number=5)
    assert filled(last, "binding width") == f"{write_inches(program.quilt.binding_strip)} in"
    assert filled(last, "backing size") == "36\u00a0×\u00a020 in"  # 28 x 12 and 4 in on every side


def test_what_the_chain_knows_passes(stars: Installment) -> None:
    assert faults(stars, "Sew {seam} seams. Trim to {unfinished size}.\n\n- {Cut size of A1}") == []


def test_an_unknown_place_is_named_with_line_column_and_a_near_name(stars: Installment) -> None:
    (fault,) = faults(stars, "Good.\n\nTrim to {unfinishd size}.")
    assert (fault.field, fault.line, fault.column, fault.text) == ("tips", 3, 9, "{unfinishd size}")
    assert "{unfinished size}" in fault.remedy
    assert fault.stops


def test_a_typed_length_that_the_sheet_does_not_say_stops(stars: Installment) -> None:
    (fault,) = faults(stars, "Trim to 2 5/8 in.")
    assert (fault.line, fault.column, fault.text, fault.stops) == (1, 9, "2 5/8 in", True)
    assert [each.text for each in faults(stars, '5 cm and 1/0 in, 7"')] == ["5 cm", "1/0 in", '7"']


def test_a_typed_length_that_it_says_is_only_to_be_looked_at(stars: Installment) -> None:
    (fault,) = faults(stars, "It measures 6 1/2 in.")
    assert not fault.stops
    assert "size" in fault.remedy


def test_loose_braces_stop(stars: Installment) -> None:
    assert [(each.column, each.text) for each in faults(stars, "{seam {seam}")] == [(1, "{")]
    assert [(each.column, each.text) for each in faults(stars, "a { b")] == [(3, "{")]


def test_letters_that_our_fonts_lack_stop_and_are_left_out(stars: Installment) -> None:
    (fault,) = faults(stars, "Well 🙂 done 🙂")
    assert (fault.text, fault.column) == ("🙂", 6)
    assert settable("a🙂b ⅛ 2⅛ ½") == "ab 1/8 2 1/8 1/2"
    assert word_faults({"title": "Ωμέγα"}, known_now(stars))[0].field == "title"


def test_lists_too_deep_stop(stars: Installment) -> None:
    (fault,) = faults(stars, "- a\n  - b\n    - c\n      - d")
    assert (fault.line, fault.stops) == (4, True)


def test_the_proof_stops_with_the_place(program: Program, stars: Installment) -> None:
    Installment.objects.filter(pk=stars.pk).update(story="Cut 2 7/8 in.")
    (month,) = [each for each in prove_program(program).installments if each.number == 2]
    (check,) = [each for each in month.checks if each.name == "words"]
    assert check.result is Result.STOP
    assert [(each.step, each.piece) for each in check.findings] == [("story, line 1, column 5", "2 7/8 in")]


def test_a_title_is_no_markup(stars: Installment) -> None:
    stars.title = "2 in {x}"
    assert words_hold(stars, known_now(stars)).result is Result.PASSED


def test_an_edition_keeps_what_fills_the_places(stars: Installment) -> None:
    assert "filled" not in sheet_data(stars)
    stars.tips = "{Seam}, {quilt size}, {fabric A}, {nothing}"
    assert sheet_data(stars)["filled"] == {"seam": "1/4", "quilt size": "28 x 12"}


def test_words_carry_their_language(stars: Installment) -> None:
    assert said(stars, "A *star*.") == '<div class="words-of" lang="en"><p>A <em>star</em>.</p>\n</div>'
    assert said(stars, " ") == ""
