"""Quilt tops: every setting fills its rectangle exactly, and its sewing order lays the same picture."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.blocks import Block
from patterns.engine.errors import BadField, BadSize
from patterns.engine.finishing import on_point_counts, on_point_size, sashing_counts
from patterns.engine.geometry import area, tidied
from patterns.engine.layout import PlacedDrawing, laid_out
from patterns.engine.measure import CENTIMETRE
from patterns.engine.partition import check_partition
from patterns.engine.parts import Assembly, Patch, Rows, Unit, UnitKind
from patterns.engine.quilts import Border, QuiltTop, Sashing
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.settings_straight import straight_set
from patterns.engine.surds import root
from tests.engine.drawings import block, box, inches, traditional

SLUGS = ("sawtooth-star", "jacobs-ladder", "sailboat", "turnstile", "rolling-stone", "friendship-star")
BORDER = Border(width=Fraction(5), fabric="B")
CORNERSTONES = Sashing(width=Fraction(2), fabric="H", cornerstone="D", outside=True)

sashings = st.one_of(
    st.none(),
    st.builds(
        Sashing,
        width=st.sampled_from([Fraction(1), Fraction(3, 2)]),
        fabric=st.just("H"),
        cornerstone=st.sampled_from(["", "D"]),
        outside=st.booleans(),
    ),
)
borders = st.one_of(st.none(), st.just(BORDER))


def placed(number: int) -> PlacedDrawing:
    return PlacedDrawing(block=traditional(SLUGS[number % len(SLUGS)], 6), turn=number % 4)


def rows_of(*lengths: int) -> list[list[PlacedDrawing]]:
    return [[placed(row + 2 * column) for column in range(length)] for row, length in enumerate(lengths)]


def on_point_rows(rows: int, columns: int) -> list[list[PlacedDrawing]]:
    return rows_of(*(columns - row % 2 for row in range(2 * rows - 1)))


def shapes(patches: tuple[Patch, ...]) -> Counter[tuple[str, object]]:
    return Counter((patch.fabric, tidied(patch.points)) for patch in patches)


def kinds(assembly: Assembly) -> Counter[UnitKind]:
    found: Counter[UnitKind] = Counter()
    for part in assembly.parts:
        if isinstance(part, Unit):
            found[part.kind] += assembly.make[part.id]
    return found


def check(top: QuiltTop) -> None:
    """Prove that the drawing tiles the top, and that both sewing orders lay the same picture."""
    drawing = top.drawing
    check_partition(top.width, top.height, drawing.patches)
    assert sum((area(each.points) for each in drawing.patches), Fraction(0)) == top.width * top.height
    assert shapes(laid_out(top.border or top.centre)) == shapes(drawing.patches)


def test_a_sampler_of_twelve_is_54_by_68() -> None:
    """Twelve 12 in blocks, 2 in sashing with cornerstones all round, 5 in border."""
    blocks = [[PlacedDrawing(block=traditional(SLUGS[(r + c) % 6])) for c in range(3)] for r in range(4)]
    top = straight_set(blocks, sashing=CORNERSTONES, border=BORDER)
    assert (top.width, top.height) == (3 * 12 + 4 * 2 + 2 * 5, 4 * 12 + 5 * 2 + 2 * 5) == (54, 68)
    counts = sashing_counts(4, 3, outside=True)
    assert kinds(top.centre) == {
        UnitKind.FINISHED_BLOCK: 12,
        UnitKind.RECTANGLE: counts.strips,
        UnitKind.SQUARE: counts.cornerstones,
    }
    whole = top.centre.parts[-1]
    assert isinstance(whole, Rows)
    assert [len(row) for row in whole.rows] == [7] * 9  # sashing rows and block rows by turns
    assert [block.place for block in top.blocks] == [(r, c) for r in range(4) for c in range(3)]
    assert top.blocks[4].outline[0] == (5 + 2 + 12 + 2, 5 + 2 + 12 + 2)
    check(top)


def test_the_border_holds_the_centre_as_one_finished_piece_sides_first() -> None:
    top = straight_set(rows_of(2, 2), border=BORDER)
    assert top.border is not None
    sizes = {part.id: (part.width, part.height, top.border.make[part.id]) for part in top.border.parts}
    assert sizes["side-border-1"] == (12, 5, 2)
    assert sizes["end-border-1"] == (22, 5, 2)
    centre = next(part for part in top.border.parts if isinstance(part, Unit) and part.name == "quilt centre")
    assert centre.kind is UnitKind.FINISHED_BLOCK
    assert [part.name for part in top.border.parts if isinstance(part, Rows)] == [
        "centre with sides",
        "quilt top",
    ]


def test_sashing_without_cornerstones_runs_through_between_rows() -> None:
    top = straight_set(rows_of(3, 3), sashing=Sashing(width=Fraction(1), fabric="H"))
    strips = {
        (part.width, part.height): top.centre.make[part.id]
        for part in top.centre.parts
        if isinstance(part, Unit) and part.kind is UnitKind.RECTANGLE
    }
    assert strips == {(6, 1): 4, (20, 1): 1}
    check(top)


@given(st.tuples(st.integers(1, 3), st.integers(1, 3)), sashings, borders)
def test_a_straight_set_fills_its_rectangle(
    grid: tuple[int, int], sashing: Sashing | None, border: Border | None
) -> None:
    check(straight_set(rows_of(*[grid[1]] * grid[0]), sashing=sashing, border=border))


@pytest.mark.parametrize(
    ("rows", "columns", "border"), [(1, 1, None), (1, 3, None), (3, 1, None), (3, 2, BORDER)]
)
def test_a_set_on_point_fills_its_rectangle(rows: int, columns: int, border: Border | None) -> None:
    top = on_point_set(on_point_rows(rows, columns), triangle="T", border=border)
    counts, edge = on_point_counts(rows, columns), 10 if border else 0
    width, height = on_point_size(rows, columns, block=Fraction(6))
    assert (top.width, top.height) == (width + edge, height + edge)
    assert kinds(top.centre)[UnitKind.SIDE_TRIANGLE] == counts.side_triangles
    assert kinds(top.centre)[UnitKind.CORNER_TRIANGLE] == counts.corner_triangles
    assert kinds(top.centre)[UnitKind.FINISHED_BLOCK] == rows * columns + counts.between
    check(top)


def test_blocks_on_point_lie_where_they_are_seen() -> None:
    """Three by two blocks of 6 in: half a diagonal, 3 sqrt(2), from one row to the next."""
    top = on_point_set(on_point_rows(3, 2), triangle="T")
    half = 3 * root(2)
    tips = {block.place: min(block.outline, key=lambda corner: corner[1]) for block in top.blocks}
    assert tips[0, 0] == (half, 0)
    assert tips[0, 1] == (3 * half, 0)
    assert tips[1, 0] == (2 * half, half)
    assert tips[4, 1] == (3 * half, 4 * half)
    assert len(tips) == 8


def test_on_point_is_sewn_in_diagonal_rows_corners_last() -> None:
    top = on_point_set(on_point_rows(3, 2), triangle="T")
    rows = [part for part in top.centre.parts if isinstance(part, Rows)]
    assert [part.name for part in rows] == ["diagonal row"] * 4 + ["diagonal rows", "quilt centre"]
    assert [[len(row) for row in part.rows] for part in rows] == [[3], [4], [4], [3], [1] * 4, [1, 3, 1]]
    assert top.centre.whole.turned_by == (root(Fraction(1, 2)), root(Fraction(1, 2)))


def test_alternate_plain_squares_are_squares() -> None:
    plain = PlacedDrawing(block=inches(block((1, 1), box("P", 0, 0)), 6))
    top = on_point_set([[placed(0), placed(1)], [plain], [placed(2), placed(3)]], triangle="T")
    assert kinds(top.centre)[UnitKind.SQUARE] == 1
    check(top)


def test_centimetres_stay_exact() -> None:
    size = 24 * CENTIMETRE
    drawn = PlacedDrawing(block=traditional("ohio-star").at_size(size, size))
    top = on_point_set([[drawn, drawn], [drawn], [drawn, drawn]], triangle="T")
    assert top.width == 48 * root(2) * CENTIMETRE
    check(top)


def test_one_block_in_four_places_is_one_part_to_bring_four_times() -> None:
    drawn = traditional("turnstile", 6)
    top = straight_set([[PlacedDrawing(block=drawn, turn=t) for t in pair] for pair in ((0, 1), (3, 2))])
    assert top.centre.make == {"block-1": 4, "centre": 1}
    check(top)


@pytest.mark.parametrize(
    ("blocks", "where"),
    [([], "blocks"), ([[]], "blocks"), (rows_of(2, 1), "blocks[1]")],
)
def test_uneven_rows_are_refused(blocks: list[list[PlacedDrawing]], where: str) -> None:
    with pytest.raises(BadField) as error:
        straight_set(blocks)
    assert error.value.where == where


@pytest.mark.parametrize(
    ("lengths", "where"), [((2, 2, 2), "blocks[1]"), ((2, 1), "blocks"), ((2, 1, 3), "blocks[2]")]
)
def test_rows_on_point_alternate(lengths: tuple[int, ...], where: str) -> None:
    with pytest.raises(BadField) as error:
        on_point_set(rows_of(*lengths), triangle="T")
    assert error.value.where == where


def test_sizes_that_do_not_agree_are_refused() -> None:
    other = PlacedDrawing(block=traditional("ohio-star", 7))
    with pytest.raises(BadSize) as error:
        straight_set([[placed(0), other]])
    assert error.value.where == "blocks[0][1]"
    with pytest.raises(BadSize):
        straight_set(rows_of(1), border=Border(width=Fraction(0), fabric="B"))
    with pytest.raises(BadSize):
        straight_set(rows_of(1), sashing=Sashing(width=Fraction(-1), fabric="H"))
    flat = PlacedDrawing(block=Block(name="Flat", width=Fraction(2), height=Fraction(1), patches=()))
    with pytest.raises(BadSize):
        on_point_set([[flat]], triangle="T")
