"""A block from an SVG picture: the same block as its drawing file, or a fault with its place."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_from_data
from patterns.engine.errors import DrawingError
from patterns.engine.geometry import tidied
from patterns.engine.methods import HouseStyle, Style
from patterns.engine.recipes import write_recipe
from patterns.engine.surds import root
from patterns.engine.svg_reading import block_from_svg, svg_as_data
from tests.engine.drawings import FOLDER, inches

PICTURES = Path(__file__).parent / "svg"
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">'
LEFT = '<rect fill="#fff" width="50" height="100"/>'
RIGHT = '<rect fill="#000" x="50" width="50" height="100"/>'


def picture(*shapes: str, head: str = HEAD) -> str:
    return f"{head}{''.join(shapes)}</svg>"


def refusal(text: str) -> tuple[str, object]:
    with pytest.raises(DrawingError) as error:
        block_from_svg(text)
    return error.value.kind, error.value.as_data()["where"]


def shapes_of(block: Block) -> set[tuple[str, object]]:
    return {(patch.fabric, tidied(patch.points)) for patch in block.patches}


@pytest.mark.parametrize(
    ("file", "letters"),
    [("ohio-star-pixels.svg", {"A": "A", "B": "C", "C": "E"}), ("ohio-star-inches.svg", None)],
)
def test_an_ohio_star_drawn_in_two_ways_is_the_one_of_the_drawing_file(
    file: str, letters: dict[str, str] | None
) -> None:
    ours = block_from_data(json.loads((FOLDER / "ohio-star.json").read_text("utf-8")))
    read = block_from_svg((PICTURES / file).read_text("utf-8"))
    drawn = read.relettered(letters) if letters else read
    assert (drawn.name, drawn.width, drawn.height) == ("Ohio Star", 6, 6)
    assert shapes_of(drawn) == shapes_of(ours)
    orders = [sewing_order(inches(block)) for block in (drawn, ours)]
    assert orders[0] == orders[1]
    style = Style(seam=Fraction(1, 4), house=HouseStyle.EXACT)
    recipes = [write_recipe(order, name="Ohio Star", style=style) for order in orders]
    assert recipes[0].pieces == recipes[1].pieces
    assert recipes[0].as_data() == recipes[1].as_data()


def test_the_drawing_file_of_a_picture() -> None:
    assert svg_as_data(picture(LEFT, RIGHT), name="Halves") == {
        "name": "Halves",
        "grid": ["2", "2"],
        "patches": [
            {"fabric": "A", "points": [["0", "0"], ["1", "0"], ["1", "2"], ["0", "2"]]},
            {"fabric": "B", "points": [["1", "0"], ["2", "0"], ["2", "2"], ["1", "2"]]},
        ],
    }


def test_a_title_is_the_name_and_spaces_in_it_are_single() -> None:
    assert block_from_svg(picture("<title>\n  Two\n  Halves </title>", LEFT, RIGHT)).name == "Two Halves"
    assert block_from_svg(picture("<title> </title>", LEFT, RIGHT), name="halves").name == "halves"


@pytest.mark.parametrize(
    "head",
    [
        '<svg viewBox="0 0 100 100" width="100%">',
        '<svg width="100" height="100px">',
        "<svg>",  # the shapes' own rectangle
        '<svg width="100%" height="100%">',
        '<svg viewBox="-50 -50 200 300">',  # a page round them
        '<svg viewBox="0,0,100,100" width="12in" height="12in" preserveAspectRatio="xMidYMid meet">',
    ],
)
def test_the_rectangle_of_the_block(head: str) -> None:
    block = block_from_svg(picture(LEFT, RIGHT, head=head))
    assert (block.width, block.height, len(block.patches)) == (2, 2, 2)


def test_a_page_that_the_shapes_touch_is_the_block() -> None:
    """A row left out at the side is a gap, not a smaller block."""
    assert refusal(picture(LEFT)) == ("gap", ["1", "1"])
    assert refusal(picture(LEFT, head='<svg viewBox="0 -50 100 200">'))[0] == "gap"


def test_a_part_of_a_picture_in_a_corner_of_its_own() -> None:
    shapes = picture(LEFT, RIGHT).removeprefix(HEAD)
    moved = f'<svg viewBox="40 -60 100 100"><g transform="translate(40 -60)">{shapes}'.replace(
        "</svg>", "</g></svg>"
    )
    assert shapes_of(block_from_svg(moved)) == shapes_of(block_from_svg(picture(LEFT, RIGHT)))


def test_overlaps_are_found_with_place_and_patches() -> None:
    with pytest.raises(DrawingError) as error:
        block_from_svg(picture(LEFT, '<rect fill="#000" x="25" width="75" height="100"/>'))
    assert (error.value.kind, error.value.patches) == ("overlap", (0, 1))


def test_a_patch_outside_the_picture_is_found() -> None:
    wide = '<rect fill="#000" x="50" width="75" height="100"/>'
    assert refusal(picture(LEFT, wide)) == ("outside", ["5", "0"])


@pytest.mark.parametrize(
    ("shapes", "kind", "where"),
    [
        ("", "no-patches", "svg[0]"),
        ('<path d="M0 0H9V9z" fill="none" stroke="red"/><text>A</text>', "no-patches", "svg[0]"),
        ('<g display="none"><rect width="100" height="100"/></g>', "no-patches", "svg[0]"),
        ('<rect width="100" height="0"/>', "no-patches", "svg[0]"),
        ('<polygon points="0,0 50,50 100,100"/>', "zero-area", ["0", "0"]),
        (LEFT + RIGHT + '<circle id="sun" cx="50" r="9"/>', "curve", "circle#sun"),
        (LEFT + '<path d="M0 0L50 0C1 1 2 2 0 0"/>', "curve", "path[0].d"),
        ('<g><rect width="9" height="9" rx="2"/></g>', "curve", "rect[0]"),
        ('<rect width="9" height="9" transform="rotate(10)"/>', "bad-transform", "rect[0].transform"),
        ('<g id="a1" transform="skewX(45)"/>', "bad-transform", "g#a1.transform"),
        (LEFT + '<use href="#x"/>', "bad-svg", "use[0]"),
        ("<g><svg/></g>", "bad-svg", "svg[1]"),
        ("<switch/>", "bad-svg", "switch[0]"),
        (
            LEFT + '<rect fill="red" x="50" width="21.713" height="100"/>' + RIGHT,
            "off-grid",
            "rect[1] 71.713,0",
        ),
        ("<rect width='9' height='9'/>" * 1501, "too-many-patches", "svg[0]"),
        (
            '<polygon points="' + "".join(f"{n},{n * n} " for n in range(41)) + '"/>',
            "too-large",
            "polygon[0]",
        ),
        ('<rect data-letter="a" width="9" height="9"/>', "bad-letter", "rect[0].data-letter"),
    ],
)
def test_faults_of_a_picture_are_named(shapes: str, kind: str, where: object) -> None:
    assert refusal(picture(shapes)) == (kind, where)


@pytest.mark.parametrize(
    ("head", "where"),
    [
        ('<svg viewBox="0 0 100">', "svg[0].viewBox"),
        ('<svg viewBox="0 0 100 0">', "svg[0].viewBox"),
        ('<svg viewBox="0 0 100 x">', "svg[0].viewBox"),
        ('<svg width="2em" height="100">', "svg[0].width"),
        ('<svg width="0" height="100">', "svg[0].width"),
        ('<svg viewBox="0 0 100 100" preserveAspectRatio="none">', "svg[0].preserveAspectRatio"),
        ('<svg data-names="[" viewBox="0 0 100 100">', "svg[0].data-names"),
    ],
)
def test_faults_of_the_head_are_named(head: str, where: str) -> None:
    assert refusal(picture(LEFT, RIGHT, head=head)) == ("bad-svg", where)


def test_a_fault_tells_the_remedy() -> None:
    with pytest.raises(DrawingError) as error:
        block_from_svg(picture('<circle r="5"/>'))
    assert error.value.as_data() == {
        "error": "curve",
        "where": "circle[0]",
        "remedy": "draw-straight-or-quarter-circles",
        "patches": [],
    }


def test_an_outline_that_falls_on_one_point_of_the_grid_has_no_area() -> None:
    assert refusal(picture(LEFT, RIGHT, '<path d="M50 0h.001v.001z"/>')) == ("zero-area", ["1", "0"])


def test_a_hexagon_of_five_decimals_has_exact_corners() -> None:
    """Side 1 in a rectangle of 2 x sqrt(3)."""
    corners = ((50, 0), (150, 0), (200, "86.60254"), (150, "173.20508"), (50, "173.20508"), (0, "86.60254"))
    points = [f"{x},{y}" for x, y in corners]
    triangles = [
        f'<polygon fill="#eee" points="{points[a]} {points[b]} {corner}"/>'
        for a, b, corner in ((0, 5, "0,0"), (1, 2, "200,0"), (2, 3, "200,173.20508"), (4, 5, "0,173.20508"))
    ]
    head = '<svg viewBox="0 0 200 173.20508">'
    block = block_from_svg(picture(f'<polygon points="{" ".join(points)}"/>', *triangles, head=head))
    assert block.height / block.width == root(3) / 2
    assert block.at_size(Fraction(2), root(3)).patches[0].points[2] == (2, root(3) / 2)


def test_a_square_turned_by_45_degrees_stands_on_its_corner() -> None:
    turned = '<g transform="translate(50) scale(.70710678) rotate(45)"><rect width="100" height="100"/></g>'
    corners = ("0,0 50,0 0,50", "50,0 100,0 100,50", "100,50 100,100 50,100", "0,50 50,100 0,100")
    block = block_from_svg(picture(turned, *(f'<polygon fill="red" points="{c}"/>' for c in corners)))
    assert (block.width, tidied(block.patches[0].points)) == (2, ((0, 1), (1, 0), (2, 1), (1, 2)))
    assert block.letters == ("A", "B")


def test_a_picture_whose_own_height_lies_on_no_grid_is_named() -> None:
    whole = '<rect width="100" height="71.7125"/>'
    assert refusal(picture(LEFT, RIGHT, head='<svg viewBox="0 0 100 71.7125">')) == (
        "off-grid",
        "svg.viewBox",
    )
    assert refusal(picture(whole, head="<svg>")) == ("off-grid", "rect[0] 100,71.712")


def test_shapes_without_area_and_without_a_page_are_no_picture() -> None:
    assert refusal(picture('<polygon points="0,0 5,0 9,0"/>', head="<svg>")) == ("no-patches", "svg[0]")
