"""Diamonds from strips cut at an angle: strip, distance of the cuts, pieces a strip gives, hands, faults."""

from __future__ import annotations

from fractions import Fraction

import pytest
from shapely import affinity
from shapely.geometry import Polygon, box

from patterns.domain.wording import say
from patterns.engine.cutting import reconcile
from patterns.engine.difficulty import count_work
from patterns.engine.methods import HouseStyle, admitted_methods
from patterns.engine.parts import Point, UnitKind
from patterns.engine.rebuild import prove
from patterns.engine.steps import MarkKind
from patterns.engine.strips import Demand, plan_strips
from patterns.engine.surds import Number, root
from patterns.engine.units.base import Job, Style
from patterns.engine.units.slices import FROM_STRIPS, SLICED, slant_of, strips_for
from patterns.engine.units.templates import WITH_A_TEMPLATE
from tests.engine.drawn import drawing, proof_of, recipe
from tests.engine.fitted_samples import points
from tests.engine.slanting_samples import COSINE, SINE, diamond, leaning, patch, star
from tests.engine.unit_samples import METRIC, draft, proof

pytestmark = pytest.mark.slow

SEAM = Fraction(1, 4)
SPACE = "\N{NO-BREAK SPACE}"


# ---- which patches


@pytest.mark.parametrize("angle", [45, 60])
@pytest.mark.parametrize("lean", ["right", "left"])
def test_a_diamond_is_cut_leaning_right_however_it_lies(angle: int, lean: str) -> None:
    found = slant_of(leaning(angle, Fraction(3), Fraction(3), lean=lean))
    assert found is not None
    assert (found.angle, found.long, found.lean, found.is_diamond) == (angle, 3, "right", True)


@pytest.mark.parametrize("lean", ["right", "left"])
def test_a_longer_patch_has_a_hand_and_lies_along_the_strip(lean: str) -> None:
    found = slant_of(leaning(60, Fraction(5), Fraction(2), lean=lean))
    assert found is not None
    assert (found.angle, found.long, found.short, found.lean) == (60, 5, 2, lean)
    assert slant_of(tuple(reversed(leaning(60, Fraction(5), Fraction(2), lean=lean)))) == found


@pytest.mark.parametrize(
    "outline",
    [
        points((0, 0), (3, 0), (3, 3), (0, 3)),  # square
        points((0, 0), (3, 0), (5, 1), (2, 1)),  # another angle
        points((0, 0), (3, 0), (2, 1), (0, 1)),  # ends that lean differently
        points((0, 1), (2, 0), (6, 1), (2, 2)),  # kite
        points((0, 0), (2, 0), (0, 2)),
    ],
)
def test_other_patches_are_none(outline: tuple[Point, ...]) -> None:
    assert slant_of(outline) is None
    assert FROM_STRIPS not in admitted_methods(patch(outline, UnitKind.TEMPLATE), 4)


# ---- sizes


@pytest.mark.parametrize(("block", "wide"), [(6, "7/4"), (9, "19/8"), (12, "3"), (15, "29/8")])
def test_strips_of_an_eight_point_star(block: int, wide: str) -> None:
    """Common practice, from memory: 1 3/4, 2 3/8, 3 and 3 5/8 in for stars of 6, 9, 12 and 15 in.

    The patch of a star of side b has edges of b (1 - 1 / sqrt 2), and is b (sqrt 2 - 1) / 2 wide.
    """
    edge = block * (1 - 1 / root(2))
    unit = patch(leaning(45, edge, edge))
    assert admitted_methods(unit, 8)[0] == FROM_STRIPS
    needs = draft(unit, FROM_STRIPS, 4).needs
    assert [(need.width, need.then) for need in needs] == [(Fraction(wide), SLICED)]
    assert 0 <= needs[0].width - block * (root(2) - 1) / 2 - 2 * SEAM <= Fraction(1, 32)


