"""Every text that a participant or a sheet may say, found in the source: modules, templates, the engine."""

from __future__ import annotations

import ast
import re
from dataclasses import replace
from fnmatch import fnmatch
from typing import TYPE_CHECKING

from django.utils.translation.template import templatize

from bom.domain.translating.messages import Message
from bom.domain.translating.scope import APPS, NOT_SAID, OTHERS, PUT_TOGETHER, WRITERS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from bom.domain.translating.messages import Key

_CALL = re.compile(r"\b(?:[np]*gettext(?:_lazy|_noop)?|_|_noop|gettext_noop)\(")
_LITERAL = re.compile(r"""\s*,?\s*u?('(?:[^'\\]|\\.)*'|"(?:[^"\\]|\\.)*")""", re.DOTALL)
_SENTENCE = re.compile(r"[ {]")


def collect(root: Path) -> dict[Key, Message]:
    """Collect all messages below the root of the source, each with the files that say it."""
    found: dict[Key, Message] = {}
    for message, place in _all(root):
        old = found.get(message.key, message)
        places = tuple(sorted({*old.places, place}))
        found[message.key] = replace(message, plural=old.plural or message.plural, places=places)
    return found


def _all(root: Path) -> Iterator[tuple[Message, str]]:
    for path in _sources(root):
        name = path.relative_to(root).as_posix()
        text = path.read_text(encoding="utf-8")
        for message in _messages(name, text):
            yield message, name
    for words, place in PUT_TOGETHER:
        yield Message(words=words), place


def _sources(root: Path) -> Iterator[Path]:
    """Give the files that speak to participants or on sheets."""
    paths = [path for app in APPS for path in sorted((root / app).rglob("*.py"))]
    paths += [path for path in sorted((root / "templates").rglob("*")) if path.is_file()]
    for path in paths:
        if not any(fnmatch(path.relative_to(root).as_posix(), other) for other in OTHERS):
            yield path


def _messages(name: str, text: str) -> Iterable[Message]:
    if name.startswith("templates/"):
        return in_template(text)
    if any(fnmatch(name, writer) for writer in WRITERS) and "Phrase" in text:
        return in_writer(text)
    return in_module(text)


def in_template(text: str) -> Iterator[Message]:
    """Give the messages of a template, as Django itself writes them out for collecting."""
    calls = templatize(text)
    for call in _CALL.finditer(calls):
        words, at = [], call.end()
        while literal := _LITERAL.match(calls, at):
            words.append(ast.literal_eval(literal[1]))
            at = literal.end()
        if words:
            yield _message(call[0].rstrip("("), words)


def in_module(text: str) -> Iterator[Message]:
    """Give the messages of a module: what its calls of gettext and its phrases have as plain text."""
    for call in _calls(ast.parse(text)):
        name = call.func.id if isinstance(call.func, ast.Name) else ""
        words = _constants(call.args)
        if name == "Phrase" or _CALL.fullmatch(f"{name}("):
            yield from ([_message(name, words)] if words else [])


def in_writer(text: str) -> Iterator[Message]:
    """Give all that a module of the engine says: it keeps its sentences in tables and hands them on.

    Whatever reads like words counts, but for doc strings, built strings, and what `NOT_SAID` names.
    """
    tree = ast.parse(text)
    unsaid = {id(part) for node in ast.walk(tree) for part in _unsaid(node)}
    direct = {words for call in _calls(tree) for words in _of_phrase(call)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in unsaid:
            words = node.value
            if (words in direct or _SENTENCE.search(words)) and words.strip() and words not in NOT_SAID:
                yield Message(words=words)


def _calls(tree: ast.AST) -> Iterator[ast.Call]:
    return (node for node in ast.walk(tree) if isinstance(node, ast.Call))


def _constants(parts: Iterable[ast.expr]) -> list[str]:
    """Give the plain texts that a call begins with."""
    found = []
    for part in parts:
        if not (isinstance(part, ast.Constant) and isinstance(part.value, str)):
            break
        found.append(part.value)
    return found


def _of_phrase(call: ast.Call) -> list[str]:
    is_phrase = isinstance(call.func, ast.Name) and call.func.id == "Phrase"
    return _constants(call.args[:1]) if is_phrase else []


def _unsaid(node: ast.AST) -> Iterator[ast.AST]:
    """Give the doc string of a node, and the parts of a string that is built."""
    if isinstance(node, ast.JoinedStr):
        yield from ast.walk(node)
    if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and isinstance(node.body[0], ast.Expr):
        yield node.body[0].value


def _message(name: str, words: list[str]) -> Message:
    """Make a message of what a call of gettext has: a context first, a plural form last, by its name."""
    context = words.pop(0) if name.lstrip("n").startswith("p") and "gettext" in name else ""
    plural = words[1] if name.startswith("n") and len(words) > 1 else ""
    return Message(words=words[0], context=context, plural=plural)
