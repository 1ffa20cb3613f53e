"""Cut shapes of templates: the seam all round, exact where roots allow, tips blunted, small rectangles."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from shapely.geometry import Polygon

from patterns.engine.likeness import are_mirrored
from patterns.engine.parts import Point, UnitKind
from patterns.engine.surds import Number, root
from patterns.engine.templates import (
    cut_outline,
    edges_of,
    exact_length,
    moved_out,
    template,
    way,
)
from patterns.engine.units.base import Job, Style
from patterns.engine.units.templates import CUT_ONCE, CUT_TWICE, WITH_A_TEMPLATE
from tests.engine.fitted_samples import one_patch, points
from tests.engine.unit_samples import method, proof

SEAM, EIGHTH = Fraction(1, 4), Fraction(1, 8)
DIAMOND = points((0, 0), (3, 0), (3 + 3 / root(2), 3 / root(2)), (3 / root(2), 3 / root(2)))
HEXAGON = points((1, 0), (3, 0), (4, root(3)), (3, 2 * root(3)), (1, 2 * root(3)), (0, root(3)))
KITE = points((0, 1), (2, 0), (6, 1), (2, 2))
NARROW = points((0, 0), (6, 1), (6, 0))
NOTCHED = points((0, 0), (4, 0), (4, 4), (2, 2), (0, 4))


def edge_lengths(shape: tuple[Point, ...]) -> list[Number]:
    lengths = [exact_length(way(*edge)) for edge in edges_of(shape)]
    return [length for length in lengths if length is not None]


def test_square_grows_by_two_seams() -> None:
    assert cut_outline(points((0, 0), (3, 0), (3, 3), (0, 3)), SEAM) == points(
        ("-1/4", "-1/4"), ("13/4", "-1/4"), ("13/4", "13/4"), ("-1/4", "13/4")
    )


def test_diamond_is_as_wide_as_its_strip() -> None:
    """A 45 degree diamond of edge e is cut from strips e / sqrt 2 + 2 seams wide (derived geometry)."""
    shape = cut_outline(DIAMOND, SEAM)
    heights = {y for _, y in shape}
    assert max(heights) - min(heights) == 3 / root(2) + 2 * SEAM


@pytest.mark.parametrize(
    ("outline", "grows"),
    [
        (DIAMOND, (1 + root(2)) + (root(2) - 1)),  # cot 22.5 and cot 67.5 degrees, the two corners of an edge
        (HEXAGON, 2 / root(3)),  # cot 60 degrees, twice
        (points((0, 0), (2, 0), (0, 2)), 2 + root(2)),  # legs: cot 45 and cot 22.5
    ],
)
def test_a_corner_adds_seam_times_the_cotangent_of_its_half(
    outline: tuple[Point, ...], grows: Number
) -> None:
    before = edge_lengths(outline)[0]
    assert edge_lengths(cut_outline(outline, SEAM))[0] - before == SEAM * grows


def test_turning_round_does_not_matter() -> None:
    assert set(cut_outline(KITE[::-1], SEAM)) == set(cut_outline(KITE, SEAM))


@pytest.mark.parametrize("outline", [DIAMOND, HEXAGON, KITE, NARROW, NOTCHED])
def test_cut_shapes_agree_with_a_mitred_buffer(outline: tuple[Point, ...]) -> None:
    """Shapely's buffer with mitred corners; where tips are blunted ours is smaller, by the tips only."""
    ours = Polygon([(float(x), float(y)) for x, y in cut_outline(outline, SEAM)])
    finished = Polygon([(float(x), float(y)) for x, y in outline])
    mitred = finished.buffer(float(SEAM), join_style="mitre", mitre_limit=50)
    assert ours.is_valid
    assert mitred.buffer(1e-9).contains(ours)
    rounded = finished.buffer(float(SEAM) - 1e-9)  # every point within a seam of the patch
    assert ours.contains(rounded)
    if outline not in (NARROW, KITE):
        assert abs(ours.area - mitred.area) < 1e-9


def test_random_outlines_are_never_too_small() -> None:
    """Triangles and four-cornered patches on a grid of eighths: a seam all round, hardly more."""
    chance = Random(7)
    for _ in range(60):
        corners = [(Fraction(chance.randint(0, 64), 8), Fraction(chance.randint(0, 64), 8)) for _ in range(3)]
        finished = Polygon([(float(x), float(y)) for x, y in corners])
        if finished.area < 1:
            continue
        ours = Polygon([(float(x), float(y)) for x, y in cut_outline(tuple(corners), SEAM)])
        assert ours.contains(finished.buffer(float(SEAM) - 1e-9))
        assert finished.buffer(float(SEAM) * 2.62, join_style="mitre", mitre_limit=50).contains(ours)


