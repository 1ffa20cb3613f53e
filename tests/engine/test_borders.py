"""Borders: butted, with corner squares, pieced, mitred; coping strips fill exactly what is missing."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.blocks import block_as_data
from patterns.engine.borders import (
    AnyBorder,
    Border,
    Corners,
    PiecedBorder,
    coping_width,
    units_along,
)
from patterns.engine.errors import BadField, BadSize, BorderDoesNotFit
from patterns.engine.finishing import mitred_border_length
from patterns.engine.layout import PlacedDrawing
from patterns.engine.methods import Style
from patterns.engine.parts import Fitted, Rows, SeamKind, Unit
from patterns.engine.quilts import QuiltTop
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.settings_straight import straight_set
from patterns.engine.steps import Recipe
from patterns.engine.surds import root
from tests.engine.drawings import block, box, inches, patch, traditional
from tests.engine.test_quilts import check, on_point_rows, rows_of

pytestmark = pytest.mark.slow

Q = Fraction
BUTTED = Border(width=Q(2), fabric="B")
SQUARES = Border(width=Q(3), fabric="H", corners=Corners.SQUARES, corner="D")
GOOSE = PlacedDrawing(
    block=inches(
        block(
            (2, 1),
            patch("P", (0, 1), (1, 0), (2, 1)),
            patch("Q", (0, 0), (1, 0), (0, 1)),
            patch("Q", (1, 0), (2, 0), (2, 1)),
        ),
        4,
    )
)
PLAIN = PlacedDrawing(block=inches(block((1, 1), box("D", 0, 0)), 2))
GEESE = PiecedBorder(unit=GOOSE, corner=PLAIN, coping="K")


def written(top: QuiltTop) -> Recipe:
    """Write the border, and prove that it goes together with the centre brought finished."""
    assert top.border is not None
    made = write_recipe(top.border, name="border", style=Style(), finished=(top.width, top.height))
    found = prove(made.as_data(), block_as_data(top.drawing))
    assert found.findings == ()
    assert found.goes_together
    return made


def titles(made: Recipe) -> list[str]:
    return [step.title.text.format(**step.title.facts) for step in made.steps]


def test_two_borders_are_sewn_on_from_the_inside_out() -> None:
    top = straight_set(rows_of(2, 2), border=[BUTTED, SQUARES])
    assert (top.width, top.height) == (12 + 2 * 2 + 2 * 3, 22)
    assert top.blocks[0].outline[0] == (5, 5)
    check(top)
    made = written(top)
    assert {(p.fabric, p.width, p.length, p.count) for p in made.pieces} == {
        ("B", Q(5, 2), Q(25, 2), 2),
        ("B", Q(5, 2), Q(33, 2), 2),
        ("H", Q(7, 2), Q(33, 2), 4),  # 12 + 2 x 2, all four sides alike
        ("D", Q(7, 2), Q(7, 2), 4),
    }
    assert [step.title.text for step in made.steps][-1] == "Top and bottom borders"


def test_a_pieced_border_that_fits_needs_no_coping() -> None:
    top = straight_set(rows_of(2, 2), border=GEESE)
    assert (top.width, top.height) == (16, 16)
    assert {patch.fabric for patch in top.border_strips} == {"P", "Q", "D"}
    assert len(top.border_strips) == 4 * 3 * 3 + 4
    check(top)
    made = written(top)
    assert sum(row.count for row in made.units if row.kind == "flying geese") == 12


def test_a_coping_strip_is_half_of_what_is_missing() -> None:
    """Centre 12 x 18, geese 4 in long: 3 and 5 of them, 20 in; 1 in of coping above and below."""
    top = straight_set(rows_of(2, 2, 2), border=GEESE)
    strips = [part for part in top.border.parts if isinstance(part, Unit) and "coping" in part.name]
    assert [(part.name, part.width, part.height) for part in strips] == [("end coping strip", 12, 1)]
    assert (top.width, top.height) == (16, 24)
    check(top)
    assert [title for title in titles(written(top)) if "geese" not in title] == [
        "Coping strips at top and bottom",
        "Join the side borders",
        "Side borders",
        "Join the top and bottom borders",
        "Top and bottom borders",
    ]


def test_more_blocks_than_the_fewest_may_be_asked_for() -> None:
    more = PiecedBorder(unit=GOOSE, corner=PLAIN, coping="K", across=4, down=4)
    top = straight_set(rows_of(2, 2), border=more)
    assert (top.width, top.height) == (16 + 4, 20)
    check(top)
    written(top)


def test_a_border_round_a_quilt_on_point_states_its_coping_exactly() -> None:
    """Width 2 x 6 root 2 = 16.97: five geese, 20 in, so 10 - 6 root 2 = 1.51 in at each end."""
    top = on_point_set(on_point_rows(2, 2), triangle="T", border=GEESE)
    assert top.width == 24
    assert coping_width(12 * root(2), needed=Q(20)) == 10 - 6 * root(2)
    check(top)


def test_a_mitred_corner_is_one_bent_seam() -> None:
    """BOR-01 with the thread's numbers: 60 + 2 x 7 + 1 = 75 in to cut."""
    top = straight_set(rows_of(2, 2), border=Border(width=Q(3), fabric="B", corners=Corners.MITRED))
    assert top.border is not None
    whole = top.border.parts[-1]
    assert isinstance(whole, Fitted)
    assert [seam.kind for seam in whole.seams] == [SeamKind.STRAIGHT] + [SeamKind.SET_IN] * 3
    assert (top.width, top.height) == (18, 18)
    check(top)
    made = written(top)
    assert [step.title.text for step in made.steps] == ["Mitred border"]
    assert [(p.fabric, p.width, p.count) for p in made.pieces] == [("B", Q(7, 2), 4)]
    assert made.pieces[0].length >= 18 + Q(1, 2) + Q(1, 2)  # tip to tip, and what the slant adds at both
    assert mitred_border_length(Q(60), border=Q(7)) == 75


