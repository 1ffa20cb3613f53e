"""The markup of a designer's words: what it knows, and that nothing else gets through."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser

import pytest
from django.utils.safestring import SafeString, mark_safe
from hypothesis import given, settings
from hypothesis import strategies as st

from bom.domain.markup import clean, too_deep_line, words_html

pytestmark = pytest.mark.slow

KNOWN = {"p", "br", "em", "strong", "ul", "ol", "li", "span", "i", "b"}
NUMBER = mark_safe('<span class="m">3</span>')


def html(text: str) -> str:
    return " ".join(words_html(text, lambda name: NUMBER if name == "seam" else None).split("\n")).strip()


def words(text: str) -> str:
    return unescape(re.sub("<[^>]*>", "", html(text)))


class Tags(HTMLParser):
    """Collect tags and attributes, and see that every tag is closed in turn."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.names: set[str] = set()
        self.attributes: set[tuple[str, str, str | None]] = set()
        self.open: list[str] = []
        self.deepest = 0
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.names.add(tag)
        self.attributes |= {(tag, *each) for each in attrs}
        if tag != "br":
            self.open.append(tag)
        self.deepest = max(self.deepest, len(self.open))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def is_safe(text: str) -> bool:
    found = Tags(html(text))
    plain = {("span", "class", "m"), ("span", "class", "fr")}
    others = {each for each in found.attributes - plain if each[:2] != ("ol", "start")}
    return found.names <= KNOWN and not others and not found.open and found.deepest < 20


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("One.\nTwo.\n\nThree.", "<p>One.<br> Two.</p> <p>Three.</p>"),
        ("*a* **b**", "<p><em>a</em> <strong>b</strong></p>"),
        ("- a\n- b", "<ul> <li>a</li> <li>b</li> </ul>"),
        ("3. a\n4. b", '<ol start="3"> <li>a</li> <li>b</li> </ol>'),
        ("[the yard](https://y.example/a)", "<p>the yard (https://y.example/a)</p>"),
        ("a {seam} *{seam}*", f"<p>a {NUMBER} <em>{NUMBER}</em></p>"),
        ("{nothing}", "<p>{nothing}</p>"),
        (r"\*a\*", "<p>*a*</p>"),
    ],
)
def test_the_markup_says_paragraphs_emphasis_lists_and_addresses(text: str, expected: str) -> None:
    assert html(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "![a](https://y.example/a.png)",
        "[a](javascript:alert(1))",
        "[a](data:text/html,x)",
        "# head",
        "`code`",
        "> said",
        "| a | b |\n|---|---|",
        "&lt;b&gt; &#x3c;",
        "</div></section><style>*{display:none}</style>",
        '[a](https://y.example/"onmouseover="alert)',
        "{seam}<b>{seam}</b>",
        "\ue0000\ue001 \ue0009\ue001",
    ],
)
def test_everything_else_is_only_words(text: str) -> None:
    assert is_safe(text)
    assert not {"script", "img", "style", "h1", "code", "a"} & Tags(html(text)).names


def test_fractions_are_built_and_stay_readable() -> None:
    assert words("2 1/2 in") == "2\u00a01⁄2 in"


def test_what_nests_too_deep_is_set_plainly_and_no_word_is_lost() -> None:
    deep = "\n".join("  " * level + f"- word{level}" for level in range(1000))
    assert [f"word{level}" in html(deep) for level in (0, 500, 999)] == [True] * 3
    assert Tags(html(deep)).names == {"p", "br"}
    assert (too_deep_line(deep), too_deep_line("- a\n  - b\n    - c")) == (4, None)


def test_a_year_at_the_beginning_of_a_paragraph_is_no_list() -> None:
    assert html("1986. A cold year.") == "<p>1986. A cold year.</p>"


def test_signs_that_are_no_letters_are_left_out() -> None:
    assert clean("a\x00\x07\u202eb\u2066\ufeff\u200bc\r\nd\u2028e\u3000f") == "abc\nd\ne f"
    assert clean("o" + "\u0301" * 500) == "ó\u0301\u0301"


TAKING_LONG = (
    "[",
    "[a](",
    "*a ",
    "**a*",
    "_a_",
    "\\",
    "{",
    "{a}",
    ">",
    "1/2 ",
    "\n",
    "- ",
    "1. ",
    "*_",
    "![a",
)


@pytest.mark.parametrize("piece", TAKING_LONG)
def test_a_hundred_thousand_letters_of_one_kind_stay_words(piece: str) -> None:
    assert is_safe(piece * (100_000 // len(piece)))


SPICES = (
    *("*", "**", "_", "{", "}", "{seam}", "[", "](", ")", "](https://y.example)", "\\", "`", "'", '"'),
    *("<b>", "</p>", "<!--", "-->", "&", "&amp;", "\n", "\n\n", "- ", "  - ", "1. ", "\t", "½", "2 1/2"),
    *("\u202e", "\u05d0\u05d1", "🙂", "\x00", "\x1b", "\ud7ff", "\ue000", "0", "\ue001", "w" * 50),
)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.one_of(st.sampled_from(SPICES), st.text(max_size=5)), max_size=60).map("".join))
def test_whatever_is_written_stays_words(text: str) -> None:
    assert is_safe(text)
    assert isinstance(words_html(text, lambda _name: None), SafeString)
