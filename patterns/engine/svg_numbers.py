"""Numbers, lengths and transforms of an SVG, read exactly.  Lengths are user units (px)."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.errors import BadSvg, BadTransform, TooLarge
from patterns.engine.surds import Number, Surd, root

Spot: TypeAlias = tuple[Fraction, Fraction]  # a point of the picture, as drawn

BITS = 96  # binary places of a root where only the nearest point of a grid is sought

_NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_TOKEN = re.compile(rf"[\s,]*(?:({_NUMBER})|([A-Za-z]))", re.ASCII)
_FLAG = re.compile(r"[\s,]*([01])", re.ASCII)
_LENGTH = re.compile(rf"\s*({_NUMBER})\s*([a-z]*)\s*", re.ASCII | re.IGNORECASE)
_TRANSFORM = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)", re.ASCII)
_LONGEST_NUMBER = 40  # characters
_LARGEST_POWER = 30
_LARGEST = 10**9
_MOST_MOVES = 8  # in one transform
_UNITS = {  # px, https://www.w3.org/TR/css-values-3/#absolute-lengths
    "": Fraction(1), "px": Fraction(1), "in": Fraction(96), "pc": Fraction(16), "pt": Fraction(4, 3),
    "cm": Fraction(4800, 127), "mm": Fraction(480, 127), "q": Fraction(120, 127),
}  # fmt: skip


def _never() -> bool:
    return False


def tokens(text: str, where: str, *, is_flag: Callable[[], bool] = _never) -> Iterator[Fraction | str]:
    """Give numbers and single letters in order; BadSvg where neither stands.

    Where the next number `is_flag` it is one sign, 0 or 1, whatever follows.
    """
    text, place = text.rstrip(), 0
    while place < len(text):
        found = (_FLAG if is_flag() else _TOKEN).match(text, place)
        if found is None:
            raise BadSvg(where=where)
        place = found.end()
        yield number(found[1], where) if found[1] else found[2]


def numbers(text: str, where: str, *, most: int) -> list[Fraction]:
    """Read a list of numbers, at most so many."""
    found: list[Fraction] = []
    for token in tokens(text, where):
        if isinstance(token, str):
            raise BadSvg(where=where)
        if len(found) == most:
            raise TooLarge(where=where)
        found.append(token)
    return found


def number(text: str, where: str) -> Fraction:
    """Read a decimal exactly; powers of ten beyond +-30 and long texts are refused."""
    power = re.split("[eE]", text)[1:]
    if len(text) > _LONGEST_NUMBER or (power and abs(int(power[0])) > _LARGEST_POWER):
        raise BadSvg(where=where)
    return Fraction(text)


def length(text: str, where: str) -> Fraction:
    """Read a length with or without a unit; per cent and font sizes are refused."""
    found = _LENGTH.fullmatch(text)
    if found is None or found[2].lower() not in _UNITS:
        raise BadSvg(where=where)
    return number(found[1], where) * _UNITS[found[2].lower()]


def nearly(exact: Number) -> Fraction:
    """Give a rational so near that no grid can tell it from the root."""
    return exact.brackets(BITS)[0] if isinstance(exact, Surd) else exact


def _turns() -> Mapping[int, tuple[Fraction, Fraction]]:
    """Give (cosine, sine) of the angles whose sines are square roots: multiples of 30 and 45 degrees."""
    zero, one, half = Fraction(0), Fraction(1), Fraction(1, 2)
    eighth, long = nearly(root(half)), nearly(root(Fraction(3, 4)))
    first = {0: (one, zero), 30: (long, half), 45: (eighth, eighth), 60: (half, long)}
    turned, found = first, dict(first)
    for _ in range(3):
        turned = {angle + 90: (-sine, cosine) for angle, (cosine, sine) in turned.items()}
        found |= turned
    return found


TURNS = _turns()


@dataclass(frozen=True, slots=True)
class Matrix:
    """An SVG transform: x' = a x + c y + e, y' = b x + d y + f."""

    a: Fraction = Fraction(1)
    b: Fraction = Fraction(0)
    c: Fraction = Fraction(0)
    d: Fraction = Fraction(1)
    e: Fraction = Fraction(0)
    f: Fraction = Fraction(0)

    def of(self, spot: Spot) -> Spot:
        """Move a point."""
        x, y = spot
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def then_inside(self, inner: Matrix, where: str) -> Matrix:
        """Give the transform of what stands inside; BadTransform when numbers grow beyond a picture."""
        (a, b), (c, d) = self._vector(inner.a, inner.b), self._vector(inner.c, inner.d)
        e, f = self.of((inner.e, inner.f))
        entries = (a, b, c, d, e, f)
        if any(abs(entry) > _LARGEST for entry in entries):
            raise BadTransform(where=where)
        return Matrix(*map(_short, entries))

    def _vector(self, x: Fraction, y: Fraction) -> Spot:
        return self.a * x + self.c * y, self.b * x + self.d * y


def transform(text: str, where: str) -> Matrix:
    """Read translate, scale, rotate and matrix, one after the other; BadTransform for others.

    A turn must be a multiple of 30 or 45 degrees, as the picture's numbers know no other exactly.
    """
    whole, place, text = Matrix(), 0, text.strip()
    if text.count("(") > _MOST_MOVES:
        raise TooLarge(where=where)
    while place < len(text):
        found = _TRANSFORM.match(text, place)
        if found is None or found[1] not in _MAKERS:
            raise BadTransform(where=where)
        place = found.end()
        counts, make = _MAKERS[found[1]]
        values = numbers(found[2], where, most=6)
        inner = make(values) if len(values) in counts else None
        if inner is None:
            raise BadTransform(where=where)
        whole = whole.then_inside(inner, where)
    return whole


def _short(entry: Fraction) -> Fraction:
    """Keep a number; round one of absurdly many places, so that no nesting can stall the program."""
    if entry.denominator < 1 << 2 * BITS:
        return entry
    return Fraction(round(entry * (1 << 2 * BITS)), 1 << 2 * BITS)


def _translate(values: Sequence[Fraction]) -> Matrix:
    return Matrix(e=values[0], f=values[1] if len(values) > 1 else Fraction(0))


def _scale(values: Sequence[Fraction]) -> Matrix:
    return Matrix(a=values[0], d=values[-1])


def _rotate(values: Sequence[Fraction]) -> Matrix | None:
    angle = values[0] % 360
    if angle not in TURNS:
        return None
    cosine, sine = TURNS[int(angle)]
    x, y = values[1:] or (Fraction(0), Fraction(0))
    turn = Matrix(cosine, sine, -sine, cosine)
    back = turn.of((-x, -y))
    return Matrix(cosine, sine, -sine, cosine, x + back[0], y + back[1])


def _matrix(values: Sequence[Fraction]) -> Matrix:
    return Matrix(*values)


_MAKERS = {
    "translate": ((1, 2), _translate),
    "scale": ((1, 2), _scale),
    "rotate": ((1, 3), _rotate),
    "matrix": ((6,), _matrix),
}
