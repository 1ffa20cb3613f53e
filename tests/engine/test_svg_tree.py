"""What an SVG file may not hold: everything that another program would fetch, run or expand."""

from __future__ import annotations

import pytest

from patterns.engine.errors import DrawingError
from patterns.engine.svg_tree import MOST_CHARACTERS, MOST_DEPTH, MOST_ELEMENTS, MOST_STYLE, read_tree

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 1 1">'
BOMB = (
    '<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa">'
    + "".join(f'<!ENTITY {b} "{10 * f"&{a};"}">' for a, b in zip("abcdefghi", "bcdefghij", strict=True))
    + "]><svg>&j;</svg>"
)
STRANGER = '<!DOCTYPE svg SYSTEM "http://example.org/x.dtd"><svg/>'
FILE = '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]><svg><title>&x;</title></svg>'


def refusal(text: str) -> tuple[str, object]:
    with pytest.raises(DrawingError) as error:
        read_tree(text)
    return error.value.kind, error.value.where


@pytest.mark.parametrize("text", [BOMB, STRANGER, FILE, "<!DOCTYPE svg><svg/>"])
def test_document_types_and_entities_are_refused(text: str) -> None:
    assert refusal(text) == ("unsafe-svg", "doctype")


@pytest.mark.parametrize(
    ("inside", "kind", "where"),
    [
        ("<script>alert(1)</script>", "unsafe-svg", "script[0]"),
        ('<x:script xmlns:x="http://www.w3.org/1999/xhtml"/>', "unsafe-svg", "script[0]"),
        ('<rect onclick="alert(1)"/>', "unsafe-svg", "rect[0].onclick"),
        ('<g id="top" onLoad="x"/>', "unsafe-svg", "g#top.onload"),
        ('<rect/><rect><animate attributeName="x"/></rect>', "unsafe-svg", "animate[0]"),
        ('<rect><set attributeName="x"/></rect>', "unsafe-svg", "set[0]"),
        ("<foreignObject/>", "unsafe-svg", "foreignObject[0]"),
        ('<image href="data:image/png;base64,AA"/>', "outside-reference", "image[0]"),
        ('<use href="http://example.org/a.svg#b"/>', "outside-reference", "use[0].href"),
        ('<use xlink:href="other.svg#b"/>', "outside-reference", "use[0].href"),
        ('<a xlink:href="javascript:alert(1)"/>', "outside-reference", "a[0].href"),
        ('<rect fill="url(other.svg#a)"/>', "outside-reference", "rect[0].fill"),
        ("<rect style=\"fill: URL( 'http://example.org/a' )\"/>", "outside-reference", "rect[0].style"),
        ('<rect style="fill:u\\72l(x)"/>', "outside-reference", "rect[0].style"),
        ("<style>@import 'x.css';</style>", "outside-reference", "style[0]"),
        ("<style>.a{fill:url(x.svg#a)}</style>", "outside-reference", "style[0]"),
    ],
)
def test_what_runs_or_fetches_is_refused_with_its_place(inside: str, kind: str, where: str) -> None:
    assert refusal(f"{HEAD}{inside}</svg>") == (kind, where)


def test_a_style_sheet_named_before_the_picture_is_refused() -> None:
    assert refusal('<?xml-stylesheet href="x.css"?><svg/>') == ("outside-reference", "xml-stylesheet")


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("", "line 1"),
        ("no picture", "line 1"),
        ("<svg>\n<rect>\n</svg>", "line 3"),
        ("<svg>&nbsp;</svg>", "line 1"),
        ("<html/>", "svg"),
        ('<svg xmlns="http://example.org/other"/>', "svg"),
        ("<svg>\ud800</svg>", "svg"),
    ],
)
def test_what_is_no_svg_is_named_by_its_line(text: str, where: str) -> None:
    assert refusal(text) == ("bad-svg", where)


@pytest.mark.parametrize(
    ("text", "where"),
    [
        (" " * (MOST_CHARACTERS + 1), "svg"),
        (HEAD + "<g>" * MOST_DEPTH, f"g[{MOST_DEPTH - 1}]"),
        (HEAD + "<rect/>" * MOST_ELEMENTS, f"rect[{MOST_ELEMENTS - 1}]"),
        (f"{HEAD}<style>{'a' * (MOST_STYLE + 1)}</style></svg>", "style[0]"),
    ],
)
def test_size_depth_and_number_have_limits(text: str, where: str) -> None:
    assert refusal(text) == ("too-large", where)


def test_elements_keep_their_order_and_strangers_lose_their_tag() -> None:
    root = read_tree(f'{HEAD}<title>A &amp; B</title><x:g xmlns:x="urn:x"/><use href="#a" id="b"/></svg>')
    assert [(child.tag, child.name) for child in root.children] == [
        ("title", "title[0]"),
        ("", "g[0]"),
        ("use", "use#b"),
    ]
    assert root.children[0].text == "A & B"


def test_a_reference_inside_the_file_is_no_fault() -> None:
    root = read_tree(f'{HEAD}<rect fill="url(#a)" style="fill: url( &quot;#b&quot; )"/></svg>')
    assert root.children[0].attributes["fill"] == "url(#a)"
