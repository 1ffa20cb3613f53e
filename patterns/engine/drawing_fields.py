"""The fields of a block drawing file: patches, corners, exact numbers; what is wrong is named."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from patterns.engine.arcs import arc_between
from patterns.engine.errors import BadField, BadLetter, BadNumber, UnknownField
from patterns.engine.partition import CORNERS_OF_A_PATCH
from patterns.engine.parts import Patch, Point
from patterns.engine.surds import Number, parse_number, write_number

_LARGEST = 999_999
_TERM = r"(?:\d{1,6}(?:/\d{1,4})?(?:r\d{1,4})?|r\d{1,4})"  # short, so that no drawing can stall the program
_NUMBER = re.compile(rf"-?{_TERM}(?:[+-]{_TERM})*", re.ASCII)
_LETTER = re.compile(r"[A-Z]{1,3}", re.ASCII)
_PATCH_FIELDS = ("fabric", "points")
_PAIR = 2


def read_patch(data: object, where: str, *, most: int) -> Patch:
    """Read a letter and an outline of at most so many corners; quarter circles as points of them."""
    if not isinstance(data, Mapping):
        raise BadField(where=where)
    refuse_unknown(data, _PATCH_FIELDS, f"{where}.")
    fabric = data.get("fabric")
    if not isinstance(fabric, str) or not _LETTER.fullmatch(fabric):
        raise BadLetter(where=f"{where}.fabric")
    points = list_field(data.get("points"), f"{where}.points", most=most, least=CORNERS_OF_A_PATCH)
    return Patch(fabric, _outline(points, f"{where}.points"))


def _outline(data: Sequence[object], where: str) -> tuple[Point, ...]:
    """Read corners, and between two of them the quarter circle {"arc": centre}, as points on the circle."""
    read: list[Point] = []
    for n, entry in enumerate(data):
        if not isinstance(entry, Mapping):
            read.append(read_point(entry, f"{where}[{n}]"))
            continue
        refuse_unknown(entry, ("arc",), f"{where}[{n}].")
        centre = read_point(entry.get("arc"), f"{where}[{n}].arc")
        beside = [data[n - 1], data[(n + 1) % len(data)]]
        start, end = (read_point(corner, f"{where}[{n}]") for corner in beside)
        read += arc_between(start, end, centre=centre, where=f"{where}[{n}].arc")
    return tuple(read)


def read_point(data: object, where: str) -> Point:
    """Read a pair of numbers."""
    pair = list_field(data, where, most=_PAIR, least=_PAIR)
    return read_number(pair[0], f"{where}[0]"), read_number(pair[1], f"{where}[1]")


def read_number(data: object, where: str) -> Number:
    """Read a coordinate; a float is refused, since it has lost the exact number before it got here."""
    if isinstance(data, int) and not isinstance(data, bool) and abs(data) <= _LARGEST:
        return Fraction(data)
    try:
        if isinstance(data, str) and _NUMBER.fullmatch(data):
            return parse_number(data)
    except ZeroDivisionError as error:
        raise BadNumber(where=where) from error
    raise BadNumber(where=where)


def list_field(data: object, where: str, *, most: int, least: int = 1) -> Sequence[object]:
    """Give a list of so many entries; BadField."""
    if not isinstance(data, list | tuple) or not least <= len(data) <= most:
        raise BadField(where=where)
    return data


def text_field(data: object, where: str, *, least: int = 1) -> str:
    """Give a text of so many signs; BadField."""
    if not isinstance(data, str) or len(data.strip()) < least:
        raise BadField(where=where)
    return data


def refuse_unknown(data: Mapping[str, Any], known: Sequence[str], prefix: str) -> None:
    """Refuse a field that has another name than the known ones; UnknownField."""
    for key in data:
        if key not in known:
            raise UnknownField(where=f"{prefix}{key}")


def plain_number(number: Number) -> int | str:
    """Write a whole number as a number, anything else as text."""
    if isinstance(number, Fraction) and number.denominator == 1:
        return number.numerator
    return write_number(number)
