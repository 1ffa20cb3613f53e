"""Words of a designer: a small, safe markup, written as HTML for sheets and pages.

Paragraphs, line ends, `*emphasis*`, `**strong**`, lists, and links by http or https, which are shown as
words with their address.  Everything else is text: HTML, pictures, tables, headings.  `{cut size of A1}`
is a place that somebody else fills.  What nests deeper than a sheet can show is set as plain paragraphs;
no word is lost.  Signs that are no letters (controls, marks that turn the writing round) are left out.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

import nh3
from django.utils.html import conditional_escape
from django.utils.safestring import SafeString, mark_safe
from markdown_it import MarkdownIt

from patterns.domain.wording import fractions_html

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from markdown_it.token import Token

PLACE = re.compile(r"\{(?P<name>[^{}\n]{1,120})\}")
DEEPEST_LIST, DEEPEST_EMPHASIS, LARGEST_START = 3, 3, 99
MOST_MARKS = 2  # accents on one letter
_LEVELS = 2  # of tokens, for each level of a list
_OPEN, _CLOSE = "\ue000", "\ue001"  # private letters round the number of a filled place
_FILLED = re.compile(f"{_OPEN}(\\d+){_CLOSE}")
_LEFT_OUT = {"Cc", "Cf", "Cs", "Co", "Cn"}  # Unicode's general categories of signs that are no letters
_SOFT_HYPHEN = "\u00ad"
_MARKS_OF_MEASURE = str.maketrans("″′", "\"'")
_TAGS = {"p", "br", "em", "strong", "ul", "ol", "li", "span", "i", "b"}
_CLASSES = {"span": {"m", "fr"}}
_RULES = ("emphasis", "list", "link", "escape", "newline")


def words_html(text: str, fill: Callable[[str], SafeString | None]) -> SafeString:
    """Write the words as HTML; `fill` gives a place's HTML by its name, None leaves it as typed."""
    filled: list[SafeString] = []
    marked = PLACE.sub(lambda found: _keep(fill(found["name"]), found[0], filled), clean(text))
    tokens = _reader().parse(marked)
    html = _plain(marked, filled) if is_too_deep(tokens) else _render(tokens, filled)
    return mark_safe(  # noqa: S308 -- every text is escaped, then all but a few tags are taken out
        nh3.clean(
            html,
            tags=_TAGS,
            attributes={"ol": {"start"}},
            allowed_classes=_CLASSES,
            url_schemes=set(),
            link_rel=None,
        )
    )


def clean(text: str) -> str:
    """Give the text with plain spaces and line ends, without signs that are no letters."""
    text = re.sub("\r\n?|[\u2028\u2029\x0b\x0c\x85]", "\n", text).translate(_MARKS_OF_MEASURE)
    text = unicodedata.normalize("NFC", text).expandtabs(4)
    letters: list[str] = []
    marks = 0
    for letter in text:
        kind = unicodedata.category(letter)
        marks = marks + 1 if kind in {"Mn", "Me"} else 0
        if letter in {"\n", _SOFT_HYPHEN} or (kind not in _LEFT_OUT and marks <= MOST_MARKS):
            letters.append(" " if kind == "Zs" and letter != "\u00a0" else letter)
    return "".join(letters)


def too_deep_line(text: str) -> int | None:
    """Give the line, from 1, on which lists or emphasis nest too deep to be shown; None where none does."""
    deep = _first_deep(_reader().parse(clean(text)))
    return None if deep is None else (deep.map or [0])[0] + 1


def is_too_deep(tokens: Sequence[Token]) -> bool:
    """Whether something nests deeper than a sheet shows, or a list begins at a number that is none."""
    return _first_deep(tokens) is not None


def _first_deep(tokens: Sequence[Token]) -> Token | None:
    return next((token for token in tokens if _is_deep(token)), None)


def _is_deep(token: Token) -> bool:
    if token.type.endswith("_list_open"):
        return token.level >= DEEPEST_LIST * _LEVELS or int(token.attrGet("start") or 1) > LARGEST_START
    return any(child.level > DEEPEST_EMPHASIS for child in token.children or ())


def _keep(html: SafeString | None, typed: str, filled: list[SafeString]) -> str:
    if html is None:
        return typed
    filled.append(html)
    return f"{_OPEN}{len(filled) - 1}{_CLOSE}"


def _plain(text: str, filled: list[SafeString]) -> str:
    """Set paragraphs and line ends only."""
    parts = (part.split("\n") for part in re.split(r"\n{2,}", text.strip("\n")))
    return "".join(f"<p>{'<br>'.join(_text(line, filled) for line in lines)}</p>" for lines in parts)


def _render(tokens: Sequence[Token], filled: list[SafeString]) -> str:
    return str(_reader().renderer.render(tokens, _reader().options, {"filled": filled}))


def _text(words: str, filled: list[SafeString]) -> str:
    """Escape words, build their fractions, and put in what fills the places."""
    parts = _FILLED.split(words)
    return "".join(
        str(filled[int(part)]) if at % 2 else str(fractions_html(part)) for at, part in enumerate(parts)
    )


@lru_cache(maxsize=1)
def _reader() -> MarkdownIt:
    reader = MarkdownIt("zero", {"breaks": True, "html": False, "maxNesting": 20}).enable(_RULES)
    reader.validateLink = _is_web_address  # type: ignore[method-assign]  # how the library is told
    reader.add_render_rule("text", _text_rule)
    reader.add_render_rule("link_open", _nothing_rule)
    reader.add_render_rule("link_close", _address_rule)
    return reader


def _is_web_address(url: str) -> bool:
    return url.lower().startswith(("http://", "https://")) and quote(_OPEN) not in url


def _text_rule(_self: Any, tokens: Sequence[Token], at: int, _options: Any, env: Any) -> str:
    return _text(tokens[at].content, env["filled"])


def _nothing_rule(_self: Any, _tokens: Sequence[Token], _at: int, _options: Any, _env: Any) -> str:
    return ""


def _address_rule(_self: Any, tokens: Sequence[Token], at: int, _options: Any, _env: Any) -> str:
    """Write the address behind a link's words."""
    opened = next(
        token
        for token in reversed(tokens[:at])
        if token.type == "link_open" and token.level == tokens[at].level
    )
    return f" ({conditional_escape(str(opened.attrGet('href')))})"