@pytest.mark.parametrize(("angle", "factor"), [(45, 1 / root(2)), (60, root(3) / 2)])
def test_strip_and_distance_are_edge_times_sine_and_two_seams(angle: int, factor: Number) -> None:
    """E / sqrt 2 + 2 seams at 45 degrees, e sqrt 3 / 2 + 2 seams at 60 (derived geometry)."""
    for edge in (Fraction(n, 8) for n in range(8, 60, 7)):
        found = strips_for(Job(unit=patch(leaning(angle, edge, edge)), make=1, style=Style()))
        assert found is not None
        assert found.wide == found.apart
        assert 0 <= found.wide - (edge * factor + 2 * SEAM) < Fraction(1, 8)


def test_a_width_far_from_a_mark_keeps_its_template() -> None:
    """2.07 in and two seams: 2 5/8 in would be 0.054 in too wide. 3.961 in: 4 in may be asked for."""
    edge = 10 * (1 - 1 / root(2))
    assert admitted_methods(patch(leaning(45, edge, edge)), 8) == (WITH_A_TEMPLATE,)
    assert admitted_methods(diamond(60, Fraction(443, 128)), 8) == (WITH_A_TEMPLATE, FROM_STRIPS)


def test_sizes_on_the_ruler_are_not_bumped() -> None:
    needs = draft(diamond(45, 2), FROM_STRIPS, 1).needs
    assert needs[0].width == Fraction(5, 2)
    found = proof(diamond(45, 2), FROM_STRIPS)
    assert (found.findings, found.deviations) == ((), ())


# ---- how many a strip gives


def fits(angle: int, wide: float, length: float, *, pieces: int) -> bool:
    """Lay pieces side by side on a strip, in floats."""
    strip = box(0, 0, length, wide)
    sine, cosine = float(SINE[angle]), float(COSINE[angle])
    lean, step = wide * cosine / sine, wide / sine
    piece = Polygon([(lean, wide), (lean + step, wide), (step, 0), (0, 0)])
    return all(strip.buffer(1e-9).contains(affinity.translate(piece, k * step)) for k in range(pieces))


@pytest.mark.parametrize("angle", [45, 60])
@pytest.mark.parametrize("wide", ["5/4", "2", "5/2", "31/8"])
@pytest.mark.parametrize("usable", ["20", "40", "42"])
def test_a_strip_gives_as_many_as_fit(angle: int, wide: str, usable: str) -> None:
    """The figure of the method against shapely: so many fit, one more does not."""
    style = Style(usable_width=Fraction(usable))
    found = strips_for(Job(unit=diamond(angle, Fraction(wide) - 2 * SEAM), make=1, style=style))
    assert found is not None
    cut = float(Fraction(wide))
    assert fits(angle, cut, float(Fraction(usable)), pieces=found.most)
    assert not fits(angle, cut, float(Fraction(usable)), pieces=found.most + 1)
    assert fits(angle, cut, float(found.length(5)), pieces=5)
    assert not fits(angle, cut, float(found.length(5) - Fraction(1, 8)), pieces=5)


def test_full_strips_then_the_rest() -> None:
    """40 in wide, cut 2 1/2 at 45 degrees: 3.536 in apart along the edge, 2 1/2 lost at the ends: 10."""
    needs = draft(diamond(45, 2), FROM_STRIPS, 32).needs
    assert [(need.count, need.width, need.length) for need in needs] == [
        (3, Fraction(5, 2), Fraction(303, 8)),  # 10 x 2 1/2 sqrt 2 + 2 1/2 = 37.86
        (1, Fraction(5, 2), Fraction(77, 8)),  # 2 x 2 1/2 sqrt 2 + 2 1/2 = 9.57
    ]
    assert (
        sum(row["times"] * row["pieces"] for row in draft(diamond(45, 2), FROM_STRIPS, 32).operations) == 32
    )


