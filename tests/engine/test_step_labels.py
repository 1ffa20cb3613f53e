"""Letters of step pictures: never under an arrow, and each there once where it can be seen at all."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from patterns.engine.drawing import RecordingCanvas, distance_squared, is_inside
from patterns.engine.drawing_lines import arrow_room
from patterns.engine.drawing_steps import draw_step_picture
from patterns.engine.recipes import write_recipe
from patterns.engine.settings_on_point import on_point_set
from patterns.engine.steps import Facet, Mark, MarkKind, Picture
from patterns.engine.units.base import Style
from tests.engine.cloths import CLOTHS, points
from tests.engine.drawn import recipe
from tests.engine.test_quilts import on_point_rows

pytestmark = pytest.mark.slow  # whole blocks, every picture

SMALL = 148  # px, as on the sheet
HALF = Fraction(6)  # px, more than half a letter's height


def drawn(picture: Picture) -> RecordingCanvas:
    canvas = RecordingCanvas()
    draw_step_picture(canvas, picture, cloths=CLOTHS, width_px=SMALL, tallest_px=SMALL)
    return canvas


def found(canvas: RecordingCanvas, kind: str) -> list[Any]:
    """Give where discs or polygons were drawn."""
    return [call[1] for call in canvas.calls if call[0] == kind]


def arrows(canvas: RecordingCanvas) -> list[Any]:
    return [shape for shape in found(canvas, "polygon") if len(shape) == 7]


@pytest.mark.parametrize("slug", ["sawtooth-star", "yankee-puzzle", "irish-chain", "churn-dash"])
def test_no_letter_lies_under_an_arrow(slug: str) -> None:
    for picture in (picture for step in recipe(slug).steps for picture in step.pictures):
        canvas = drawn(picture)
        for arrow in arrows(canvas):
            edges = list(zip(arrow, (*arrow[1:], arrow[0]), strict=True))
            for spot in found(canvas, "disc"):
                assert not is_inside(spot, arrow)
                assert min(distance_squared(spot, *edge) for edge in edges) >= HALF**2


def test_a_narrow_strip_keeps_its_name() -> None:
    for step in recipe("log-cabin").steps:
        laid = step.pictures[0]
        assert {facet.label for facet in laid.facets if len(facet.label) > 1} <= set(drawn(laid).words())


def test_what_lies_under_another_piece_has_no_letter() -> None:
    square = points("0,0 8,0 8,8 0,8")
    facets = (Facet(fabric="B", points=square, label="B1"), Facet(fabric="A", points=square, label="A1"))
    assert drawn(Picture(facets=facets)).words() == ["A1"]


def test_an_arrow_without_a_way_is_not_drawn() -> None:
    spot = (Fraction(1), Fraction(1))
    facet = Facet(fabric="B", points=points("0,0 8,0 8,8 0,8"))
    canvas = drawn(Picture(facets=(facet,), marks=(Mark(MarkKind.PRESS, spot, spot),)))
    assert arrow_room(spot, spot) == ()
    assert not arrows(canvas)


def test_a_top_on_point_has_an_arrow_for_every_seam() -> None:
    order = on_point_set(on_point_rows(2, 2), triangle="T").centre
    assert order is not None
    made = write_recipe(order, name="top", style=Style())
    counts = [
        sum(mark.kind is MarkKind.PRESS for mark in step.pictures[-1].marks)
        for step in made.steps
        if step.operations[-1]["op"] in ("lay", "rows")
    ]
    assert counts == [2, 2, 2, 2, 4]  # three rows, the long seams between them, the corners
    corners = made.steps[-1].operations[-1]
    assert (corners["press"], corners["press_long"]) == ([[], [-1, 1], []], [-1, 1])  # to the triangles
