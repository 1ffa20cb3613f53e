"""Reading the plain data of a recipe: numbers are text, points are pairs."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, TypeAlias

from patterns.engine.rebuilding.plane import Line, Point, line_through, minus, plus
from patterns.engine.rebuilding.works import Work, same
from patterns.engine.surds import Number, parse_number

Data: TypeAlias = Mapping[str, Any]
CIRCLE = ((84, 13, 85), (63, 16, 65), (12, 5, 13), (56, 33, 65), (171, 140, 221))  # right triangles
EVERY = "every"  # the corner of a top that lies on the base corner on corner, all round


def number(text: object) -> Number:
    """Read a number from its text; a float or other kind is refused with ValueError."""
    if not isinstance(text, str | int) or isinstance(text, bool):
        raise ValueError(f"not an exact number: {text!r}")
    return parse_number(str(text))


def point(pair: object) -> Point:
    """Read a pair of numbers."""
    if not isinstance(pair, list | tuple):
        raise ValueError(f"not a pair: {pair!r}")
    x, y = pair
    return (number(x), number(y))


def polygon(pairs: object) -> tuple[Point, ...]:
    """Read a list of corners."""
    if not isinstance(pairs, list | tuple):
        raise ValueError(f"not a list of points: {pairs!r}")
    return tuple(map(point, pairs))


def outline(pairs: object) -> tuple[Point, ...]:
    """Read the corners of a drawing; a quarter circle, {"arc": centre}, as the points that stand for it."""
    if not isinstance(pairs, list | tuple):
        raise ValueError(f"not a list of points: {pairs!r}")
    read: list[Point] = []
    for i, entry in enumerate(pairs):
        if isinstance(entry, Mapping):
            ends = point(pairs[i - 1]), point(pairs[(i + 1) % len(pairs)])
            read += _on_circle(ends, point(entry["arc"]))
        else:
            read.append(point(entry))
    return tuple(read)


def _on_circle(ends: tuple[Point, Point], centre: Point) -> list[Point]:
    """Give the points that lie so many parts of the radius along one way and across the other."""
    first, second = (minus(end, centre) for end in ends)
    shares = [(Fraction(long, radius), Fraction(short, radius)) for long, short, radius in CIRCLE]
    shares += [(short, long) for long, short in reversed(shares)]
    return [plus(plus(centre, first, along), second, across) for along, across in shares]


def ruled(line: Data, base: Work, *, tops: list[Work], corners: list[Point]) -> Line:
    """Lay a line from place to place, on the base or on a top as it lies, moved right by `offset`."""
    start, end = (_spot(line[key], base, tops=tops, corners=corners) for key in ("from", "to"))
    return line_through(start, end).moved(number(line.get("offset", "0")))


def _spot(spot: object, base: Work, *, tops: list[Work], corners: list[Point]) -> Point:
    if isinstance(spot, str):
        return base.place(spot)
    if not isinstance(spot, list | tuple):
        raise ValueError(f"not a place: {spot!r}")
    index, name = spot
    return plus(corners[index], tops[index].place(name))


def lies_whole(base: Work, top: Work, place: str) -> bool:
    """Say whether a top that is to lie on every corner of the base has its size."""
    return place != EVERY or all(same(a, b) for a, b in zip(base.box, top.box, strict=True))


def corner_of(base: Work, top: Work, place: str) -> Point:
    """Give where the top's own top left corner comes when it is laid on a corner of the base."""
    corner = "top left" if place == EVERY else place
    return minus(base.place(corner), top.place(corner))