def test_tips_reach_at_most_one_and_root_two_seams() -> None:
    shape = cut_outline(NARROW, SEAM)
    nearest = Polygon([(float(x), float(y)) for x, y in shape]).exterior.distance(
        Polygon([(0, 0), (6, 1), (6, 0)]).exterior
    )
    assert nearest >= 0.25 - 1e-9
    left = min(x for x, _ in shape)
    assert -left < SEAM * (1 + root(2)) * Fraction(21, 20)  # the blunt end leans by half the corner


def test_edges_may_move_by_distances_of_their_own() -> None:
    square = points((0, 0), (2, 0), (2, 2), (0, 2))
    assert moved_out(square, [SEAM, Fraction(0), Fraction(0), Fraction(0)]) == points(
        (0, "-1/4"), (2, "-1/4"), (2, 2), (0, 2)
    )


def test_template_lies_in_the_smaller_rectangle() -> None:
    """A square on point, 3 in on its side, is cut straight: 3 1/2 in, not 4 3/4."""
    d = 3 / root(2)
    laid = template(points((d, 0), (2 * d, d), (d, 2 * d), (0, d)), seam=SEAM, step=EIGHTH)
    assert (laid.width, laid.length) == (Fraction(7, 2), Fraction(7, 2))
    assert min(x for x, _ in laid.polygon) == min(y for _, y in laid.polygon) == 0


def test_rectangle_stands_and_is_not_bumped() -> None:
    """Finished 3 x 1 in cut square: exactly 1 1/2 x 3 1/2, though it was drawn lying."""
    laid = template(points((0, 0), (3, 0), (3, 1), (0, 1)), seam=SEAM, step=EIGHTH)
    assert (laid.width, laid.length) == (Fraction(3, 2), Fraction(7, 2))


def test_mirror_images_are_told_from_turned_ones() -> None:
    slanted = points((0, 0), (3, 0), (2, 1), (0, 1))
    turned = points((3, 1), (0, 1), (1, 0), (3, 0))
    mirrored = points((3, 0), (0, 0), (1, 1), (3, 1))
    assert are_mirrored(slanted, mirrored)
    assert not are_mirrored(slanted, turned)
    assert not are_mirrored(KITE, KITE)


@pytest.mark.parametrize(
    ("kind", "outline"),
    [
        (UnitKind.DIAMOND, DIAMOND),
        (UnitKind.HEXAGON, HEXAGON),
        (UnitKind.KITE, KITE),
        (UnitKind.TEMPLATE, NARROW),
        (UnitKind.TEMPLATE, NOTCHED),
        (UnitKind.TEMPLATE, points((0, 0), (2, 0), (1 + root(2), root(2)), (root(2) - 1, root(2)))),
    ],
)
@pytest.mark.parametrize("seam", [SEAM, Fraction(3, 8), Fraction(75, 254)])
def test_templates_are_proven_alone(kind: UnitKind, outline: tuple[Point, ...], seam: Fraction) -> None:
    unit = one_patch("unit-1", kind, letter="A", outline=outline)
    found = proof(unit, WITH_A_TEMPLATE, style=Style(seam=seam))
    assert found.findings == ()
    assert found.deviations == ()


@pytest.mark.parametrize(
    ("name", "size"),
    [(CUT_ONCE, Fraction(35, 8)), (CUT_TWICE, Fraction(99, 16))],
)
def test_triangles_of_a_star_come_from_squares(name: str, size: Fraction) -> None:
    """12 in star: legs 6 (2 - sqrt 2) = 3.515 in. Once: + 0.854 = 4.368; twice: 4.971 + 1.207 = 6.178 in."""
    leg = 6 * (2 - root(2))
    d = leg / root(2)
    unit = one_patch("unit-1", UnitKind.TRIANGLE, letter="A", outline=points((0, d), (d, 0), (d, 2 * d)))
    draft = method(unit, name).draft(Job(unit=unit, make=4, style=Style()))
    assert {(need.width, need.length) for need in draft.needs} == {(size, size)}
    assert proof(unit, name).findings == ()
