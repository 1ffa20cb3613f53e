"""The outlines that an element of an SVG fills: straight edges and arcs of circles; other curves by name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.blocks import MOST_SPOTS
from patterns.engine.errors import BadSvg, Curve, TooLarge
from patterns.engine.svg_arcs import Arc
from patterns.engine.svg_numbers import Spot, length, numbers, tokens
from patterns.engine.svg_tree import Node

Drawn: TypeAlias = "list[tuple[Spot, Arc | None]]"  # corners, with the arc that leads to each

ROUND = ("circle", "ellipse")
SHAPES = ("polygon", "polyline", "rect", "path", *ROUND)

_CURVES = frozenset("CSQT")
_ARGUMENTS = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7, "Z": 0}
_FLAGS = (3, 4)  # numbers of an arc that are one sign, 0 or 1, with or without a space behind it
_FEWEST = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """Corners in order, and the arcs that lead to some of them from the corner before."""

    spots: list[Spot]
    arcs: Mapping[int, Arc]


def outlines(node: Node) -> list[Outline]:
    """Give what a shape fills, in its own numbers: an open outline is filled as if it were closed.

    Outlines of fewer than three corners and no arc fill nothing and are left out.  Curve names a circle,
    an ellipse, a rounded rectangle or a path with other curves than arcs of circles; BadSvg numbers that
    cannot be read.
    """
    if node.tag in ROUND:
        raise Curve(where=node.name)
    if node.tag == "rect":
        drawn = _rectangle(node)
    elif node.tag == "path":
        drawn = _path(node)
    else:
        drawn = [_listed(node)]
    opened = (_opened(corners) for corners in drawn)
    return [found for found in opened if len(found.spots) >= _FEWEST or (len(found.spots) > 1 and found.arcs)]


def _opened(drawn: Drawn) -> Outline:
    """Leave out corners given twice in a row, and the last where it is the first."""
    rows = [row for i, row in enumerate(drawn) if not i or row[0] != drawn[i - 1][0]]
    if len(rows) > 1 and rows[0][0] == rows[-1][0]:
        rows[0] = (rows[0][0], rows.pop()[1])
    arcs = {i: arc for i, (_, arc) in enumerate(rows) if arc}
    return Outline(spots=[spot for spot, _ in rows], arcs=arcs)


def _listed(node: Node) -> Drawn:
    where = f"{node.name}.points"
    found = numbers(node.attributes.get("points", ""), where, most=2 * MOST_SPOTS)
    if len(found) % 2:
        raise BadSvg(where=where)
    return _straight(zip(found[::2], found[1::2], strict=True))


def _rectangle(node: Node) -> list[Drawn]:
    x, y, width, height, *radii = (
        length(node.attributes.get(key) or "0", f"{node.name}.{key}")
        for key in ("x", "y", "width", "height", "rx", "ry")
    )
    if any(radii):
        raise Curve(where=node.name)
    if width <= 0 or height <= 0:
        return []
    return [_straight([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])]


def _straight(spots: Iterable[Spot]) -> Drawn:
    return [(spot, None) for spot in spots]


def _path(node: Node) -> list[Drawn]:
    where = f"{node.name}.d"
    pen = _Pen(where=where)
    for command, values in _commands(node.attributes.get("d", ""), where):
        pen.draw(command, values)
    return pen.drawn


def _commands(text: str, where: str) -> Iterator[tuple[str, list[Fraction]]]:
    """Give each command with its numbers; pairs after the first of a move are lines."""
    command, values, count = "", list[Fraction](), 0

    def is_flag() -> bool:
        return command in ("A", "a") and len(values) in _FLAGS

    for token in tokens(text, where, is_flag=is_flag):
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
    """Follows a path of straight edges and arcs."""

    where: str
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
            self.drawn.append([(self.at, None)])
            return
        if self.closed:
            self.closed = False
            self.drawn.append([(before, None)])
        self.drawn[-1].append((self.at, self._arc(values) if kind == "A" else None))

    def _target(self, command: str, values: list[Fraction]) -> Spot:
        (x, y), kind = self.at, command.upper()
        across, down = (x, y) if command.islower() else (Fraction(0), Fraction(0))
        if kind == "A":
            return across + values[5], down + values[6]
        if kind == "H":
            return across + values[0], y
        if kind == "V":
            return x, down + values[0]
        return across + values[0], down + values[1]

    def _arc(self, values: list[Fraction]) -> Arc | None:
        """Read an arc of a circle, straight where it has no radius; Curve when it is an ellipse's."""
        across, down = abs(values[0]), abs(values[1])
        if not across or not down:
            return None
        if across != down:
            raise Curve(where=self.where)
        return Arc(square=across * across, is_long=bool(values[3]), is_clockwise=bool(values[4]))
