"""Sashing on point, mixed rows, alternate blocks, rounds: each fills its rectangle, goes together."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from patterns.engine.binding_corners import CornerKind, binding_corners, outline_length
from patterns.engine.blocks import block_as_data
from patterns.engine.borders import Border, Corners
from patterns.engine.errors import BadField, BadSize, RowTooNarrow
from patterns.engine.finishing import binding_round, on_point_counts
from patterns.engine.geometry import area
from patterns.engine.layout import PlacedDrawing, laid_out, plain_square
from patterns.engine.methods import Style
from patterns.engine.parts import Assembly, Rows, UnitKind
from patterns.engine.quilts import QuiltTop, Sashing
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set, pointed_runner
from patterns.engine.settings_rows import Spacer, rounds_set, rows_set
from patterns.engine.settings_straight import alternated, straight_set
from patterns.engine.steps import Recipe
from patterns.engine.surds import root
from tests.engine.drawings import traditional
from tests.engine.test_borders import GEESE
from tests.engine.test_quilts import check, kinds, on_point_rows, placed, rows_of, shapes

pytestmark = pytest.mark.slow

Q = Fraction
SASHING = Sashing(width=Q(1), fabric="H", cornerstone="D")


def written(order: Assembly, top: QuiltTop) -> Recipe:
    """Write an assembly of a whole top, and prove that it goes together."""
    made = write_recipe(order, name="top", style=Style(), finished=(top.width, top.height))
    assert prove(made.as_data(), block_as_data(top.drawing)).findings == ()
    return made


def star(size: int) -> PlacedDrawing:
    return PlacedDrawing(block=traditional("sawtooth-star", size))


@pytest.mark.parametrize(("rows", "columns"), [(1, 1), (1, 3), (3, 1), (2, 3), (3, 2), (2, 2)])
def test_sashing_on_point_fills_its_rectangle(rows: int, columns: int) -> None:
    top = on_point_set(on_point_rows(rows, columns), triangle="T", sashing=SASHING)
    assert (top.width, top.height) == (columns * 7 * root(2), rows * 7 * root(2))
    counts, posts = on_point_counts(rows, columns), Counter(patch.fabric for patch in top.joining)
    blocks = rows * columns + counts.between
    sides, halves = counts.side_triangles, 2 * (rows + columns)
    assert kinds(top.centre)[UnitKind.SIDE_TRIANGLE] == sides + halves
    assert posts["T"] == sides + counts.corner_triangles
    assert posts["H"] == 2 * blocks + rows + columns + rows + columns - 2  # each block's, and round the edge
    assert posts["D"] == halves + rows * (columns - 1) + columns * (rows - 1)
    check(top)


def test_sashing_on_point_goes_together() -> None:
    """Blocks 6 in and 1 in sashing: half cornerstones from squares of sqrt 2 + 1.207, up to 2 5/8 in."""
    top = on_point_set(on_point_rows(2, 3), triangle="T", sashing=SASHING)
    made = written(top.centre, top)
    cut = {(piece.fabric, piece.width, piece.then) for piece in made.pieces if piece.then}
    assert cut == {
        ("T", Q(39, 4), "cut twice diagonally"),  # SET-07, as without sashing
        ("T", Q(41, 8), "cut once diagonally"),
        ("D", Q(21, 8), "cut twice diagonally"),
    }
    titles = [step.title.text for step in made.steps]
    assert titles.count("Row {number}") == 4
    assert titles.count("Sashing row") == 5
    body = next(part for part in top.centre.parts if part.id == "body")
    assert isinstance(body, Rows)
    assert [len(row) for row in body.rows] == [1] * 9  # sashing rows and block rows by turns


def test_sashing_on_point_is_positive() -> None:
    with pytest.raises(BadSize) as error:
        on_point_set(on_point_rows(1, 1), triangle="T", sashing=Sashing(width=Q(0), fabric="H"))
    assert error.value.where == "sashing.width"


def test_cornerstones_on_point_are_of_the_sashing_where_no_letter_says_otherwise() -> None:
    top = on_point_set(on_point_rows(1, 2), triangle="T", sashing=Sashing(width=Q(2), fabric="H"))
    assert {patch.fabric for patch in top.joining} == {"T", "H"}
    check(top)


def test_rows_of_mixed_widths_are_filled_at_both_ends() -> None:
    """Two blocks of 9 with 2 in between are 20 wide, three of 6 are 18: 1 in at each end."""
    wide = [star(9), Spacer(width=Q(2), fabric="S"), star(9)]
    rows = [wide, Spacer(width=Q(3, 2), fabric="S"), [star(6), star(6), star(6)]]
    top = rows_set(rows, fill="F", border=Border(width=Q(2), fabric="B"))
    assert (top.width, top.height) == (20 + 4, 9 + Q(3, 2) + 6 + 4)
    assert [block.place for block in top.blocks] == [(0, 0), (0, 1), (1, 0), (1, 1), (1, 2)]
    assert top.blocks[2].outline[0] == (2 + 1, 2 + 9 + Q(3, 2))
    check(top)
    inner = rows_set(rows, fill="F")
    made = written(inner.centre, inner)
    assert {(p.fabric, p.width, p.length, p.count) for p in made.pieces} == {
        ("S", Q(5, 2), Q(19, 2), 1),
        ("S", Q(2), Q(41, 2), 1),
        ("F", Q(3, 2), Q(13, 2), 2),
    }
    assert {piece.purpose for piece in made.pieces} == {"spacer strips"}


def test_a_row_too_narrow_is_told_with_both_widths() -> None:
    with pytest.raises(RowTooNarrow) as error:
        rows_set([[star(9), star(9)], [star(6)]])
    assert (error.value.where, error.value.width, error.value.needed) == ("rows[1]", 6, 18)


@pytest.mark.parametrize("rows", [[], [Spacer(width=Q(1), fabric="S")], [[Spacer(width=Q(1), fabric="S")]]])
def test_a_quilt_of_rows_has_blocks(rows: list[Spacer]) -> None:
    with pytest.raises(BadField):
        rows_set(rows)


def test_sizes_in_a_row_agree() -> None:
    with pytest.raises(BadSize) as height:
        rows_set([[star(6), star(7)]])
    assert height.value.where == "rows[0][1]"
    with pytest.raises(BadSize) as width:
        rows_set([[star(6), Spacer(width=Q(0), fabric="S")]])
    assert width.value.where == "rows[0][1].width"


def test_alternate_blocks_make_a_chequer() -> None:
    rows = alternated([placed(n) for n in range(5)], plain_square("P", Q(6)), rows=3, columns=3)
    top = straight_set(rows)
    assert Counter(patch.fabric for patch in top.drawing.patches)["P"] >= 4
    assert [block.name == "plain square" for block in top.blocks] == [n % 2 == 1 for n in range(9)]
    check(top)
    with pytest.raises(BadField):
        alternated([placed(0)], plain_square("P", Q(6)), rows=3, columns=3)


def test_rounds_about_one_block() -> None:
    """A 12 in star, geese of 4 in round it, then a border with corner squares."""
    squares = Border(width=Q(3), fabric="H", corners=Corners.SQUARES, corner="D")
    top = rounds_set(star(12), rounds=[GEESE, Border(width=Q(1), fabric="K")], border=squares)
    assert top.width == 12 + 2 * 2 + 2 * 1 + 2 * 3
    assert top.blocks[0].outline[0] == (6, 6)
    check(top)
    inner = rounds_set(star(12), rounds=[GEESE, Border(width=Q(1), fabric="K")])
    assert {patch.fabric for patch in inner.joining} == {"P", "Q", "D", "K"}
    written(inner.centre, inner)
    assert top.border is not None
    written(top.border, top)


def test_a_medallion_on_point_has_its_rounds_as_borders() -> None:
    top = on_point_set([[star(12)]], triangle="T", border=[GEESE, Border(width=Q(2), fabric="B")])
    assert top.width == 5 * 4 + 2 * 2 + 2 * 2
    check(top)


def test_rounds_without_a_round_are_refused() -> None:
    with pytest.raises(BadField):
        rounds_set(star(12), rounds=None)


def test_rows_of_equal_blocks_are_the_straight_set() -> None:
    rows = rows_of(2, 2)
    assert rows_set(rows).drawing == straight_set(rows).drawing


def test_a_runner_keeps_its_pointed_ends() -> None:
    """Three 8 in blocks on point: 3 x 8 root 2 long, four side triangles, six corners to bind."""
    top = pointed_runner([star(8)] * 3, triangle="T")
    half = 4 * root(2)
    assert (top.width, top.height) == (24 * root(2), 8 * root(2))
    assert kinds(top.centre) == {UnitKind.FINISHED_BLOCK: 3, UnitKind.SIDE_TRIANGLE: 4}
    assert top.edge[0] == (0, half)
    assert sum((area(patch.points) for patch in top.drawing.patches), Q(0)) == area(top.edge)
    assert shapes(laid_out(top.centre)) == shapes(top.drawing.patches)
    made = written(top.centre, top)
    assert "the ends stay pointed" in made.steps[-1].words[-1].text


def test_a_pointed_outline_is_bound_round_its_six_corners() -> None:
    top = pointed_runner([star(8)] * 3, triangle="T")
    assert outline_length(top.edge) == 2 * 16 * root(2) + 4 * 8
    corners = binding_corners(top.edge, seam=Q(1, 4), finished=Q(1, 4))
    assert Counter(corner.kind for corner in corners) == {CornerKind.SQUARE: 2, CornerKind.BLUNT: 4}
    planned = binding_round(outline_length(top.edge) + 10, strip=Q(5, 2), usable_width=Q(40))
    assert planned.strips == 3  # 87.3 in with the tail: 3 x 40 - 2 x 2 1/2 = 115
    rectangle = straight_set(rows_of(2))
    assert rectangle.edge[2] == (12, 6)


def test_a_runner_has_two_square_blocks_at_least() -> None:
    with pytest.raises(BadField):
        pointed_runner([star(8)], triangle="T")
    flat = PlacedDrawing(block=traditional("sawtooth-star", 8).at_size(Q(8), Q(6)))
    with pytest.raises(BadSize):
        pointed_runner([flat, flat], triangle="T")


def test_sashed_edges_are_trimmed_along_the_sashing() -> None:
    top = on_point_set(on_point_rows(1, 2), triangle="T", sashing=SASHING)
    assert "corners of the sashing" in written(top.centre, top).steps[-1].words[-1].text
