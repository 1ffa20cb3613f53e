"""Which fabric letter a shape of an SVG has: the letter it is given, else one for each fill colour."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from string import ascii_uppercase
from typing import TypeAlias

from patterns.engine.errors import BadLetter, BadSvg, BadTransform
from patterns.engine.svg_tree import Node

APPLIQUE = "data-applique"  # "true" on a shape or a group: what is in it lies on the patches

_LETTER = re.compile(r"[A-Z]{1,3}", re.ASCII)
_LETTER_AS_ID = re.compile(r"[A-Z]{1,2}", re.ASCII)
_CLASS = re.compile(r"\.[A-Za-z_-][\w-]*", re.ASCII)
_COMMENT = re.compile(r"/\*.*?\*/|<!--|-->", re.DOTALL)
_SHORT_HEX = re.compile(r"#[0-9a-f]{3}")
_RGB = re.compile(r"rgb\(\s*(\d{1,3})[\s,]+(\d{1,3})[\s,]+(\d{1,3})\s*\)", re.ASCII)
_LOOKS = ("fill", "fill-opacity", "opacity", "display", "visibility")
_NO_FILL = {"none", "transparent"}
_NOT_SEEN = {"hidden", "collapse"}

Rules: TypeAlias = Mapping[str, Mapping[str, str]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How a shape is filled, inherited from the groups it stands in."""

    fill: str = "black"
    letter: str = ""  # as given by data-letter or an id that is a letter
    shown: bool = True
    lies_on: bool = False  # an appliqué shape, as data-applique says

    @property
    def is_patch(self) -> bool:
        """Whether the shape is seen and filled; strokes alone make no patch."""
        return self.shown and self.fill not in _NO_FILL


def class_rules(root: Node) -> dict[str, dict[str, str]]:
    """Read the style sheets: what each class says of fill; BadSvg where anything else is filled so."""
    rules: dict[str, dict[str, str]] = {}
    for node in _style_sheets(root):
        *sheet, rest = _COMMENT.sub(" ", node.text).split("}")
        if rest.strip() or any(rule.count("{") != 1 for rule in sheet):
            raise BadSvg(where=node.name)
        for rule in sheet:
            selectors, _, body = rule.partition("{")
            said = _declarations(body, node.name)
            for name in _classes(selectors, node.name) if said else ():
                rules.setdefault(name, {}).update(said)
    return rules


def _classes(selectors: str, where: str) -> Iterator[str]:
    for selector in map(str.strip, selectors.split(",")):
        if not _CLASS.fullmatch(selector):
            raise BadSvg(where=where)
        yield selector[1:]


def look_of(node: Node, above: Look, rules: Rules) -> Look:
    """Add what an element says of itself: attributes, then its classes, then its own style."""
    said = {key: value.strip() for key, value in node.attributes.items() if key in _LOOKS}
    for name in node.attributes.get("class", "").split():
        said |= rules.get(name, {})
    said |= _declarations(node.attributes.get("style", ""), node.name)
    said = {key: value for key, value in said.items() if value != "inherit"}
    seen = said.get("visibility", "") not in _NOT_SEEN and said.get("display") != "none"
    solid = not {said.get("opacity"), said.get("fill-opacity")} & {"0", "0.0", "0%"}
    return Look(
        fill=_colour(said["fill"]) if said.get("fill") else above.fill,
        letter=_given_letter(node) or above.letter,
        shown=above.shown and seen and solid,
        lies_on=node.attributes.get(APPLIQUE, "true" if above.lies_on else "") == "true",
    )


def letters_of(looks: Sequence[Look]) -> list[str]:
    """Give every patch its letter.

    A colour takes the letter that a patch of this colour is given, else the first free one of A, B,
    C ... in the order in which the colours appear.
    """
    by_fill: dict[str, str] = {}
    for look in looks:
        if look.letter:
            by_fill.setdefault(look.fill, look.letter)
    given = {look.letter for look in looks}
    free = (letter for letter in all_letters() if letter not in given)
    for look in looks:
        if not look.letter and look.fill not in by_fill:
            by_fill[look.fill] = next(free)
    return [look.letter or by_fill[look.fill] for look in looks]


def all_letters() -> Iterator[str]:
    """Give the letters in order: A to Z, AA to ZZ, AAA and so on."""
    shorter = [""]
    while True:
        shorter = [before + letter for before in shorter for letter in ascii_uppercase]
        yield from shorter


def _style_sheets(node: Node) -> Iterator[Node]:
    if node.tag == "style":
        yield node
    for child in node.children:
        yield from _style_sheets(child)


def _declarations(body: str, where: str) -> dict[str, str]:
    """Read `fill: #abc; stroke: none`; a transform written as style is refused, since it moves patches."""
    pairs = (part.partition(":") for part in body.split(";"))
    said = {key.strip().lower(): value.strip().removesuffix("!important").strip() for key, _, value in pairs}
    if said.get("transform", "none") != "none":
        raise BadTransform(where=where)
    return {key: value for key, value in said.items() if key in _LOOKS}


def _given_letter(node: Node) -> str:
    given = node.attributes.get("data-letter")
    if given is not None:
        if not _LETTER.fullmatch(given):
            raise BadLetter(where=f"{node.name}.data-letter")
        return given
    name = node.attributes.get("id", "")
    return name if _LETTER_AS_ID.fullmatch(name) else ""


def _colour(text: str) -> str:
    """Write a colour in one way: #abc and rgb(170, 187, 204) are #aabbcc."""
    text = text.lower()
    if _SHORT_HEX.fullmatch(text):
        return "#" + "".join(2 * digit for digit in text[1:])
    found = _RGB.fullmatch(text)
    return "#" + "".join(f"{int(part):02x}" for part in found.groups()) if found else text
