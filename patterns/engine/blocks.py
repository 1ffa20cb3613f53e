"""Blocks: a partition of a rectangle into patches, each with a fabric letter; the drawing file in and out."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from patterns.engine import geometry
from patterns.engine.arcs import arc_between
from patterns.engine.errors import (
    BadField,
    BadLetter,
    BadNumber,
    BadSize,
    TooLarge,
    TooManyPatches,
    UnknownField,
    UnknownLetter,
)
from patterns.engine.partition import CORNERS_OF_A_PATCH, check_partition
from patterns.engine.parts import Patch, Point
from patterns.engine.surds import Number, Surd, parse_number, sign, write_number

MOST_PATCHES = 1500
MOST_CORNERS = 40  # of one patch
MOST_SPOTS = 10_000  # corners of all patches together
MOST_NAMES = 40

_LARGEST = 999_999
_TERM = r"(?:\d{1,6}(?:/\d{1,4})?(?:r\d{1,4})?|r\d{1,4})"  # short, so that no drawing can stall the program
_NUMBER = re.compile(rf"-?{_TERM}(?:[+-]{_TERM})*", re.ASCII)
_LETTER = re.compile(r"[A-Z]{1,3}", re.ASCII)
_FIELDS = ("name", "names", "category", "grid", "patches")
_PATCH_FIELDS = ("fabric", "points")
_PAIR = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A drawing: patches in the numbers of its grid, or in finished inches after `at_size`."""

    name: str
    width: Number
    height: Number
    patches: tuple[Patch, ...]
    names: tuple[str, ...] = ()  # other names the block goes by
    category: str = ""

    @property
    def letters(self) -> tuple[str, ...]:
        """Give the fabric letters, each once: A to Z, then AA."""
        return tuple(sorted({patch.fabric for patch in self.patches}, key=letter_order))

    def turned(self, quarters: int) -> Block:
        """Turn clockwise by quarter turns."""
        size = (self.width, self.height)
        patches = tuple(
            Patch(patch.fabric, exact_points(geometry.quarter_turned(patch.points, quarters, size=size)))
            for patch in self.patches
        )
        width, height = reversed(size) if quarters % 2 else size
        return replace(self, width=width, height=height, patches=patches)

    def mirrored(self) -> Block:
        """Mirror left and right."""
        patches = tuple(
            Patch(patch.fabric, tuple((self.width - x, y) for x, y in reversed(patch.points)))
            for patch in self.patches
        )
        return replace(self, patches=patches)

    def relettered(self, mapping: Mapping[str, str]) -> Block:
        """Translate every letter; UnknownLetter names one that is not in the list."""
        for number, patch in enumerate(self.patches):
            if patch.fabric not in mapping:
                raise UnknownLetter(where=patch.fabric, patches=(number,))
        return replace(
            self, patches=tuple(Patch(mapping[patch.fabric], patch.points) for patch in self.patches)
        )

    def at_size(self, width: Number, height: Number) -> Block:
        """Draw to finished inches; BadSize when a side is not above zero."""
        if sign(width) <= 0 or sign(height) <= 0:
            raise BadSize(where="size")
        across, down = width / self.width, height / self.height
        patches = tuple(
            Patch(patch.fabric, tuple((x * across, y * down) for x, y in patch.points))
            for patch in self.patches
        )
        return replace(self, width=width, height=height, patches=patches)


def letter_order(letter: str) -> tuple[int, str]:
    """Sort letters as they are given out: A to Z, then AA."""
    return len(letter), letter


def exact_points(polygon: geometry.Polygon) -> tuple[Point, ...]:
    """Make whole coordinates Fractions."""
    return tuple((geometry.exact(x), geometry.exact(y)) for x, y in polygon)


def block_from_data(data: Mapping[str, Any]) -> Block:
    """Read a block drawing file that has been loaded from JSON, and prove that it is a partition.

    Raises a DrawingError with the field or the place: BadField, UnknownField, BadNumber, BadSize,
    BadLetter, TooManyPatches, TooLarge, and the faults of `check_partition`.
    """
    if not isinstance(data, Mapping):
        raise BadField(where="drawing")
    _refuse_unknown(data, _FIELDS, "")
    width, height = _point(data.get("grid"), "grid")
    if sign(width) <= 0 or sign(height) <= 0:
        raise BadSize(where="grid")
    patches = _patches(data.get("patches"))
    names = _list(data.get("names", []), "names", most=MOST_NAMES, least=0)
    block = Block(
        name=_text(data.get("name"), "name"),
        width=width,
        height=height,
        patches=patches,
        names=tuple(_text(name, f"names[{number}]") for number, name in enumerate(names)),
        category=_text(data.get("category", ""), "category", least=0),
    )
    _refuse_second_root(block)
    check_partition(width, height, patches)
    return block


