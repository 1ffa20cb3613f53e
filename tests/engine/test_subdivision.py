"""Patches from seams: exact faces, what divides nothing is named, and seams come back from patches."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine import geometry
from patterns.engine.errors import PointSeam, SeamOutside, TooManyLines
from patterns.engine.partition import check_partition
from patterns.engine.parts import Patch, Point
from patterns.engine.seam_lines import Seam, seams_of
from patterns.engine.subdivision import (
    MOST_SEAMS,
    Loose,
    letter_points,
    letters_over,
    patches_of,
    point_inside,
)
from patterns.engine.surds import Number, root
from tests.engine.drawings import SLUGS, traditional
from tests.engine.random_drawings import random_block

F = Fraction


def seam(*ends: Number | int | str) -> Seam:
    x1, y1, x2, y2 = (F(number) if isinstance(number, int | str) else number for number in ends)
    return Seam(start=(x1, y1), end=(x2, y2))


def outlines(patches: tuple[Patch, ...]) -> set[tuple[str, geometry.Polygon]]:
    return {(patch.fabric, geometry.tidied(patch.points)) for patch in patches}


def faces(size: int, *seams: Seam) -> list[geometry.Polygon]:
    return [patch.points for patch in patches_of(F(size), F(size), seams, letters={}).patches]


def test_no_seam_leaves_one_patch() -> None:
    assert faces(4) == [((0, 0), (4, 0), (4, 4), (0, 4))]


def test_two_crossing_seams_make_four_triangles_from_the_top() -> None:
    found = faces(2, seam(0, 0, 2, 2), seam(2, 0, 0, 2))
    assert found == [
        ((0, 0), (1, 1), (0, 2)),
        ((0, 0), (2, 0), (1, 1)),
        ((1, 1), (2, 0), (2, 2)),
        ((0, 2), (1, 1), (2, 2)),
    ]


def test_a_seam_that_ends_on_another_makes_a_t() -> None:
    assert len(faces(4, seam(2, 0, 2, 4), seam(2, "1/2", 4, "1/2"))) == 3


def test_a_seam_along_a_side_and_a_seam_drawn_twice_change_nothing() -> None:
    once = faces(4, seam(0, 2, 4, 2))
    assert faces(4, seam(0, 2, 4, 2), seam(4, 2, 1, 2), seam(0, 0, 3, 0)) == once


def test_crossing_off_the_grid_is_exact() -> None:
    found = faces(3, seam(0, 0, 3, 1), seam(1, 0, 0, 3))
    assert (F(9, 10), F(3, 10)) in {point for face in found for point in face}


def test_roots_are_exact_too() -> None:
    side, cut = 1 + root(2), root(F(1, 2))
    corners = [seam(cut, 0, 0, cut), seam(side - cut, 0, side, cut)]
    divided = patches_of(side, side, corners, letters={})
    check_partition(side, side, divided.patches)
    assert len(divided.patches) == 3


def test_an_open_end_is_named_and_left_out() -> None:
    divided = patches_of(F(4), F(4), [seam(0, 2, 4, 2), seam(1, 2, 3, 3)], letters={})
    assert len(divided.patches) == 2
    (loose,) = divided.loose
    assert (loose.why, loose.places) == (Loose.OPEN_END, ((3, 3),))
    assert loose.pieces == (seam(1, 2, 3, 3),)


def test_only_the_part_beyond_the_last_meeting_is_open() -> None:
    divided = patches_of(F(4), F(4), [seam(0, 2, 3, 2), seam(2, 0, 2, 4)], letters={})
    assert len(divided.patches) == 3
    assert divided.loose[0].pieces == (seam(2, 2, 3, 2),)


def square_at(x: int, y: int) -> list[Seam]:
    corners = [(x, y), (x + 1, y), (x + 1, y + 1), (x, y + 1)]
    pairs = zip(corners, corners[1:] + corners[:1], strict=True)
    return [seam(*start, *end) for start, end in pairs]


@pytest.mark.parametrize("extra", [[], [seam(0, 0, 1, 1)]], ids=["touching nothing", "hanging on one seam"])
def test_a_ring_is_named_and_leaves_no_hole(extra: list[Seam]) -> None:
    divided = patches_of(F(4), F(4), [*square_at(1, 1), *extra], letters={})
    assert [loose.why for loose in divided.loose] == [Loose.RING]
    assert len(divided.patches) == 1


def test_a_ring_that_touches_a_side_at_one_point_is_named() -> None:
    diamond = [seam(2, 0, 3, 1), seam(3, 1, 2, 2), seam(2, 2, 1, 1), seam(1, 1, 2, 0)]
    divided = patches_of(F(4), F(4), diamond, letters={})
    assert (divided.loose[0].why, len(divided.patches)) == (Loose.RING, 1)


def test_a_ring_that_a_second_seam_ties_counts() -> None:
    tied = [*square_at(1, 1), seam(0, 0, 1, 1), seam(2, 2, 4, 4)]
    divided = patches_of(F(4), F(4), tied, letters={})
    assert (divided.loose, len(divided.patches)) == ((), 3)


def test_bad_seams_are_named_by_their_place() -> None:
    with pytest.raises(SeamOutside) as outside:
        patches_of(F(4), F(4), [seam(0, 0, 5, 1)], letters={})
    assert outside.value.where == (5, 1)
    with pytest.raises(PointSeam):
        patches_of(F(4), F(4), [seam(1, 1, 1, 1)], letters={})
    with pytest.raises(TooManyLines):
        patches_of(F(4), F(4), [seam(0, 1, 4, 1)] * (MOST_SEAMS + 1), letters={})
    net = [seam(0, F(i, 20), 4, F(i, 20)) for i in range(1, 40)]
    with pytest.raises(TooManyLines):  # 1,600 patches from few seams
        patches_of(F(4), F(4), [*net, *(Seam(start=s.start[::-1], end=s.end[::-1]) for s in net)], letters={})


def test_a_new_seam_keeps_the_letters_it_does_not_touch_and_both_halves_of_the_one_it_cuts() -> None:
    points: dict[Point, str] = {(F(1), F(1)): "C", (F(3), F(1)): "B"}
    before = patches_of(F(4), F(4), [seam(2, 0, 2, 4)], letters=points)
    assert [patch.fabric for patch in before.patches] == ["C", "B"]
    cut = [seam(2, 0, 2, 4), seam(2, 2, 4, 2)]
    after = patches_of(F(4), F(4), cut, letters={}).patches
    letters = letters_over(after, before.patches)
    assert [patch.fabric for patch in patches_of(F(4), F(4), cut, letters=letters).patches] == ["C", "B", "B"]


def test_letters_are_found_on_grids_of_any_size_and_with_roots() -> None:
    for side in (F(1, 50), F(900), 1 + root(2)):
        across = [Seam(start=(F(0), side / 2), end=(side, side / 2))]
        divided = patches_of(side, side, across, letters={(side / 3, side / 4): "C", (side / 3, side): "D"})
        assert [patch.fabric for patch in divided.patches] == ["C", "A"]
        letters = letters_over(divided.patches, divided.patches)
        assert list(letters.values()) == ["C", "A"]


def test_a_patch_without_a_remembered_point_is_a() -> None:
    assert patches_of(F(1), F(1), [], letters={}).patches[0].fabric == "A"


@pytest.mark.parametrize("slug", SLUGS)
def test_every_traditional_block_comes_back_from_its_seams(slug: str) -> None:
    block = traditional(slug)
    seams = seams_of(block.width, block.height, block.patches)
    divided = patches_of(block.width, block.height, seams, letters=letter_points(block.patches))
    assert divided.loose == ()
    assert outlines(divided.patches) == outlines(block.patches)
    assert seams_of(block.width, block.height, divided.patches) == seams


@given(st.integers(0, 10_000))
def test_random_blocks_come_back_from_their_seams(number: int) -> None:
    block = random_block(number)
    seams = seams_of(block.width, block.height, block.patches)
    divided = patches_of(block.width, block.height, seams, letters=letter_points(block.patches))
    assert outlines(divided.patches) == outlines(block.patches)


@given(st.integers(0, 10_000))
def test_any_seams_give_a_partition_in_any_order(number: int) -> None:
    rng = Random(number)
    size, halves = rng.randrange(2, 7), rng.choice((1, 2))
    ends = [(F(rng.randrange(size * halves + 1), halves), F(rng.randrange(size + 1))) for _ in range(24)]
    pairs = zip(ends[::2], ends[1::2], strict=True)
    seams = [Seam(start=start, end=end) for start, end in pairs if start != end]
    divided = patches_of(F(size), F(size), seams, letters={})
    check_partition(F(size), F(size), divided.patches)
    assert all(geometry.inside(point_inside(patch.points), patch.points) for patch in divided.patches)
    rng.shuffle(seams)
    turned = [Seam(start=each.end, end=each.start) for each in seams]
    assert patches_of(F(size), F(size), turned, letters={}) == divided
    found = seams_of(F(size), F(size), divided.patches)
    assert patches_of(F(size), F(size), found, letters={}).patches == divided.patches
