"""Appliqué shapes of a drawing: read, refused by name, turned, written, drawn on top of the patches."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from patterns.engine.arcs import POINTS
from patterns.engine.blocks import Block, block_as_data, block_from_data
from patterns.engine.borders import Border, Corners
from patterns.engine.cutting import reconcile
from patterns.engine.drawing import RecordingCanvas
from patterns.engine.drawing_blocks import draw_block, draw_plate
from patterns.engine.errors import BadField, DrawingError, UnknownLetter
from patterns.engine.geometry import area
from patterns.engine.layout import Leaves, PlacedDrawing, laid_shapes, plain_square
from patterns.engine.parts import Shape, UnitKind
from patterns.engine.quilts import Sashing
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.settings_straight import straight_set
from patterns.engine.svg_reading import block_from_svg
from patterns.engine.svg_writing import block_as_svg
from patterns.engine.units.base import Style
from tests.engine.applique_samples import GROUND, SLUGS, appliqued, circle, on_ground, sample, shape
from tests.engine.cloths import CLOTHS
from tests.engine.drawings import box, drawing, traditional

F = Fraction
LEAF = shape("B", (1, 1), (3, 1), (2, 3))
DISC = circle("C", 2, 2, radius=1)


def refusal(data: Any) -> tuple[str, object]:
    with pytest.raises(DrawingError) as error:
        block_from_data(data)
    return error.value.kind, error.value.where


@pytest.mark.parametrize("slug", SLUGS)
def test_a_drawing_comes_back_equal_from_its_file_and_from_its_picture(slug: str) -> None:
    drawn = sample(slug)
    assert drawn.applique
    assert block_from_data(json.loads(json.dumps(block_as_data(drawn)))) == drawn
    assert block_from_svg(block_as_svg(drawn)) == drawn


def test_shapes_are_kept_in_their_order_and_count_as_cloth() -> None:
    drawn = block_from_data(on_ground(LEAF, DISC))
    assert [each.fabric for each in drawn.cloth] == ["A", "B", "C"]
    assert drawn.letters == ("A", "B", "C")
    assert all(isinstance(each, Shape) for each in drawn.applique)
    assert len(drawn.applique[1].points) == 4 * (POINTS - 1)
    assert not drawn.is_plain


def test_a_drawing_without_shapes_is_written_as_ever() -> None:
    assert "applique" not in block_as_data(traditional("ohio-star"))
    assert "applique" not in block_as_svg(traditional("ohio-star"))


@pytest.mark.parametrize(
    ("shapes", "kind", "where"),
    [
        ("leaf", "bad-field", "applique"),
        ([7], "bad-field", "applique[0]"),
        ([LEAF, LEAF | {"turn": 1}], "unknown-field", "applique[1].turn"),
        ([{"points": LEAF["points"]}], "bad-letter", "applique[0].fabric"),
        ([{"fabric": "B"}], "bad-field", "applique[0].points"),
        ([shape("B", (1, 1), (2, 2))], "bad-field", "applique[0].points"),
        ([LEAF, LEAF, LEAF, shape("B", (1, 1), (2, 2), (3, 3))], "zero-area", "applique[3].points"),
        ([shape("B", (1, 1), (3, 3), (3, 1), (1, 3))], "crosses-itself", "applique[0].points"),
        ([LEAF, shape("B", (1, 1), (5, 1), (2, 3))], "outside", "applique[1].points"),
        ([shape("B", (1, 1), (3, "1r2"), (3, "1r3"))], "bad-number", "applique[0].points[2]"),
        ([shape("B", (1, 1), {"arc": [1, 2]}, (3, 1))], "bad-arc", "applique[0].points[1].arc"),
        ([shape("B", *([(1, 1)] * 241))], "bad-field", "applique[0].points"),
        ([LEAF] * 201, "too-many-shapes", "applique"),
    ],
)
def test_what_is_wrong_with_a_shape_is_named_by_its_field(shapes: Any, kind: str, where: str) -> None:
    assert refusal(drawing((4, 4), GROUND) | {"applique": shapes}) == (kind, where)


def test_a_shape_of_more_than_twenty_quarter_circles_is_too_large() -> None:
    waves = [each for x in range(25) for each in ((x, 1), {"arc": [x, 2]}, (x + 1, 2))]
    ground = box("A", 0, 0, width=30, height=4)
    long = drawing((30, 4), ground) | {"applique": [shape("B", *waves, (25, 3), (0, 3))]}
    assert refusal(long) == ("too-large", "applique[0].points")


def test_a_letter_of_a_shape_needs_a_translation() -> None:
    drawn = block_from_data(on_ground(LEAF))
    assert drawn.relettered({"A": "C", "B": "D"}).letters == ("C", "D")
    with pytest.raises(UnknownLetter) as error:
        drawn.relettered({"A": "C"})
    assert error.value.where == "B"


@given(st.integers(0, 3), st.booleans(), st.fractions(min_value=1, max_value=20, max_denominator=8))
def test_shapes_turn_mirror_and_scale_with_their_block(turn: int, mirror: bool, size: Fraction) -> None:
    drawn = sample("four-petals")
    changed = drawn.turned(turn).at_size(size, size)
    changed = changed.mirrored() if mirror else changed
    as_patches = Block(name="x", width=drawn.width, height=drawn.height, patches=drawn.cloth)
    flat = as_patches.turned(turn).at_size(size, size)
    flat = flat.mirrored() if mirror else flat
    assert [each.points for each in changed.cloth] == [each.points for each in flat.patches]
    factor = (size / drawn.width) ** 2
    assert [area(each.points) for each in changed.applique] == [
        area(each.points) * factor for each in drawn.applique
    ]


def test_only_shapes_in_a_marked_group_of_a_picture_are_applique() -> None:
    picture = block_as_svg(block_from_data(on_ground(LEAF)))
    assert '<g data-applique="true">' in picture
    unmarked = picture.replace(' data-applique="true"', "")
    with pytest.raises(DrawingError) as error:
        block_from_svg(unmarked)
    assert error.value.kind == "overlap"  # nothing is guessed


def test_too_many_shapes_of_a_picture_are_refused_by_count() -> None:
    shapes = '<rect width="1" height="1"/>' * 201
    group = f'<g data-applique="true">{shapes}</g>'
    with pytest.raises(DrawingError) as error:
        block_from_svg(f'<svg viewBox="0 0 9 9"><rect width="9" height="9"/>{group}</svg>')
    assert (error.value.kind, error.value.where) == ("too-many-shapes", "svg[0]")


def test_letters_that_lie_over_each_other_are_known() -> None:
    drawn = block_from_data(on_ground(shape("B", (0, 0), (1, 0), (0, 1)), DISC))
    assert drawn.laid_over == {("B", "A"), ("C", "A")}
    assert block_from_data(on_ground(LEAF, DISC)).laid_over == {("B", "A"), ("C", "A"), ("C", "B")}


def test_shapes_are_drawn_over_all_patches_in_their_order() -> None:
    canvas = RecordingCanvas()
    drawn = appliqued(LEAF, DISC)
    draw_block(canvas, drawn.cloth, (drawn.width, drawn.height), cloths=CLOTHS, width_px=242)
    fills = [call[2] for call in canvas.calls if call[0] == "polygon" and call[2]]
    assert fills == [CLOTHS[letter].colour if letter in CLOTHS else "#FFFFFF" for letter in "ABC"]
    edges = [number for number, call in enumerate(canvas.calls) if call[0] == "polygon" and not call[2]]
    grounds = [number for number, call in enumerate(canvas.calls) if call[0] == "polygon" and call[2]]
    assert grounds[0] < edges[0] < grounds[1] < edges[1] < grounds[2]
    assert sorted(canvas.words()) == ["A", "C"]  # of the leaf too little is seen for a letter


def test_a_plate_has_the_shapes_on_top_too() -> None:
    canvas = RecordingCanvas()
    drawn = appliqued(shape("A", (1, 1), (3, 1), (2, 3)))
    draw_plate(canvas, drawn.cloth, (drawn.width, drawn.height), cloths=CLOTHS, width_px=82)
    assert [call[0] for call in canvas.calls] == ["polygons", "polygon"]


def test_the_letter_of_a_covered_patch_stands_where_it_is_seen() -> None:
    canvas = RecordingCanvas()
    drawn = appliqued(shape("B", (1, 1), (3, 1), (3, 3), (1, 3)))
    draw_block(canvas, drawn.cloth, (drawn.width, drawn.height), cloths=CLOTHS, width_px=242)
    spots = {str(call[2]): call[1] for call in canvas.calls if call[0] == "text"}
    inside = [60 < n < 181 for n in spots["A"]]  # type: ignore[attr-defined]  # a pixel
    assert set(spots) == {"A", "B"}
    assert not all(inside)


def test_a_plain_square_with_a_shape_is_a_block_and_not_a_setting_square() -> None:
    leaves = Leaves()
    laid = leaves.block(PlacedDrawing(block=appliqued(LEAF)), at=(F(0), F(0)))
    assert leaves.parts[0].kind is UnitKind.FINISHED_BLOCK
    assert laid.part == "block-1"
    with pytest.raises(BadField):
        leaves.sewn(PlacedDrawing(block=appliqued(LEAF)), at=(F(0), F(0)))


def test_a_quilt_keeps_the_shapes_where_their_blocks_lie() -> None:
    flower = appliqued(LEAF)
    top = straight_set([[plain_square("A", F(12)), PlacedDrawing(block=flower, turn=1)]], border=None)
    laid = top.blocks[1]
    moved = tuple((x + 12, y) for x, y in flower.turned(1).applique[0].points)
    assert laid.cloth[-1].points == moved
    assert [each.points for each in laid_shapes(top.centre)] == [moved]
    assert (len(top.drawing.patches), len(top.drawing.applique)) == (2, 1)


@pytest.mark.parametrize("corners", [Corners.BUTTED, Corners.MITRED])
@pytest.mark.parametrize("on_point", [False, True])
def test_a_top_with_shapes_on_its_blocks_goes_together(corners: Corners, *, on_point: bool) -> None:
    flower = PlacedDrawing(block=appliqued(LEAF, DISC), turn=1)
    border = Border(width=F(3), fabric="D", corners=corners)
    if on_point:
        top = on_point_set([[flower], [], [flower]], triangle="E", border=border)
    else:
        top = straight_set([[flower, flower]], sashing=Sashing(width=F(2), fabric="E"), border=border)
    assert top.border is not None
    size = (top.width, top.height)
    recipe = write_recipe(top.border, name="top", style=Style(), finished=size)
    drawing = block_as_data(top.drawing)
    proof = prove(json.loads(json.dumps(recipe.as_data())), drawing)
    assert proof.findings == ()
    assert proof.patches == len(top.drawing.cloth)
    assert reconcile(recipe).reconciles
    drawn = [facet.fabric for facet in recipe.steps[-1].pictures[-1].facets]
    assert drawn.count("C") == 2
    drawing["applique"].pop()
    assert not prove(recipe.as_data(), drawing).goes_together
