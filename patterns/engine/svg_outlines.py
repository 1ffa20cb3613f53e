"""The outlines that an element of an SVG fills: straight edges only, a curve is refused by name."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.blocks import MOST_SPOTS
from patterns.engine.errors import BadSvg, Curve, TooLarge
from patterns.engine.svg_numbers import Spot, length, numbers, tokens
from patterns.engine.svg_tree import Node

Drawn: TypeAlias = list[Spot]

ROUND = ("circle", "ellipse")
SHAPES = ("polygon", "polyline", "rect", "path", *ROUND)

_CURVES = frozenset("CSQTA")
_ARGUMENTS = {"M": 2, "L": 2, "H": 1, "V": 1, "Z": 0}
_FEWEST = 3


def outlines(node: Node) -> list[Drawn]:
    """Give what a shape fills, in its own numbers: an open outline is filled as if it were closed.

    Outlines of fewer than three corners fill nothing and are left out.  Curve names a circle, an
    ellipse, a rounded rectangle or a curved path; BadSvg numbers that cannot be read.
    """
    if node.tag in ROUND:
        raise Curve(where=node.name)
    if node.tag == "rect":
        drawn = _rectangle(node)
    elif node.tag == "path":
        drawn = _path(node)
    else:
        drawn = [_listed(node)]
    opened = ([spot for i, spot in enumerate(spots) if spot != spots[i - 1]] for spots in drawn)
    return [spots for spots in opened if len(spots) >= _FEWEST]


def _listed(node: Node) -> Drawn:
    where = f"{node.name}.points"
    found = numbers(node.attributes.get("points", ""), where, most=2 * MOST_SPOTS)
    if len(found) % 2:
        raise BadSvg(where=where)
    return list(zip(found[::2], found[1::2], strict=True))


def _rectangle(node: Node) -> list[Drawn]:
    x, y, width, height, *radii = (
        length(node.attributes.get(key) or "0", f"{node.name}.{key}")
        for key in ("x", "y", "width", "height", "rx", "ry")
    )
    if any(radii):
        raise Curve(where=node.name)
    if width <= 0 or height <= 0:
        return []
    return [[(x, y), (x + width, y), (x + width, y + height), (x, y + height)]]


def _path(node: Node) -> list[Drawn]:
    pen = _Pen()
    for command, values in _commands(node.attributes.get("d", ""), f"{node.name}.d"):
        pen.draw(command, values)
    return pen.drawn


def _commands(text: str, where: str) -> Iterator[tuple[str, list[Fraction]]]:
    """Give each command with its numbers; pairs after the first of a move are lines."""
    command, values, count = "", list[Fraction](), 0
    for token in tokens(text, where):
        if isinstance(token, str):
            _check_command(token, where, first=not command, waiting=bool(values))
            command = token
        elif not command or not _ARGUMENTS[command.upper()]:
            raise BadSvg(where=where)
        else:
            values.append(token)
        if len(values) == _ARGUMENTS[command.upper()]:
            yield command, values
            command, values, count = {"M": "L", "m": "l"}.get(command, command), [], count + 1
        if count > MOST_SPOTS:
            raise TooLarge(where=where)
    if values:
        raise BadSvg(where=where)


def _check_command(letter: str, where: str, *, first: bool, waiting: bool) -> None:
    """Refuse a curve by its name, and a command that is unknown or comes too early."""
    if letter.upper() in _CURVES:
        raise Curve(where=where)
    if letter.upper() not in _ARGUMENTS or waiting or (first and letter.upper() != "M"):
        raise BadSvg(where=where)


@dataclass(slots=True)
class _Pen:
    """Follows a path of straight edges."""

    drawn: list[Drawn] = field(default_factory=list)
    at: Spot = (Fraction(0), Fraction(0))
    start: Spot = (Fraction(0), Fraction(0))
    closed: bool = True

    def draw(self, command: str, values: list[Fraction]) -> None:
        """Take one command with its numbers."""
        kind = command.upper()
        if kind == "Z":
            self.at, self.closed = self.start, True
            return
        self.at, before = self._target(command, values), self.at
        if kind == "M":
            self.start, self.closed = self.at, False
            self.drawn.append([self.at])
            return
        if self.closed:
            self.closed = False
            self.drawn.append([before])
        self.drawn[-1].append(self.at)

    def _target(self, command: str, values: list[Fraction]) -> Spot:
        (x, y), kind = self.at, command.upper()
        across, down = (x, y) if command.islower() else (Fraction(0), Fraction(0))
        if kind == "H":
            return across + values[0], y
        if kind == "V":
            return x, down + values[0]
        return across + values[0], down + values[1]