def block_as_data(block: Block) -> dict[str, Any]:
    """Write the drawing file; `block_from_data` reads the same block back."""
    data: dict[str, Any] = {"name": block.name}
    if block.names:
        data["names"] = list(block.names)
    if block.category:
        data["category"] = block.category
    return data | {
        "grid": [_plain(block.width), _plain(block.height)],
        "patches": [
            {"fabric": patch.fabric, "points": [[_plain(x), _plain(y)] for x, y in patch.points]}
            for patch in block.patches
        ],
    }


def _patches(data: object) -> tuple[Patch, ...]:
    if isinstance(data, list | tuple) and len(data) > MOST_PATCHES:
        raise TooManyPatches(where="patches", count=len(data), most=MOST_PATCHES)
    drawn = _list(data, "patches", most=MOST_PATCHES)
    patches = tuple(_patch(patch, f"patches[{number}]") for number, patch in enumerate(drawn))
    if sum(len(patch.points) for patch in patches) > MOST_SPOTS:
        raise TooLarge(where="patches")
    return patches


def _patch(data: object, where: str) -> Patch:
    if not isinstance(data, Mapping):
        raise BadField(where=where)
    _refuse_unknown(data, _PATCH_FIELDS, f"{where}.")
    fabric = data.get("fabric")
    if not isinstance(fabric, str) or not _LETTER.fullmatch(fabric):
        raise BadLetter(where=f"{where}.fabric")
    points = _list(data.get("points"), f"{where}.points", most=MOST_CORNERS, least=CORNERS_OF_A_PATCH)
    return Patch(fabric, _outline(points, f"{where}.points"))


def _outline(data: Sequence[object], where: str) -> tuple[Point, ...]:
    """Read corners, and between two of them the quarter circle {"arc": centre}, as points on the circle."""
    read: list[Point] = []
    for n, entry in enumerate(data):
        if not isinstance(entry, Mapping):
            read.append(_point(entry, f"{where}[{n}]"))
            continue
        _refuse_unknown(entry, ("arc",), f"{where}[{n}].")
        centre = _point(entry.get("arc"), f"{where}[{n}].arc")
        beside = [data[n - 1], data[(n + 1) % len(data)]]
        start, end = (_point(corner, f"{where}[{n}]") for corner in beside)
        read += arc_between(start, end, centre=centre, where=f"{where}[{n}].arc")
    return tuple(read)


def _point(data: object, where: str) -> Point:
    pair = _list(data, where, most=_PAIR, least=_PAIR)
    return _number(pair[0], f"{where}[0]"), _number(pair[1], f"{where}[1]")


def _number(data: object, where: str) -> Number:
    """Read a coordinate; a float is refused, since it has lost the exact number before it got here."""
    if isinstance(data, int) and not isinstance(data, bool) and abs(data) <= _LARGEST:
        return Fraction(data)
    try:
        if isinstance(data, str) and _NUMBER.fullmatch(data):
            return parse_number(data)
    except ZeroDivisionError as error:
        raise BadNumber(where=where) from error
    raise BadNumber(where=where)


def _refuse_second_root(block: Block) -> None:
    """Refuse a drawing with two different roots: no grid has both sqrt(2) and sqrt(3)."""
    roots = _roots(block.width) | _roots(block.height)
    for index, patch in enumerate(block.patches):
        for n, point in enumerate(patch.points):
            roots |= _roots(point[0]) | _roots(point[1])
            if len(roots) > 1:
                raise BadNumber(where=f"patches[{index}].points[{n}]")


def _roots(number: Number) -> set[int]:
    return {n for n, _ in number.terms if n > 1} if isinstance(number, Surd) else set()


def _list(data: object, where: str, *, most: int, least: int = 1) -> Sequence[object]:
    if not isinstance(data, list | tuple) or not least <= len(data) <= most:
        raise BadField(where=where)
    return data


def _text(data: object, where: str, *, least: int = 1) -> str:
    if not isinstance(data, str) or len(data.strip()) < least:
        raise BadField(where=where)
    return data


def _refuse_unknown(data: Mapping[str, Any], known: Sequence[str], prefix: str) -> None:
    for key in data:
        if key not in known:
            raise UnknownField(where=f"{prefix}{key}")


def _plain(number: Number) -> int | str:
    """Write a whole number as a number, anything else as text."""
    if isinstance(number, Fraction) and number.denominator == 1:
        return number.numerator
    return write_number(number)