def test_the_strip_plan_takes_the_strips_as_they_are() -> None:
    demands = [
        Demand(label=need.ref, width=need.width, length=need.length, count=need.count)
        for need in draft(diamond(45, 2), FROM_STRIPS, 32).needs
    ]
    plan = plan_strips(demands, usable_width=Fraction(40))
    assert (plan.total_length, plan.proven) == (Fraction(10), True)


def test_a_strip_too_short_for_one_piece_is_not_offered() -> None:
    assert FROM_STRIPS not in admitted_methods(diamond(45, 4), 2, Style(usable_width=Fraction(10)))


# ---- sewing


@pytest.mark.parametrize(
    "style", [Style(), Style(house=HouseStyle.OVERSIZED), METRIC, Style(seam=Fraction(3, 8))]
)
@pytest.mark.parametrize("angle", [45, 60])
@pytest.mark.parametrize("lean", ["right", "left"])
def test_longer_patches_of_both_hands_are_proven_alone(style: Style, angle: int, lean: str) -> None:
    """Sizes that end on the cutting step: exact."""
    long, short = ((steps * style.step - 2 * style.seam) / SINE[angle] for steps in (32, 16))
    unit = patch(leaning(angle, long, short, lean=lean), UnitKind.TEMPLATE)
    assert admitted_methods(unit, 4, style)[0] == FROM_STRIPS
    found = proof(unit, FROM_STRIPS, style=style)
    assert (found.findings, found.deviations) == ((), ())


@pytest.mark.parametrize("size", [9, 12])
@pytest.mark.parametrize("house", list(HouseStyle))
def test_an_eight_point_star_is_sewn_from_strips(size: int, house: HouseStyle) -> None:
    made, drawn = star(Style(house=house), size)
    assert {row.method for row in made.units if row.kind is UnitKind.DIAMOND} == {FROM_STRIPS}
    found = prove(made.as_data(), drawn)
    assert (found.findings, found.patches_right) == ((), 16)
    assert all(deviation.inches <= Fraction(1, 32) for deviation in found.deviations)
    assert reconcile(made).reconciles


@pytest.mark.parametrize("size", ["8", "9"])
@pytest.mark.parametrize("house", list(HouseStyle))
def test_a_hexagon_star_is_sewn_from_strips(size: str, house: HouseStyle) -> None:
    made = recipe("six-point-star", size=size, style=Style(house=house))
    assert {row.method for row in made.units if row.kind is UnitKind.DIAMOND} == {FROM_STRIPS}
    found = proof_of("six-point-star", made)
    assert (found.findings, found.patches_right) == ((), len(drawing("six-point-star")["patches"]))
    assert reconcile(made).reconciles


def test_words_and_pictures_of_a_star() -> None:
    made, _ = star(Style(), 12)
    step = made.steps[0]
    said = " ".join(say(words) for words in step.words).replace(SPACE, " ")
    assert "Make 8. Cut one piece first and measure it before you cut the rest." in said
    assert "Lay 1 A1 across, right side up. Cut off the left end at 45 degrees to the long edge" in said
    assert "From there cut 8 slanting pieces, 3 in wide, measured square to the cut." in said
    assert "one layer" not in said
    laid = say(made.steps[2].words[1]).replace(SPACE, " ")
    assert laid == "Lay out 2 diamonds and 1 triangle, as drawn."
    marks = [mark for mark in step.pictures[0].marks if mark.kind is MarkKind.CUT]
    assert len(marks) == 9
    assert count_work(made).bias_edges == 2 * 8 + 8


def test_a_hand_is_told_in_the_words() -> None:
    unit = patch(leaning(45, Fraction(4) / SINE[45], Fraction(2) / SINE[45], lean="left"), UnitKind.TEMPLATE)
    said = " ".join(say(words) for words in draft(unit, FROM_STRIPS, 2).words)
    assert "leaning to the left" in said
    assert "Cut the strip in one layer" in said
