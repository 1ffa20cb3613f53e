"""The yardage calculator: allowances named, rounded once, in the form that takes least."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.measure import CENTIMETRE, YARD, Units, inches
from patterns.engine.strips import Demand
from patterns.engine.yardage import (
    FAT_EIGHTH,
    FAT_QUARTER,
    Allowances,
    FabricForm,
    PacketLine,
    length_line,
    packet_line,
)

ALL_FORMS = tuple(FabricForm)
USUAL = Allowances()


def line(
    *pieces: tuple[str, str, int], allowances: Allowances = USUAL, forms: tuple[FabricForm, ...] = ()
) -> PacketLine:
    demands = [
        Demand(label=f"A{n}", width=inches(w), length=inches(h), count=count)
        for n, (w, h, count) in enumerate(pieces, 1)
    ]
    return packet_line(demands, usable_width=Fraction(40), allowances=allowances, forms=forms)


def test_the_minimum_is_the_plan_and_the_suggestion_has_its_allowances() -> None:
    found = line(("2 1/2", "4 1/2", 48), ("2 1/2", "2 1/2", 144))
    assert found.minimum == 3 * inches("4 1/2") + 9 * inches("2 1/2") == 36
    assert found.suggested == inches("40 1/2")  # 36 + 1 squaring up, up to 1/8 yd
    assert found.bought(Units.INCHES) == "1 1/8 yd"
    assert found.cut_length == found.suggested + 3 * Fraction(1, 2)  # three half yards begun


def test_less_than_half_an_inch_to_spare_takes_the_next_step() -> None:
    """63 squares of 9 1/2 in: 152 in and 1 in for squaring up are 4 1/4 yd to the thread."""
    assert line(("9 1/2", "9 1/2", 63)).suggested == 153 + inches("4 1/2")
    assert USUAL.suggested(Fraction(8)) == inches("13 1/2")  # 9 in exactly would leave nothing
    assert USUAL.suggested(inches("7 1/2")) == 9  # leaves 1/2 in


def test_shrinkage_divides() -> None:
    """Flannel at 5 %: 4 yd needed are 4 1/4 yd bought (common practice, case C19)."""
    flannel = Allowances(squaring_up=Fraction(0), shrinkage=Fraction(1, 20), sold_by=YARD / 4)
    assert flannel.needed(Fraction(144)) == Fraction(144 * 20, 19)
    assert flannel.suggested(Fraction(144)) == 153


def test_a_spare_strip_is_of_the_tallest_kind() -> None:
    spare = Allowances(spare_strip=True)
    plain, spared = (line(("2 1/2", "4 1/2", 16), allowances=each) for each in (USUAL, spare))
    assert spared.minimum == plain.minimum == inches("4 1/2")
    assert spared.suggested == inches("13 1/2")  # 2 x 4 1/2 + 1 = 10, up to 1/8 yd


def test_fabric_sold_by_five_centimetres_is_said_in_metres() -> None:
    metric = Allowances(sold_by=5 * CENTIMETRE)
    found = line(("2 1/2", "2 1/2", 48), allowances=metric)
    assert found.minimum == inches("7 1/2")
    assert found.suggested == 25 * CENTIMETRE  # 8 1/2 in are 21.59 cm
    assert found.bought(Units.INCHES) == found.bought(Units.METRIC_PURCHASE) == "0.25 m"


@pytest.mark.parametrize(
    ("pieces", "form", "bought"),
    [
        ([("5", "5", 1)], FabricForm.PIECE, "6 x 6 in"),
        ([("4 1/4", "4 1/4", 8)], FabricForm.FAT_EIGHTH, "fat eighth"),
        ([("2 1/2", "2 1/2", 56)], FabricForm.FAT_QUARTER, "fat quarter"),
        ([("2 1/2", "2 1/2", 120)], FabricForm.LENGTH, "5/8 yd"),
    ],
)
def test_the_form_that_takes_least_is_chosen(
    pieces: list[tuple[str, str, int]], form: FabricForm, bought: str
) -> None:
    found = line(*pieces, forms=ALL_FORMS)
    assert (found.form, found.bought(Units.INCHES)) == (form, bought)


def test_forms_that_are_not_allowed_are_not_used() -> None:
    assert line(("5", "5", 1)).form == FabricForm.LENGTH


def test_of_forms_that_take_the_same_the_first_named_is_taken() -> None:
    """A quarter yard and a fat quarter are both 9 in of full width."""
    forms = (FabricForm.LENGTH, FabricForm.FAT_QUARTER)
    assert line(("5", "5", 1), forms=forms).form == FabricForm.LENGTH
    assert line(("5", "5", 1), forms=forms[::-1]).form == FabricForm.FAT_QUARTER


def test_a_fat_quarter_is_first_cut_whichever_way_fits() -> None:
    """Three of 6 3/4 x 17 1/2 in lie side by side: one strip across, or three along."""
    one_way = Demand(label="A", width=Fraction(27, 4), length=Fraction(35, 2), count=3, may_turn=False)
    found = packet_line(
        [one_way], usable_width=Fraction(40), allowances=USUAL, forms=(FabricForm.FAT_QUARTER,)
    )
    assert (found.form, found.per_cut, found.cut_length) == (FabricForm.FAT_QUARTER, 2, 18)
    assert found.suggested == 9  # its share of a full-width half yard


def test_a_strip_along_the_fat_quarter_is_found() -> None:
    wide = [
        Demand(label="A", width=Fraction(19, 2), length=Fraction(35, 2), count=1, may_turn=False),
        Demand(label="B", width=Fraction(11), length=Fraction(35, 4), count=2, may_turn=False),
    ]
    found = packet_line(wide, usable_width=Fraction(40), allowances=USUAL, forms=(FabricForm.FAT_QUARTER,))
    assert found.form == FabricForm.FAT_QUARTER
    assert found.strips_along
    assert found.plan is not None
    assert found.plan.total_length == Fraction(41, 2)


def test_small_forms_have_the_sizes_of_the_trade() -> None:
    """18 x 22 and 9 x 22 in nominal (values PC-01, PC-04); 17 1/2 x 20 to 21 usable (common practice)."""
    assert (FAT_QUARTER.along, FAT_QUARTER.across) == (Fraction(35, 2), Fraction(41, 2))
    assert (FAT_EIGHTH.along, FAT_EIGHTH.across) == (Fraction(17, 2), Fraction(41, 2))


def test_washing_makes_a_fat_quarter_smaller() -> None:
    """56 squares of 2 1/2 in fill 20 x 17 1/2 in of the 20 1/2 x 17 1/2; at 5 % that no longer holds."""
    washed = Allowances(shrinkage=Fraction(1, 20))
    forms = (FabricForm.FAT_QUARTER,)
    assert line(("2 1/2", "2 1/2", 56), forms=forms).form == FabricForm.FAT_QUARTER
    assert line(("2 1/2", "2 1/2", 56), forms=forms, allowances=washed).form == FabricForm.LENGTH


def test_backing_is_a_length_without_a_plan() -> None:
    found = length_line(Fraction(160), allowances=USUAL)
    assert (found.plan, found.minimum, found.suggested) == (None, 160, 162)
    assert found.as_data() == {
        "form": "length",
        "minimum": "160",
        "suggested": "162",
        "bought": "4 1/2 yd",
        "plan": None,
    }


def test_a_piece_wider_than_the_fabric_is_an_error_in_every_form() -> None:
    with pytest.raises(PieceWiderThanFabric):
        line(("41", "42", 1), forms=ALL_FORMS)


@given(
    length=some.fractions(min_value=Fraction(1), max_value=400, max_denominator=16),
    shrinkage=some.sampled_from([Fraction(0), Fraction(1, 20)]),
)
@settings(max_examples=40)
def test_a_suggestion_is_sold_and_leaves_half_an_inch(length: Fraction, shrinkage: Fraction) -> None:
    allowances = Allowances(shrinkage=shrinkage)
    suggested = allowances.suggested(length)
    assert suggested % allowances.sold_by == 0
    assert Fraction(1, 2) <= suggested - allowances.needed(length) < allowances.sold_by + Fraction(1, 2)
