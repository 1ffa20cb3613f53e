"""The outlines of shapes: straight edges in every notation, curves by name."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.blocks import MOST_SPOTS
from patterns.engine.errors import DrawingError
from patterns.engine.svg_outlines import outlines
from patterns.engine.svg_tree import Node

SQUARE = [(1, 1), (3, 1), (3, 3), (1, 3)]


def drawn(tag: str, **attributes: str) -> list[list[tuple[Fraction, Fraction]]]:
    found = outlines(Node(tag=tag, name=f"{tag}[0]", attributes=attributes))
    return [outline.spots for outline in found]


@pytest.mark.parametrize(
    "path",
    [
        "M1 1 L3 1 L3 3 L1 3 Z",
        "M1,1H3V3H1z",
        "m1 1h2v2h-2z",
        "M1 1 3 1 3 3 1 3",
        "m1 1 2 0 0 2-2 0z",
        "M1 1H3V3H1V1Z",
    ],
)
def test_one_square_in_every_notation(path: str) -> None:
    (square,) = drawn("path", d=path)
    assert set(square) == set(SQUARE)
    assert len(square) == 4


def test_polygons_rectangles_and_polylines() -> None:
    assert drawn("rect", x="1", y="1", width="2", height="2") == [SQUARE]
    assert drawn("polygon", points="1,1 3,1 3,3 1,3") == [SQUARE]
    (closed,) = drawn("polyline", points="1 1 3 1 3 3 1 3 1 1")
    assert set(closed) == set(SQUARE)
    assert len(closed) == 4


def test_a_path_of_several_outlines_is_several_shapes() -> None:
    # After Z the next outline begins where the last one did (SVG 1.1, 8.3.3); m is relative to it.
    first, second, third = drawn("path", d="M1 1h2v2z m0 5 h2 v2 z l-1 0 0 -1z")
    assert first == [(1, 1), (3, 1), (3, 3)]
    assert second == [(1, 6), (3, 6), (3, 8)]
    assert third == [(1, 6), (0, 6), (0, 5)]


@pytest.mark.parametrize(
    ("tag", "attributes"),
    [
        ("path", {"d": "M1 1L3 3"}),
        ("path", {"d": ""}),
        ("path", {"d": "M1 1"}),
        ("polyline", {"points": "0,0 5,5"}),
        ("rect", {"width": "0", "height": "3"}),
        ("rect", {"width": "2"}),
        ("polygon", {}),
    ],
)
def test_a_line_fills_nothing(tag: str, attributes: dict[str, str]) -> None:
    assert drawn(tag, **attributes) == []


@pytest.mark.parametrize(
    ("tag", "attributes", "fault"),
    [
        ("circle", {"r": "2"}, ("curve", "circle[0]")),
        ("ellipse", {}, ("curve", "ellipse[0]")),
        ("rect", {"width": "3", "height": "3", "rx": "1"}, ("curve", "rect[0]")),
        ("path", {"d": "M0 0L2 2C1 1 2 2 3 3z"}, ("curve", "path[0].d")),
        ("path", {"d": "M0 0a2 1 0 01 2 2"}, ("curve", "path[0].d")),
        ("path", {"d": "M0 0a1 1 0 2 1 2 2"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "M0 0a1 1 0 0"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "M0 0t1 1"}, ("curve", "path[0].d")),
        ("path", {"d": "L0 0"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "1 1"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "M0 0 1"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "M0 L1 1"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "M0 0Z5"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "M0 0 X"}, ("bad-svg", "path[0].d")),
        ("path", {"d": "M0 0" + "h1" * (MOST_SPOTS + 1)}, ("too-large", "path[0].d")),
        ("polygon", {"points": "1 2 3"}, ("bad-svg", "polygon[0].points")),
        ("polygon", {"points": "1 2 3 x"}, ("bad-svg", "polygon[0].points")),
        ("rect", {"width": "3", "height": "50%"}, ("bad-svg", "rect[0].height")),
    ],
)
def test_what_cannot_be_read_is_named(tag: str, attributes: dict[str, str], fault: tuple[str, str]) -> None:
    with pytest.raises(DrawingError) as error:
        drawn(tag, **attributes)
    assert (error.value.kind, error.value.where) == fault
