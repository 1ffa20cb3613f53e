"""An SVG file as a small tree of plain nodes, with everything refused that is no drawing.

Nothing is ever fetched or run; what would make another program fetch or run something is refused by
name: document types and entities, scripts, animations, embedded pages and pictures, and references
to anything outside the file.  Size, depth and number of elements have limits.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from patterns.engine.errors import BadSvg, OutsideReference, TooLarge, UnsafeSvg

MOST_CHARACTERS = 1_000_000
MOST_ELEMENTS = 5_000
MOST_DEPTH = 40
MOST_STYLE = 8_000  # characters of a style sheet

_SVG = "http://www.w3.org/2000/svg"
_ALIVE = {"script", "foreignobject", "iframe", "object", "embed", "handler", "listener", "set", "discard"}
_MOVING = "animate"
_PICTURES = {"image", "feimage"}
_WORDY = {"title", "style"}
_OUTSIDE = re.compile(r"url\([\"'\s]*(?![#\"'\s])|@import|\\", re.IGNORECASE)
_DEEP_NAME = 60  # characters of an id that a message shows


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """One element: its plain tag ("" for what is not SVG), and a name for messages.

    The name is `polygon#star` where the element has an id, else `polygon[2]`, counted from 0 by tag.
    """

    tag: str
    name: str
    attributes: Mapping[str, str]
    children: list[Node] = field(default_factory=list)
    words: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """Give the words of a title or style sheet."""
        return "".join(self.words)


def read_tree(text: str) -> Node:
    """Read an SVG file; BadSvg, UnsafeSvg, OutsideReference or TooLarge names what is refused."""
    if len(text) > MOST_CHARACTERS:
        raise TooLarge(where="svg")
    import defusedxml  # noqa: PLC0415 -- only drawings that come as SVG need it
    from defusedxml.ElementTree import DefusedXMLParser, ParseError  # noqa: PLC0415 -- as above

    builder = _Builder()
    try:
        parser = DefusedXMLParser(target=builder, forbid_dtd=True)
        parser.feed(text)
        root = parser.close()
    except defusedxml.DefusedXmlException as error:
        raise UnsafeSvg(where="doctype") from error
    except ParseError as error:
        raise BadSvg(where=f"line {error.position[0]}") from error
    except UnicodeEncodeError as error:  # half a character, which no file can hold
        raise BadSvg(where="svg") from error
    if not isinstance(root, Node) or root.tag != "svg":
        raise BadSvg(where="svg")
    return root


@dataclass(slots=True)
class _Builder:
    """Takes what the parser finds, element by element, so that limits hold while it reads."""

    root: Node | None = None
    path: list[Node] = field(default_factory=list)
    counts: Counter[str] = field(default_factory=Counter)

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Take the start of an element."""
        namespace, _, local = tag.rpartition("}")
        name = self._name(local, attributes)
        if self.counts.total() > MOST_ELEMENTS or len(self.path) >= MOST_DEPTH:
            raise TooLarge(where=name)
        _refuse_unsafe(local.lower(), name, attributes)
        ours = namespace in {"", "{" + _SVG}
        node = Node(tag=local if ours else "", name=name, attributes=attributes)
        if self.path:
            self.path[-1].children.append(node)
        else:
            self.root = node
        self.path.append(node)

    def end(self, _tag: str) -> None:
        """Take the end of an element."""
        node = self.path.pop()
        if node.tag != "style":
            return
        if len(node.text) > MOST_STYLE:
            raise TooLarge(where=node.name)
        if _OUTSIDE.search(node.text):
            raise OutsideReference(where=node.name)

    def data(self, words: str) -> None:
        """Take words between elements; only titles and style sheets keep theirs."""
        if self.path and self.path[-1].tag in _WORDY:
            self.path[-1].words.append(words)

    def pi(self, target: str, _data: str) -> None:
        """Refuse a style sheet that is named before the picture begins."""
        if target == "xml-stylesheet":
            raise OutsideReference(where=target)

    def close(self) -> Node | None:
        """Give the whole tree."""
        return self.root

    def _name(self, local: str, attributes: Mapping[str, str]) -> str:
        number = self.counts[local]
        self.counts[local] += 1
        name = attributes.get("id", "")
        return f"{local}#{name[:_DEEP_NAME]}" if name else f"{local}[{number}]"


def _refuse_unsafe(tag: str, name: str, attributes: Mapping[str, str]) -> None:
    if tag in _ALIVE or tag.startswith(_MOVING):
        raise UnsafeSvg(where=name)
    if tag in _PICTURES:
        raise OutsideReference(where=name)
    for key, value in attributes.items():
        local = key.rpartition("}")[2].lower()
        if key.lower().startswith("on"):
            raise UnsafeSvg(where=f"{name}.{local}")
        reference = local == "href" and not value.strip().startswith("#")
        if reference or (_OUTSIDE.search(value) and ("url" in value.lower() or local == "style")):
            raise OutsideReference(where=f"{name}.{local}")
