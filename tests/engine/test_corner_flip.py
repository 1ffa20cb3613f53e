"""Corner-flip squares: recognised last, flipped exactly, their cut-off corners kept as bonus units."""

from __future__ import annotations

from copy import deepcopy
from fractions import Fraction

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.methods import HouseStyle, Style, admitted_methods, draft_unit, unit_key
from patterns.engine.parts import Hand, Unit, UnitKind
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.surds import root
from patterns.engine.units.base import Job
from patterns.engine.units.corner_flip import bonus, leg
from tests.engine.cut_corners import cut_corners
from tests.engine.drawings import block, drawing, inches
from tests.engine.unit_samples import METRIC, proof

PLAIN, BONUS = "corners flipped", "corners flipped, with bonus half-squares"


def unit(shape: tuple[int, int, int], letters: str, *, size: int = 6) -> Unit:
    (found,) = sewing_order(inches(block(shape[:2], *cut_corners(shape, letters)), size)).parts
    assert isinstance(found, Unit)
    return found


@pytest.mark.parametrize(
    ("shape", "letters", "hand"),
    [
        ((6, 6, 2), "BBBB", Hand.EITHER),  # snowball
        ((6, 6, 2), "B...", Hand.EITHER),  # a quarter of a bow tie
        ((6, 6, 2), ".B.C", Hand.EITHER),
        ((6, 6, 2), "BCD.", Hand.LEFT),
        ((6, 6, 2), "DCB.", Hand.RIGHT),
        ((6, 6, 3), "BB..", Hand.EITHER),
        ((6, 3, 3), ".B..", Hand.LEFT),  # the seam leans to the left
        ((6, 3, 3), "B...", Hand.RIGHT),
        ((6, 3, 3), "B.B.", Hand.RIGHT),
        ((6, 3, 1), "BC..", Hand.LEFT),
    ],
)
def test_a_rectangle_with_corners_cut_off_alike(
    shape: tuple[int, int, int], letters: str, hand: Hand
) -> None:
    found = unit(shape, letters)
    assert (found.kind, found.hand) == (UnitKind.CORNER_FLIP, hand)
    assert found.fabrics[0] == "A"
    assert sorted(found.fabrics[1:]) == sorted(letters.replace(".", ""))
    assert found.width >= found.height


@pytest.mark.parametrize(
    ("shape", "letters", "kind"),
    [
        ((6, 6, 6), "B...", UnitKind.HALF_SQUARE),
        ((6, 3, 3), "BC..", UnitKind.FLYING_GEESE),
        ((6, 3, 3), "..BC", UnitKind.FLYING_GEESE),
        ((6, 6, 3), "BBBB", UnitKind.SQUARE_IN_A_SQUARE),
    ],
)
def test_units_with_a_name_of_their_own_keep_it(
    shape: tuple[int, int, int], letters: str, kind: UnitKind
) -> None:
    assert unit(shape, letters).kind is kind


@pytest.mark.parametrize("size", [5, 6, 9])
@pytest.mark.parametrize(
    ("shape", "letters"), [((6, 6, 2), "BBBB"), ((6, 6, 2), "BCD."), ((6, 3, 3), "B..."), ((6, 3, 1), "BCBB")]
)
@pytest.mark.parametrize(
    "style", [Style(), Style(house=HouseStyle.OVERSIZED), METRIC], ids=["exact", "over", "cm"]
)
def test_every_admitted_method_makes_it(
    shape: tuple[int, int, int], letters: str, *, size: int, style: Style
) -> None:
    sample = unit(shape, letters, size=size)
    names = admitted_methods(sample, 3, style)
    assert names[0] == PLAIN
    for name in names:
        assert proof(sample, name, make=3, style=style).findings == ()


