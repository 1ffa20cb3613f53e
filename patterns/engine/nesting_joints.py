"""Where seams meet: at each joint of a part, earlier seams end there from both sides of a later one."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from patterns.engine.nesting_forms import IN_UNIT, Form, InnerSeam
from patterns.engine.parts import Part, Placed, Point
from patterns.engine.surds import Number, sign

# a part wherever it lies, or only where it lies in its parent: its name, then the parent's class and place
ClassId: TypeAlias = tuple[Any, ...]
Key: TypeAlias = tuple[ClassId, int]  # choice of a class
SWIRL_RAYS = 8  # seams that come together at one point: from so many on they may be swirled


@dataclass(frozen=True, slots=True)
class End:
    """Where a seam ends: its direction from there, and where its choice, times `sign`, presses it."""

    at: Point
    along: Point
    toward: Point
    key: Key
    sign: int

    @property
    def round(self) -> int:
        """Say whether its choice 1 presses it clockwise round the point where it ends, or against (-1)."""
        return self.sign * sign(_cross(self.along, self.toward))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two ends that must lie opposite along the seam that crosses them: key x key = product."""

    keys: tuple[Key, Key]
    product: int
    is_straight: bool  # one seam goes on where the other ends; else they mirror each other


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """A point of a later seam `across` where earlier seams end from both sides."""

    across: Key
    ends: tuple[End, ...]
    pairs: tuple[Pair, ...]

    @property
    def keys(self) -> tuple[Key, ...]:
        """Give the choices that its pairs depend on."""
        return tuple(dict.fromkeys(key for pair in self.pairs for key in pair.keys))

    def swirls(self, values: dict[Key, int]) -> bool:
        """Say whether many seams all go round the point the same way, so that they can be swirled."""
        rounds = {values[end.key] * end.round for end in self.ends}
        return self.is_busy and len(rounds) == 1 and 0 not in rounds

    @property
    def is_busy(self) -> bool:
        """Whether so many seams come together that they are swirled if they can be."""
        return len(self.ends) + 2 >= SWIRL_RAYS


def own_ends(form: Form, name: ClassId) -> list[tuple[int, End]]:
    """Give both ends of a part's own seams, with the order in which they are sewn."""
    found = []
    for seam in form.seams:
        for at, other in ((seam.start, seam.end), (seam.end, seam.start)):
            along = (other[0] - at[0], other[1] - at[1])
            found.append((seam.order, End(at, along, seam.toward, (name, seam.number), seam.sign)))
    return found


def laid(end: End, placed: Placed, part: Part) -> End:
    """Give an end as it lies when its part is placed."""
    x, y = _turned_point(end.at, placed.turn, part)
    spot = (x + placed.at[0], y + placed.at[1])
    along, toward = (_turned(vector, placed.turn) for vector in (end.along, end.toward))
    return End(spot, along, toward, end.key, end.sign)


def _turned_point(point: Point, quarters: int, part: Part) -> Point:
    x, y = point
    width, height = part.width, part.height
    return ((x, y), (height - y, x), (width - x, height - y), (y, width - x))[quarters]


def _turned(vector: Point, quarters: int) -> Point:
    x, y = vector
    return ((x, y), (-y, x), (-x, -y), (y, -x))[quarters]


def on_border(end: End, part: Part) -> bool:
    """Say whether an end lies on the outer edge of its part."""
    return end.at[0] in (0, part.width) or end.at[1] in (0, part.height)


def joints(form: Form, name: ClassId, *, below: Sequence[End]) -> Iterator[Meeting]:
    """Find the joints at the seams that join a part; `below` are the ends of the parts that it joins."""
    ends = [(IN_UNIT, end) for end in below] + own_ends(form, name)
    levels: tuple[dict[Number, list[tuple[int, End]]], ...] = ({}, {})
    for order, end in ends:
        for axis in (0, 1):
            levels[axis].setdefault(end.at[axis], []).append((order, end))
    for seam in form.seams:
        if seam.order != IN_UNIT:
            axis = 0 if seam.start[0] == seam.end[0] else 1
            near = [end for order, end in levels[axis].get(seam.start[axis], ()) if order < seam.order]
            yield from _at_seam(seam, near, axis=axis, across=(name, seam.number))


def _at_seam(seam: InnerSeam, near: Sequence[End], *, axis: int, across: Key) -> Iterator[Meeting]:
    spots: dict[Number, list[End]] = {}
    for end in near:
        if seam.start[1 - axis] <= end.at[1 - axis] <= seam.end[1 - axis]:
            spots.setdefault(end.at[1 - axis], []).append(end)
    for place in sorted(spots):
        pairs = tuple(_pairs(spots[place], axis))
        if pairs:
            yield Meeting(across=across, ends=tuple(spots[place]), pairs=pairs)


def _pairs(ends: Sequence[End], axis: int) -> Iterator[Pair]:
    for one, other in itertools.combinations(ends, 2):
        if sign(one.along[axis]) * sign(other.along[axis]) < 0:
            straight = _cross(one.along, other.along) == 0
            if straight or _mirrored(one.along, other.along, axis):
                lie = (sign(end.toward[1 - axis]) * end.sign for end in (one, other))
                product = -next(lie) * next(lie)
                yield Pair(keys=(one.key, other.key), product=product, is_straight=straight)


def _mirrored(one: Point, other: Point, axis: int) -> bool:
    """Say whether two directions, on either side of an upright (0) or level (1) seam, mirror each other."""
    along = 1 - axis
    return (
        one[axis] * other[along] + one[along] * other[axis] == 0
        and sign(one[along]) == sign(other[along]) != 0
    )


def _cross(one: Point, other: Point) -> Number:
    return one[0] * other[1] - one[1] * other[0]
