"""Cloth in drawings: a letter, a colour, and a hatch that survives a grey printer.

Letter and hatch stay with each other in every colorway.  The hatch is drawn in the colour that is
changed least from the ground and still has a contrast of 3:1 on it (WCAG 2.2, 1.4.11).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TypeAlias

INK = "#17202B"
WHITE = "#FFFFFF"
LEAST_CONTRAST = Fraction(3)
HATCHES = 8  # plain, rising, level, dots, falling, upright, squares, zigzag

Line: TypeAlias = tuple[tuple[Fraction, Fraction], tuple[Fraction, Fraction]]
Channels: TypeAlias = tuple[int, int, int]

_WEIGHTS = (
    Fraction(2126, 10000),
    Fraction(7152, 10000),
    Fraction(722, 10000),
)  # WCAG 2.2, relative luminance
_DIGITS = 10**12


@dataclass(frozen=True, slots=True)
class Cloth:
    """What stands for one fabric letter in a drawing: colour as #RRGGBB, hatch counted from 0."""

    letter: str
    colour: str
    hatch: int
    name: str = ""


Cloths: TypeAlias = Mapping[str, Cloth]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """A hatch on the unit square, to be repeated: lines, dots, and how the whole is turned (degrees)."""

    lines: tuple[Line, ...] = ()
    dots: tuple[tuple[Fraction, Fraction], ...] = ()
    turned: int = 0


def hatch_tile(hatch: int) -> Tile:
    """Give the hatch of this number; after the eighth they come doubled, then doubled and turned.

    >>> hatch_tile(0)
    Tile(lines=(), dots=(), turned=0)
    """
    plain = hatch % HATCHES
    rounds = hatch // HATCHES
    if not rounds:
        return Tile(lines=_LINES[plain], dots=_DOTS[plain])
    turned = 30 * (rounds - 1)
    if plain == 0:  # a doubled nothing: crosses
        return Tile(lines=_lines("1/4 1/2 3/4 1/2", "1/2 1/4 1/2 3/4"), turned=turned)
    shifted = tuple(_moved(line, plain) for line in _LINES[plain])
    dots = tuple((x + Fraction(1, 4), y + Fraction(1, 4)) for x, y in _DOTS[plain])
    return Tile(lines=_LINES[plain] + shifted, dots=_DOTS[plain] + dots, turned=turned)


@lru_cache(maxsize=1024)
def hatch_colour(ground: str) -> str:
    """Mix the ground toward ink, or toward white where that stands out more, as little as 3:1 allows."""
    toward = max((INK, WHITE), key=lambda end: contrast(ground, end))
    for percent in range(1, 101):
        colour = mix(ground, toward, Fraction(percent, 100))
        if contrast(ground, colour) >= LEAST_CONTRAST:
            return colour
    return toward


def edge_colour(ground: str) -> str:
    """Give the colour of a seam line on this cloth: ink, or a pale grey on very dark cloth."""
    return INK if contrast(ground, INK) >= Fraction(3, 2) else "#DCE2E7"


def mix(start: str, end: str, share: Fraction) -> str:
    """Mix two colours, each channel by itself; share 0 gives the first, 1 the second.

    >>> mix("#000000", "#FFFFFF", Fraction(1, 2))
    '#808080'
    """
    pairs = zip(_channels(start), _channels(end), strict=True)
    return "#" + "".join(f"{int(a + (b - a) * share + Fraction(1, 2)):02X}" for a, b in pairs)


def contrast(one: str, other: str) -> Fraction:
    """Give the contrast ratio of two colours, 1 to 21 (WCAG 2.2, contrast ratio).

    >>> contrast("#000000", "#FFFFFF")
    Fraction(21, 1)
    """
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + Fraction(1, 20)) / (dark + Fraction(1, 20))


def _luminance(colour: str) -> Fraction:
    return sum((w * _linear(c) for w, c in zip(_WEIGHTS, _channels(colour), strict=True)), start=Fraction(0))


@lru_cache(maxsize=256)
def _linear(channel: int) -> Fraction:
    """Undo the sRGB curve: ((c + 0.055) / 1.055) ** 2.4, or c / 12.92 near black; to 12 digits."""
    share = Fraction(channel, 255)
    if share <= Fraction(4045, 100000):
        return share / Fraction(1292, 100)
    base = (share + Fraction(55, 1000)) / Fraction(1055, 1000)
    twelfth = base**12
    scaled = twelfth.numerator * _DIGITS**5 // twelfth.denominator
    return Fraction(_fifth_root(scaled), _DIGITS)


def _fifth_root(number: int) -> int:
    """Give the whole fifth root, rounded down unless the number is _DIGITS ** 5."""
    low, high = 0, _DIGITS
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if middle**5 <= number else (low, middle - 1)
    return low


def _channels(colour: str) -> Channels:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _moved(line: Line, plain: int) -> Line:
    """Move a line a quarter tile across its run: level ones down, the others to the right."""
    dx, dy = (Fraction(0), Fraction(1, 4)) if plain in (2, 7) else (Fraction(1, 4), Fraction(0))
    if plain == _SQUARES:
        dx = dy = Fraction(1, 4)
    (x1, y1), (x2, y2) = line
    return (x1 + dx, y1 + dy), (x2 + dx, y2 + dy)


def _lines(*texts: str) -> tuple[Line, ...]:
    numbers = [[Fraction(word) for word in text.split()] for text in texts]
    return tuple(((a, b), (c, d)) for a, b, c, d in numbers)


# Diagonals run past the tile's edge on both sides, so that no gap shows where tiles meet.
_RISING = _lines("-1/4 5/4 5/4 -1/4", "-1/4 1/4 1/4 -1/4", "3/4 5/4 5/4 3/4")
_FALLING = _lines("-1/4 -1/4 5/4 5/4", "3/4 -1/4 5/4 1/4", "-1/4 3/4 1/4 5/4")
_LEVEL = _lines("0 1/2 1 1/2")
_UPRIGHT = _lines("1/2 0 1/2 1")
_ZIGZAG = _lines("0 1/5 1/2 4/5", "1/2 4/5 1 1/5")
_LINES: tuple[tuple[Line, ...], ...] = (
    (), _RISING, _LEVEL, (), _FALLING, _UPRIGHT, _LEVEL + _UPRIGHT, _ZIGZAG,
)  # fmt: skip
_DOTS: tuple[tuple[tuple[Fraction, Fraction], ...], ...] = (
    (), (), (), ((Fraction(1, 2), Fraction(1, 2)),), (), (), (), (),
)  # fmt: skip
_SQUARES = 6