def test_cut_sizes_of_a_snowball() -> None:
    """Derived: body finished + 2 seams, corner squares leg + 2 seams."""
    _, draft = draft_unit(unit((6, 6, 2), "BBBB"), 3, Style())
    assert [(need.fabric, need.width, need.length, need.count) for need in draft.needs] == [
        ("A", Fraction(13, 2), Fraction(13, 2), 3),
        ("B", Fraction(5, 2), Fraction(5, 2), 12),
    ]
    assert draft.words[-1].facts["count"] == 12  # bonus half-squares that could be made


def test_the_bonus_finishes_the_leg_less_two_root_two_seams_down_to_the_step() -> None:
    """Derived: sewn two seams from the first; 2 in corners give 1.2929 in, trimmed to 1 1/4 in."""
    sample = unit((6, 6, 2), "BBBB")
    job = Job(unit=sample, make=1, style=Style())
    exact = leg(job) - 2 * root(2) * job.seam
    assert bonus(job) == Fraction(5, 4)
    assert 0 <= exact - bonus(job) < Fraction(1, 8)
    _, draft = draft_unit(sample, 2, Style(overrides={unit_key(sample): BONUS}))
    (spare,) = draft.spares
    assert (spare.count, spare.fabrics, spare.size) == (8, ("B", "A"), (Fraction(7, 4), Fraction(7, 4)))


def test_no_bonus_where_corners_lie_over_each_other_or_are_small() -> None:
    assert admitted_methods(unit((6, 6, 3), "BB.."), 1) == (PLAIN,)
    assert admitted_methods(unit((6, 6, 1), "BBBB"), 1) == (PLAIN,)
    assert BONUS in admitted_methods(unit((6, 6, 2), "B.B."), 1)


def test_sizes_off_the_cutting_step_are_eased_and_said_so() -> None:
    _, draft = draft_unit(unit((6, 6, 2), "BBBB", size=5), 1, Style())  # corners of 5/3 in
    assert len(draft.warnings) == 1
    assert draft.operations[0]["op"] == "ease"


def test_a_bow_tie_goes_together_and_names_its_bonus_units() -> None:
    """Four-patch of two squares and two squares with a flipped corner (traditional, from memory)."""
    quarter, other = cut_corners((3, 3, 1), "..B."), cut_corners((3, 3, 1), "B...")
    moved = [{**p, "points": [[x + 3, y + 3] for x, y in p["points"]]} for p in other]
    squares = [
        {"fabric": "B", "points": [[x, y], [x + 3, y], [x + 3, y + 3], [x, y + 3]]}
        for x, y in ((3, 0), (0, 3))
    ]
    drawn = drawing((6, 6), *quarter, *moved, *squares)
    order = sewing_order(inches(block((6, 6), *drawn["patches"]), 12))
    flipped = next(p for p in order.parts if isinstance(p, Unit) and p.kind is UnitKind.CORNER_FLIP)
    assert order.make[flipped.id] == 2
    made = write_recipe(order, name="Bow Tie", style=Style(overrides={unit_key(flipped): BONUS}))
    data = made.as_data()
    assert prove(data, drawn).goes_together
    assert [(row["count"], row["fabrics"]) for row in data["spares"]] == [(2, ["B", "A"])]


@pytest.mark.parametrize("fault", ["fabric", "place", "seam", "count", "size"])
def test_faults_are_caught(fault: str) -> None:
    drawn = drawing((6, 6), *cut_corners((6, 6, 2), "BCD."))
    sample = unit((6, 6, 2), "BCD.")
    order = sewing_order(inches(block((6, 6), *drawn["patches"]), 6))
    style = Style(overrides={unit_key(sample): BONUS})
    data = deepcopy(write_recipe(order, name="", style=style).as_data())
    assert prove(data, drawn).goes_together
    first = data["steps"][0]["operations"][0]
    if fault == "fabric":
        data["spares"][0]["fabrics"] = ["A", "A"]
    elif fault == "place":
        first["top"][0]["corner"] = "bottom left"
    elif fault == "seam":
        first["sew"][1]["offset"] = "-3/8"
    elif fault == "count":
        data["spares"][0]["count"] += 1
    else:
        data["pieces"][1]["width"] = "19/8"
    assert not prove(data, drawn).goes_together
