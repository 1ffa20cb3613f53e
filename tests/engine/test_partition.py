"""A drawing must tile its grid exactly; what is wrong is named with its place."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon as ShapelyPolygon
from shapely.ops import unary_union

from patterns.engine.errors import CrossesItself, DrawingError, Gap, OutsidePatch, Overlap, ZeroArea
from patterns.engine.geometry import area
from patterns.engine.partition import check_partition
from patterns.engine.parts import Patch
from tests.engine.drawings import SLUGS, Drawing, block, box, patch, traditional

LEFT, RIGHT = box("A", 0, 0), box("B", 1, 0)


def refused(*patches: Drawing) -> DrawingError:
    with pytest.raises(DrawingError) as error:
        block((2, 1), *patches)
    return error.value


def test_a_good_drawing_passes_a_corner_on_a_longer_edge_too() -> None:
    t_junction = (box("A", 0, 0, width=2, height=1), box("B", 0, 1), box("C", 1, 1))
    assert len(block((2, 2), *t_junction).patches) == 3


def test_a_gap_is_named_with_a_place_on_its_edge() -> None:
    error = refused(LEFT)
    assert isinstance(error, Gap)
    assert error.where[0] in {1, Fraction(3, 2), 2}
    assert error.as_data()["error"] == "gap"


def test_a_hole_in_the_middle_is_a_gap() -> None:
    frame = [box("A", x, y) for x in range(3) for y in range(3) if (x, y) != (1, 1)]
    with pytest.raises(Gap):
        block((3, 3), *frame)


def test_a_sliver_is_a_gap_however_thin() -> None:
    thin = patch("A", (0, 0), ("999/1000", 0), ("999/1000", 1), (0, 1))
    assert isinstance(refused(thin, RIGHT), Gap)


def test_an_overlap_names_both_patches_and_a_place_inside() -> None:
    wide = patch("A", (0, 0), ("3/2", 0), ("3/2", 1), (0, 1))
    error = refused(wide, RIGHT)
    assert isinstance(error, Overlap)
    assert error.patches == (0, 1)
    assert error.as_data() == {
        "error": "overlap",
        "where": ["3/2", "1/2"],
        "remedy": "move-the-shared-edge",
        "patches": [0, 1],
    }


def test_a_patch_drawn_twice_is_an_overlap() -> None:
    error = refused(LEFT, RIGHT, box("C", 1, 0))
    assert isinstance(error, Overlap)
    assert error.patches == (1, 2)


def test_crossed_bars_without_a_corner_in_each_other_are_an_overlap() -> None:
    with pytest.raises(Overlap) as error:
        block((3, 3), box("A", 1, 0, width=1, height=3), box("B", 0, 1, width=3, height=1))
    assert error.value.patches == (0, 1)


def test_an_overlap_that_a_gap_makes_up_for_is_found() -> None:
    """Areas add up to the grid, and yet it is no partition."""
    with pytest.raises(Overlap):
        block((3, 1), box("A", 0, 0, width=2), box("B", 1, 0))


def test_a_corner_outside_is_named() -> None:
    error = refused(LEFT, patch("B", (1, 0), (3, 0), (2, 1), (1, 1)))
    assert isinstance(error, OutsidePatch)
    assert error.where == (3, 0)
    assert error.patches == (1,)


@pytest.mark.parametrize(
    "points",
    [
        ((1, 0), (2, 1), (2, 0), (1, 1)),  # a bow
        ((1, 0), (2, 0), (2, 1), (1, 1), (1, "1/2"), ("3/2", "1/2"), (1, "1/2")),  # a spike inward
        ((1, 0), (2, 0), (2, 1), ("3/2", 0), (1, 1)),  # a corner touches an edge
    ],
)
def test_an_outline_that_meets_itself_is_refused(points: tuple[tuple[object, object], ...]) -> None:
    error = refused(LEFT, patch("B", *points))
    assert isinstance(error, CrossesItself)
    assert error.patches == (1,)


@pytest.mark.parametrize("points", [((1, 0), (2, 0), (1, 0)), ((1, 0), (2, 0), ("3/2", 0), (1, 0))])
def test_a_patch_without_area_is_refused(points: tuple[tuple[object, object], ...]) -> None:
    assert isinstance(refused(LEFT, RIGHT, patch("C", *points)), ZeroArea)


def test_straight_and_repeated_corners_do_no_harm() -> None:
    drawn = block((2, 1), patch("A", (0, 0), ("1/2", 0), (1, 0), (1, 0), (1, 1), (0, 1)), RIGHT)
    assert drawn.letters == ("A", "B")


def test_roots_are_exact() -> None:
    """A square on point in a frame of sqrt(2): its corners touch the middles exactly, and only exactly."""
    side, half = "2r2", "1r2"
    corners = [
        patch("A", (0, 0), (half, 0), (0, half)),
        patch("A", (half, 0), (side, 0), (side, half)),
        patch("A", (side, half), (side, side), (half, side)),
        patch("A", (half, side), (0, side), (0, half)),
    ]
    centre = patch("B", (half, 0), (side, half), (half, side), (0, half))
    assert len(block((side, side), *corners, centre).patches) == 5
    near = patch("B", ("707107/500000", 0), (side, half), (half, side), (0, half))
    with pytest.raises(DrawingError):
        block((side, side), *corners, near)


@given(st.sampled_from(SLUGS), st.integers(0, 999), st.sampled_from([(1, 0), (0, -1), (1, 1), (-1, 2)]))
def test_one_corner_moved_is_never_missed(slug: str, number: int, by: tuple[int, int]) -> None:
    drawn = traditional(slug)
    patches = list(drawn.patches)
    moved = patches[number % len(patches)]
    corner = number % len(moved.points)
    points = list(moved.points)
    points[corner] = (points[corner][0] + Fraction(by[0], 64), points[corner][1] + Fraction(by[1], 64))
    patches[number % len(patches)] = Patch(moved.fabric, tuple(points))
    with pytest.raises(DrawingError) as error:
        check_partition(drawn.width, drawn.height, patches)
    assert not error.value.patches or number % len(patches) in error.value.patches


@pytest.mark.parametrize("slug", SLUGS)
def test_shapely_agrees_with_the_areas(slug: str) -> None:
    drawn = traditional(slug)
    shapes = [ShapelyPolygon([(float(x), float(y)) for x, y in patch.points]) for patch in drawn.patches]
    for shape, drawn_patch in zip(shapes, drawn.patches, strict=True):
        assert shape.area == pytest.approx(float(area(drawn_patch.points)))
    assert unary_union(shapes).area == pytest.approx(144)
    assert sum(shape.area for shape in shapes) == pytest.approx(144)


def chequered(columns: int, rows: int) -> list[Drawing]:
    return [box("AB"[(x + y) % 2], x, y) for y in range(rows) for x in range(columns)]


def test_a_drawing_of_fifteen_hundred_patches_is_taken_and_its_faults_are_named() -> None:
    squares = chequered(30, 50)
    assert len(block((30, 50), *squares).patches) == 1500
    with pytest.raises(Gap) as gap:
        block((30, 50), *squares[:700], *squares[701:])
    assert 10 <= gap.value.where[0] <= 11
    assert 23 <= gap.value.where[1] <= 24
    with pytest.raises(Overlap) as overlap:
        block((30, 50), *squares[:-1], box("C", 28, 49))
    assert overlap.value.patches == (1498, 1499)


def test_many_thin_triangles_from_two_corners_are_taken_and_a_missing_one_is_named() -> None:
    """Every edge has a direction of its own, and all patches lie near each other."""
    fan = [patch("A", (0, 0), (300, y), (300, y + 1)) for y in range(300)]
    fan += [patch("B", (0, 0), (x + 1, 300), (x, 300)) for x in range(300)]
    assert len(block((300, 300), *fan).patches) == 600
    with pytest.raises(Gap) as gap:
        block((300, 300), *fan[:-1])
    assert gap.value.where[0] == gap.value.where[1] or gap.value.where[1] == 300


def test_a_drawing_with_roots_is_proved_in_whole_numbers() -> None:
    def at(x: int) -> str | int:
        return f"{x}/2+{x}/4r2" if x else 0

    squares = [
        patch("A", (at(x), at(y)), (at(x + 1), at(y)), (at(x + 1), at(y + 1)), (at(x), at(y + 1)))
        for x in range(12)
        for y in range(12)
    ]
    assert len(block((at(12), at(12)), *squares).patches) == 144
    with pytest.raises(Gap):
        block((at(12), at(12)), *squares[1:])
    with pytest.raises(Overlap):
        block((at(12), at(12)), *squares, squares[5])


def test_patches_over_each_other_everywhere_are_named() -> None:
    with pytest.raises(Overlap) as error:
        block((9, 9), *[box("A", 0, 0, width=9, height=9)] * 5)
    assert error.value.patches == (0, 1)


def test_an_overlap_at_a_place_where_other_edges_cross_is_found() -> None:
    """The middle of the overlapping edge is a corner of four other patches."""
    squares = [box("A", x, y) for x in range(2) for y in range(2)]
    with pytest.raises(Overlap):
        block((2, 2), *squares, patch("B", (0, 1), (1, 0), (2, 1), (1, 2)))
