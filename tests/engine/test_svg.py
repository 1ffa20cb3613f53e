"""SVG that is written: well-formed, escaped, named, with ids of its own."""

from __future__ import annotations

import re
from fractions import Fraction

from defusedxml import ElementTree

from patterns.engine.drawing import Lettering, Stroke
from patterns.engine.drawing_blocks import draw_block
from patterns.engine.hatches import INK, Cloth
from patterns.engine.parts import Patch
from patterns.engine.svg import PAGE_COLOURS, SvgCanvas

F = Fraction

NAMESPACE = "{http://www.w3.org/2000/svg}"
CLOTHS = {letter: Cloth(letter, "#1F3A54", hatch) for hatch, letter in enumerate("ABCDEFGH")}
SQUARE = ((F(0), F(0)), (F(1), F(0)), (F(1), F(1)), (F(0), F(1)))


def picture(letter: str, *, width_px: int = 60, prefix: str = "") -> str:
    canvas = SvgCanvas(prefix=prefix)
    draw_block(canvas, [Patch(letter, SQUARE)], (F(1), F(1)), cloths=CLOTHS, width_px=width_px)
    return canvas.svg(f"Square of {letter}", kind="cloth")


def test_picture_is_xml_with_size_and_name() -> None:
    tree = ElementTree.fromstring(picture("B"))
    assert tree.tag == f"{NAMESPACE}svg"
    assert (tree.get("width"), tree.get("height"), tree.get("viewBox")) == ("60", "60", "0 0 60 60")
    assert (tree.get("role"), tree.get("aria-label"), tree.get("class")) == ("img", "Square of B", "cloth")
    assert tree.findtext(f"{NAMESPACE}title") == "Square of B"
    assert tree.get("font-family", "").startswith("'Atkinson Hyperlegible Next'")


def test_exact_text_of_a_line() -> None:
    canvas = SvgCanvas()
    canvas.page(F(10), F(5, 2))
    canvas.line((F(1, 3), F(-1, 2)), (F(2), F(2)), stroke=Stroke(INK, F(9, 10), (F(3), F(5, 2))))
    assert canvas.svg("x").endswith(
        '<title>x</title><line x1="0.333" y1="-0.5" x2="2" y2="2" stroke="#17202B" stroke-width="0.9" '
        'stroke-dasharray="3 2.5"/></svg>'
    )


def test_words_are_escaped() -> None:
    canvas = SvgCanvas()
    canvas.text((F(0), F(0)), '<script>"&\x00\x08')
    svg = canvas.svg('"><script>alert(1)</script>\x00')
    tree = ElementTree.fromstring(svg)
    assert "<script>" not in svg
    assert tree.get("aria-label") == '"><script>alert(1)</script>'
    assert tree.findtext(f"{NAMESPACE}text") == '<script>"&'


def test_fractions_are_set_small_and_keep_their_words() -> None:
    canvas = SvgCanvas()
    canvas.text((F(0), F(0)), "cut 2 1/2 in, 3/8 yd", style=Lettering(size=F(20)))
    tree = ElementTree.fromstring(canvas.svg("x"))
    text = tree.find(f"{NAMESPACE}text")
    assert text is not None
    assert "".join(text.itertext()) == "cut 2 1⁄2 in, 3⁄8 yd"
    assert [span.get("font-size") for span in text] == [
        "14.8",
        None,
        "14.8",
        None,
        "14.8",
        None,
        "14.8",
        None,
    ]
    assert sum(F(span.get("dy", "0")) for span in text) == 0  # ends on the line it began on


def test_ids_differ_between_pictures_and_agree_for_the_same_one() -> None:
    def ids(svg: str) -> set[str]:
        return set(re.findall(r'id="([^"]+)"', svg))

    assert picture("B") == picture("B")
    assert ids(picture("B")).isdisjoint(ids(picture("B", width_px=61)))
    assert ids(picture("B", prefix="year-1")) == {"year-1-1-4-728393"}


def test_every_hatch_refers_to_a_pattern_of_its_picture() -> None:
    for letter in CLOTHS:
        svg = picture(letter)
        assert set(re.findall(r"url\(#([^)]+)\)", svg)) == set(re.findall(r'pattern id="([^"]+)"', svg))


def test_plain_cloth_needs_no_pattern() -> None:
    assert "pattern" not in picture("A")


def test_the_ground_is_drawn_flat_under_the_hatch() -> None:
    shapes = re.findall(r"<polygon[^>]*>", picture("B"))
    assert 'fill="#1F3A54"' in shapes[0]
    assert 'fill="url(#' in shapes[1]


def test_charts_take_the_colours_of_the_page() -> None:
    canvas = SvgCanvas(colours=PAGE_COLOURS)
    canvas.line((F(0), F(0)), (F(1), F(1)), stroke=Stroke(INK))
    assert 'stroke="currentColor"' in canvas.svg("x")
