"""Quarter circles in drawings: exact points, drunkard's paths, curved seams, and what is refused."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.arcs import TURNS, arc_between, holds_arc, is_arc
from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.errors import DrawingError, OtherSeamsNeeded
from patterns.engine.methods import NoMethod, Style
from patterns.engine.parts import Fitted, Order, SeamKind, Unit, UnitKind
from patterns.engine.rebuild import Proof, prove
from patterns.engine.rebuilding.faults import Rule
from patterns.engine.recipes import write_recipe
from patterns.engine.svg_reading import block_from_svg
from patterns.engine.svg_writing import block_as_svg
from tests.engine.drawings import drawing, inches, patch, traditional

ZERO = Fraction(0)


def arc(x: Any, y: Any) -> dict[str, list[Any]]:
    return {"arc": [x, y]}


def curved(fabric: str, *points: Any) -> dict[str, Any]:
    rows = [point if isinstance(point, dict) else list(point) for point in points]
    return {"fabric": fabric, "points": rows}


def block(grid: tuple[int, int], *patches: dict[str, Any]) -> Block:
    return block_from_data(drawing(grid, *patches))


def unit(radius: Any) -> Block:
    """Draw a quarter circle in the corner of a square of 4."""
    circle = curved("A", (0, 0), (radius, 0), arc(0, 0), (0, radius))
    return block((4, 4), circle, curved("B", (radius, 0), (4, 0), (4, 4), (0, 4), (0, radius), arc(0, 0)))


def fan() -> Block:
    """Draw a quarter circle that ends in two corners of its square."""
    rest = curved("B", (4, 0), (4, 4), (0, 4), arc(0, 0))
    return block((4, 4), curved("A", (0, 0), (4, 0), arc(0, 0), (0, 4)), rest)


def proof(drawn: Block, *, style: Style | None = None) -> Proof:
    made = write_recipe(sewing_order(drawn), name=drawn.name, style=style or Style())
    return prove(made.as_data(), block_as_data(drawn))


def test_an_arc_runs_through_exact_points_of_its_circle_alike_from_either_end() -> None:
    start, end = (Fraction(2), ZERO), (ZERO, Fraction(2))
    points = arc_between(start, end, centre=(ZERO, ZERO), where="")
    assert len(points) == len(TURNS) == 10
    assert {x * x + y * y for x, y in points} == {4}
    assert arc_between(end, start, centre=(ZERO, ZERO), where="") == points[::-1]
    assert is_arc((start, *points, end))
    assert holds_arc(((Fraction(3), ZERO), start, *points, end))
    assert not is_arc(((Fraction(3), ZERO), start, *points, end))


def test_a_drawing_with_an_arc_is_a_partition_and_is_written_with_its_points() -> None:
    drawn = unit(2)
    assert len(drawn.patches[0].points) == 3 + len(TURNS)
    assert block_from_data(block_as_data(drawn)) == drawn
    assert drawn.turned(4) == drawn.mirrored().mirrored() == drawn


@pytest.mark.parametrize(
    ("points", "where"),
    [
        (((0, 0), (2, 0), arc(0, 0), (0, 3)), "patches[0].points[2].arc"),  # not equally far
        (((0, 0), (2, 0), arc(0, 1), (0, 2)), "patches[0].points[2].arc"),  # not square
        (((0, 0), (2, 0), {"arc": [0]}, (0, 2)), "patches[0].points[2].arc"),
        (((0, 0), (2, 0), {"arc": [0, 0], "r": 2}, (0, 2)), "patches[0].points[2].r"),
        (((0, 0), (2, 0), arc(0, 0), arc(0, 0), (0, 2)), "patches[0].points[2]"),
    ],
)
def test_what_is_no_quarter_circle_is_named(points: tuple[Any, ...], where: str) -> None:
    rest = curved("B", (2, 0), (4, 0), (4, 4), (0, 4), (0, 2), arc(0, 0))
    with pytest.raises(DrawingError) as error:
        block((4, 4), curved("A", *points), rest)
    assert error.value.where == where


@pytest.mark.parametrize(
    "points", [((0, 0), (2, 0), arc(2, 2), (0, 2)), ((0, 0), (2, 0), (0, 2))], ids=["hollow", "straight"]
)
def test_neighbours_that_do_not_share_their_arc_leave_a_gap(points: tuple[Any, ...]) -> None:
    rest = curved("B", (2, 0), (4, 0), (4, 4), (0, 4), (0, 2), arc(0, 0))
    with pytest.raises(DrawingError) as error:
        block((4, 4), curved("A", *points), rest)
    assert error.value.kind == "gap"


@pytest.mark.parametrize("turn", range(4))
def test_a_quarter_circle_in_a_corner_is_a_drunkards_path(turn: int) -> None:
    order = sewing_order(unit("5/2").turned(turn))
    (made,) = (part for part in order.parts if isinstance(part, Unit))
    assert (made.kind, made.fabrics) == (UnitKind.DRUNKARDS_PATH, ("A", "B"))
    assert order.order is Order.TEMPLATE


def test_a_straight_edge_across_the_same_corner_is_none() -> None:
    rest = patch("B", (2, 0), (4, 0), (4, 4), (0, 4), (0, 2))
    order = sewing_order(block((4, 4), patch("A", (0, 0), (2, 0), (0, 2)), rest))
    assert [part.kind for part in order.parts if isinstance(part, Unit)] == [UnitKind.CORNER_FLIP]


def test_four_units_of_a_dot_are_made_alike() -> None:
    order = sewing_order(traditional("polka-dot"))
    (made,) = (part for part in order.parts if isinstance(part, Unit))
    assert order.make[made.id] == 4


@pytest.mark.parametrize("radius", ["1", "2", "7/2"])
@pytest.mark.parametrize("seam", ["1/4", "3/8"])
def test_a_drunkards_path_goes_together(radius: str, seam: str) -> None:
    found = proof(inches(unit(radius), 8), style=Style(seam=Fraction(seam)))
    assert found.findings == ()
    assert found.patches_right == 2


def test_it_is_cut_with_two_templates_whose_rectangles_hold_the_seams() -> None:
    made = write_recipe(sewing_order(inches(unit(2), 4)), name="unit", style=Style())
    circle, rest = made.pieces
    assert (circle.fabric, circle.width, circle.length) == ("A", Fraction(21, 8), Fraction(21, 8))
    assert (rest.fabric, rest.width, rest.length) == ("B", Fraction(9, 2), Fraction(9, 2))


def test_a_curve_too_tight_to_sew_has_no_method() -> None:
    with pytest.raises(NoMethod):
        write_recipe(sewing_order(inches(unit("1/2"), 4)), name="unit", style=Style())


def test_a_recipe_with_another_curve_is_caught() -> None:
    drawn = inches(unit(2), 4)
    data = write_recipe(sewing_order(drawn), name="unit", style=Style()).as_data()
    fit = next(o for step in data["steps"] for o in step["operations"] if o["op"] == "fit")
    (seam,) = fit["seams"]
    seam["path"][3] = ["3/2", "3/2"]
    assert Rule.KIND.value in {finding.rule for finding in prove(data, block_as_data(drawn)).findings}


def test_a_curve_between_other_parts_is_one_curved_seam() -> None:
    drawn = inches(fan(), 8)
    whole = sewing_order(drawn).parts[-1]
    assert isinstance(whole, Fitted)
    assert [seam.kind for seam in whole.seams] == [SeamKind.CURVED]
    assert proof(drawn).findings == ()


def test_a_curve_that_runs_on_round_a_corner_is_refused() -> None:
    """A whole circle on the seam of two halves: a shape to be laid on, not pieced."""
    left = curved("B", (0, 0), (2, 0), (2, 1), arc(2, 2), (1, 2), arc(2, 2), (2, 3), (2, 4), (0, 4))
    right = curved("C", (2, 0), (4, 0), (4, 4), (2, 4), (2, 3), arc(2, 2), (3, 2), arc(2, 2), (2, 1))
    dot = curved("A", (2, 1), arc(2, 2), (3, 2), arc(2, 2), (2, 3), arc(2, 2), (1, 2), arc(2, 2))
    with pytest.raises(OtherSeamsNeeded) as error:
        sewing_order(inches(block((4, 4), dot, left, right)))
    assert error.value.needs == "appliqué"


def test_a_curved_block_goes_through_a_picture_without_loss() -> None:
    drawn = unit(2)
    assert block_from_svg(block_as_svg(drawn)) == drawn
