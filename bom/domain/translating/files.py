"""Translations as files: .po for people, .mo for gettext, the same words giving the same bytes."""

from __future__ import annotations

import ast
import struct
from dataclasses import replace
from itertools import accumulate
from typing import TYPE_CHECKING

from bom.domain.translating.messages import Message

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from bom.domain.translating.messages import Key

HEAD = (
    "Language: {language}\nMIME-Version: 1.0\nContent-Type: text/plain; charset=UTF-8\n"
    "Content-Transfer-Encoding: 8bit\nPlural-Forms: {plurals}\n"
)
PLURALS = {"de": "nplurals=2; plural=(n != 1);"}
MAGIC, HEAD_BYTES = 0x950412DE, 28  # of GNU gettext's .mo, in the order of the least byte first


def po_file(root: Path, language: str) -> Path:
    """Give where a language's .po lies; its .mo lies beside it."""
    return root / "bom" / "locale" / language / "LC_MESSAGES" / "django.po"


def head_of(language: str) -> str:
    """Give the head of both files: character set and plural forms."""
    return HEAD.format(language=language, plurals=PLURALS[language])


def write_po(messages: Iterable[Message], language: str) -> str:
    """Write translations as text; the order is the reader's to give."""
    blocks = [f'msgid ""\nmsgstr ""\n{_lines(head_of(language))}', *map(_entry, messages)]
    return "\n\n".join(blocks) + "\n"


def read_po(text: str) -> dict[Key, Message]:
    """Read translations as `write_po` or another tool wrote it; ValueError names a line that is none."""
    found = {}
    for block in text.split("\n\n"):
        message = _read(block.strip().splitlines())
        if message is not None:
            found[message.key] = message
    return found


def write_mo(messages: Iterable[Message], language: str) -> bytes:
    """Write what gettext reads: the messages that are surely translated, sorted by their keys."""
    pairs = [(b"", head_of(language).encode())]
    for each in messages:
        if each.is_said:
            key = f"{each.context}\4{each.words}" if each.context else each.words
            key += f"\0{each.plural}" if each.plural else ""
            pairs.append((key.encode(), "\0".join(each.said).encode()))
    return _packed(sorted(pairs))


def _packed(pairs: list[tuple[bytes, bytes]]) -> bytes:
    """Put sorted pairs into the form of a .mo file: a head, two tables of lengths and places, the words."""
    count = len(pairs)
    start = HEAD_BYTES + 16 * count
    words = [pair[column] for column in (0, 1) for pair in pairs]
    ends = accumulate((len(each) + 1 for each in words), initial=start)
    tables = [struct.pack("<II", len(each), at) for each, at in zip(words, ends, strict=False)]
    head = struct.pack("<7I", MAGIC, 0, count, HEAD_BYTES, HEAD_BYTES + 8 * count, 0, start)
    return head + b"".join(tables) + b"".join(each + b"\0" for each in words)


def _entry(message: Message) -> str:
    lines = [f"#: {place}" for place in message.places]
    lines += ["#, fuzzy"] if message.is_fuzzy else []
    lines += [f"msgctxt {_quoted(message.context)}"] if message.context else []
    lines += [f"msgid {_quoted(message.words)}"]
    if not message.plural:
        return "\n".join([*lines, f"msgstr {_quoted(''.join(message.said))}"])
    said = message.said or ("", "")
    forms = [f"msgstr[{number}] {_quoted(words)}" for number, words in enumerate(said)]
    return "\n".join([*lines, f"msgid_plural {_quoted(message.plural)}", *forms])


def _quoted(words: str) -> str:
    return f'""\n{_lines(words)}' if "\n" in words.rstrip("\n") else _quote(words)


def _lines(words: str) -> str:
    return "\n".join(_quote(line) for line in words.splitlines(keepends=True))


def _quote(words: str) -> str:
    escaped = words.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\t", "\\t")
    return f'"{escaped}"'


def _read(lines: list[str]) -> Message | None:
    """Read one entry; None for the head, and for what only comments."""
    fields = dict(_fields(lines))
    words = fields.get("msgid", "")
    if not words:
        return None
    said = tuple(text for name, text in fields.items() if name.startswith("msgstr"))
    message = Message(
        words=words, context=fields.get("msgctxt", ""), plural=fields.get("msgid_plural", ""), said=said
    )
    marks = [line for line in lines if line.startswith("#,")]
    places = tuple(line[2:].strip() for line in lines if line.startswith("#:"))
    return replace(message, places=places, is_fuzzy=any("fuzzy" in line for line in marks))


def _fields(lines: list[str]) -> Iterator[tuple[str, str]]:
    """Give each keyword of an entry with its words, continued lines joined."""
    found: dict[str, list[str]] = {}
    name = ""
    for line in lines:
        if line.startswith("#"):
            continue
        if not line.startswith('"'):
            name, _, line = line.partition(" ")
        found.setdefault(name, []).append(ast.literal_eval(line))
    return ((name, "".join(parts)) for name, parts in found.items())