def test_a_border_wider_than_the_centre_is_long() -> None:
    top = straight_set(rows_of(1), border=Border(width=Q(8), fabric="B", corners=Corners.SQUARES, corner="D"))
    check(top)
    written(top)


sorts: list[AnyBorder] = [BUTTED, SQUARES, GEESE, Border(width=Q(3, 2), fabric="M", corners=Corners.MITRED)]


@given(st.tuples(st.integers(1, 3), st.integers(1, 3)), st.lists(st.sampled_from(sorts), max_size=3))
def test_any_borders_fill_their_rectangle(grid: tuple[int, int], borders: list[AnyBorder]) -> None:
    check(straight_set(rows_of(*[grid[1]] * grid[0]), border=borders))


def test_a_border_too_short_is_refused_with_both_lengths() -> None:
    short = PiecedBorder(unit=GOOSE, corner=PLAIN, across=2, down=3)
    with pytest.raises(BorderDoesNotFit) as error:
        straight_set(rows_of(2, 2), border=short)
    assert (error.value.where, error.value.side, error.value.needed) == ("border.across", 12, 8)
    assert error.value.remedy == "add-blocks-to-the-border"


def test_what_is_missing_is_named() -> None:
    with pytest.raises(BadField) as field:
        straight_set(rows_of(2, 2, 2), border=PiecedBorder(unit=GOOSE, corner=PLAIN))
    assert field.value.where == "border.coping"
    with pytest.raises(BadField) as corner:
        straight_set(rows_of(2), border=[BUTTED, Border(width=Q(1), fabric="B", corners=Corners.SQUARES)])
    assert corner.value.where == "border[1].corner"
    with pytest.raises(BadSize) as size:
        straight_set(rows_of(2), border=PiecedBorder(unit=GOOSE, corner=GOOSE))
    assert size.value.where == "border.corner"


def test_the_fewest_blocks_reach() -> None:
    assert [units_along(Q(side), unit=Q(4)) for side in (3, 4, 5, 50)] == [1, 1, 2, 13]


def test_borders_of_one_sort_are_numbered() -> None:
    made = written(straight_set(rows_of(2, 2), border=[BUTTED, Border(width=Q(4), fabric="C")]))
    assert [step.title.facts.get("number") for step in made.steps] == [1, 1, 2, 2]


def test_a_traditional_block_may_be_the_corner() -> None:
    corner = PlacedDrawing(block=traditional("pinwheel", 2))
    top = straight_set(rows_of(2, 2), border=PiecedBorder(unit=GOOSE, corner=corner))
    check(top)
    made = written(top)
    assert any(isinstance(part, Rows) and part.id.startswith("border-") for part in top.border.parts)
    assert {row.kind for row in made.units} >= {"flying geese", "half-square triangle"}
