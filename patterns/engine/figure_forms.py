"""Which parts are congruent?  A form tells it at any angle and with roots, without angles or division.

From a first side e at p of a part's outline every corner v is written as dot and cross product of e with
v - p: numbers that turning and moving do not change.  The least such writing over the sides that may come
first is the form.  It orders the patches, too, so an order found for one part fits all that are congruent.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

from patterns.engine.figure_numbers import Spot, Whole, cross, dot, minus
from patterns.engine.figures import Mask, Path, Sheet, members

Shape: TypeAlias = tuple[Spot, ...]
Shapes: TypeAlias = tuple[Shape, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """What all parts congruent to one share (`number`), and how this one lies."""

    number: int
    patches: tuple[int, ...]  # of this part, in the order of the form
    starts: tuple[tuple[int, int], ...]  # spots of the sides that may come first


@dataclass(frozen=True, slots=True, kw_only=True)
class _Writing:
    shapes: Shapes
    alike: tuple[int, ...]
    letters: tuple[str, ...]
    patches: tuple[int, ...]

    @property
    def order(self) -> tuple[Shapes, tuple[int, ...], tuple[str, ...]]:
        return self.shapes, self.alike, self.letters


@dataclass(slots=True)
class Forms:
    """Numbers forms as they are met; one for all the sheets of a drawing."""

    numbers: dict[tuple[Shapes, tuple[str, ...]], int] = field(default_factory=dict)
    met: dict[tuple[int, Mask], Form] = field(default_factory=dict)  # by sheet and mask

    def form(self, sheet: Sheet, mask: Mask) -> Form:
        """Give the form of a part that has an outline."""
        key = (sheet.number, mask)
        if key not in self.met:
            self.met[key] = self._form(sheet, mask)
        return self.met[key]

    def _form(self, sheet: Sheet, mask: Mask) -> Form:
        starts = _starts(sheet, mask)
        writings = [_writing(sheet, mask, start) for start in starts]
        least = min(writings, key=lambda writing: writing.order)
        number = self.numbers.setdefault((least.shapes, least.letters), len(self.numbers))
        kept = [start for start, each in zip(starts, writings, strict=True) if each.order == least.order]
        return Form(number=number, patches=least.patches, starts=tuple(kept))


def sides(sheet: Sheet, corners: Path) -> list[Spot]:
    """Give the sides of an outline as vectors."""
    spots = sheet.spots
    ends = (*corners[1:], corners[0])
    return [minus(spots[end], spots[start]) for start, end in zip(corners, ends, strict=True)]


def signature(vectors: list[Spot]) -> list[tuple[Whole, Whole, Whole]]:
    """Write an outline side by side: its square length, and dot and cross product with the next side."""
    after = (*vectors[1:], vectors[0])
    return [(dot(a, a), dot(a, b), cross(a, b)) for a, b in zip(vectors, after, strict=True)]


def least_turns(rows: list[tuple[Whole, Whole, Whole]]) -> list[int]:
    """Give where a round may start so that it reads least."""
    least = min(rows)
    first = [i for i, row in enumerate(rows) if row == least]
    if len(first) == 1:
        return first
    rounds = {i: rows[i:] + rows[:i] for i in first}
    best = min(rounds.values())
    return [i for i in first if rounds[i] == best]


def _starts(sheet: Sheet, mask: Mask) -> list[tuple[int, int]]:
    corners = sheet.round(mask).corners
    turns = least_turns(signature(sides(sheet, corners)))
    return [(corners[i], corners[(i + 1) % len(corners)]) for i in turns]


def _writing(sheet: Sheet, mask: Mask, start: tuple[int, int]) -> _Writing:
    spots = sheet.spots
    origin = spots[start[0]]
    side = minus(spots[start[1]], origin)
    seen: dict[int, Spot] = {}

    def written(spot: int) -> Spot:
        if spot not in seen:
            vector = minus(spots[spot], origin)
            seen[spot] = dot(side, vector), cross(side, vector)
        return seen[spot]

    rows = sorted((_from_least([written(spot) for spot in sheet.polygons[p]]), p) for p in members(mask))
    first: dict[str, int] = {}
    letters = tuple(sheet.letters[patch] for _, patch in rows)
    return _Writing(
        shapes=tuple(shape for shape, _ in rows),
        alike=tuple(first.setdefault(letter, len(first)) for letter in letters),
        letters=letters,
        patches=tuple(patch for _, patch in rows),
    )


def _from_least(corners: list[Spot]) -> Shape:
    first = corners.index(min(corners))
    return (*corners[first:], *corners[:first])
