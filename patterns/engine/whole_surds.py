"""Whole numbers with one square root, a + b sqrt(d), for loops that run over all corners of a drawing.

A drawing with roots is multiplied by its common denominator like any other; adding, multiplying and
comparing its coordinates then takes a few operations on whole numbers, no fractions.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm
from typing import Any, TypeAlias

from patterns.engine.surds import Number, Surd, Terms, root

Whole: TypeAlias = int | Number


class WholeSurd(Surd):
    """a + b sqrt(d) with whole a and b, b never 0.

    Sums and products with whole numbers and its like are whole again, so plain `int` where the root falls
    out; with anything else they are what a `Surd` makes of them.  Equal only to its like.
    """

    __slots__ = ("a", "b", "d")

    def __init__(self, a: int, b: int, d: int) -> None:
        """Take the whole numbers; `whole` leaves out a root of nothing."""
        self.a = a
        self.b = b
        self.d = d

    @property
    def terms(self) -> Terms:  # type: ignore[override]  # worked out where asked for
        """Give the number as a sum of roots."""
        rational = ((1, Fraction(self.a)),) if self.a else ()
        return (*rational, (self.d, Fraction(self.b)))

    def __add__(self, other: Any) -> Any:
        """Add part by part."""
        if isinstance(other, int):
            return WholeSurd(self.a + other, self.b, self.d)
        if isinstance(other, WholeSurd):
            return whole(self.a + other.a, self.b + other.b, self.d)
        return super().__add__(other)

    __radd__ = __add__

    def __neg__(self) -> WholeSurd:
        """Turn both signs."""
        return WholeSurd(-self.a, -self.b, self.d)

    def __sub__(self, other: Any) -> Any:
        """Subtract part by part."""
        if isinstance(other, int):
            return WholeSurd(self.a - other, self.b, self.d)
        if isinstance(other, WholeSurd):
            return whole(self.a - other.a, self.b - other.b, self.d)
        return super().__sub__(other)

    def __rsub__(self, other: Any) -> Any:
        """Subtract from a whole number."""
        return (
            WholeSurd(other - self.a, -self.b, self.d) if isinstance(other, int) else super().__rsub__(other)
        )

    def __mul__(self, other: Any) -> Any:
        """Multiply out."""
        if isinstance(other, int):
            return whole(self.a * other, self.b * other, self.d)
        if isinstance(other, WholeSurd):
            a = self.a * other.a + self.b * other.b * self.d
            return whole(a, self.a * other.b + self.b * other.a, self.d)
        return super().__mul__(other)

    __rmul__ = __mul__

    def __eq__(self, other: object) -> bool:
        """Compare with its like."""
        return isinstance(other, WholeSurd) and self.a == other.a and self.b == other.b and self.d == other.d

    def __hash__(self) -> int:
        """Hash both parts."""
        return hash((self.a, self.b))

    def __lt__(self, other: Any) -> bool:
        """Compare by the sign of the difference."""
        return self._compared(other) < 0

    def __gt__(self, other: Any) -> bool:
        """Compare by the sign of the difference."""
        return self._compared(other) > 0

    def __le__(self, other: Any) -> bool:
        """Compare by the sign of the difference."""
        return self._compared(other) <= 0

    def __ge__(self, other: Any) -> bool:
        """Compare by the sign of the difference."""
        return self._compared(other) >= 0

    def sign(self) -> int:
        """Give -1 or 1, by squares where the two parts pull apart."""
        return _sign(self.a, self.b, self.d)

    def _compared(self, other: Any) -> int:
        if isinstance(other, int):
            return _sign(self.a - other, self.b, self.d)
        if isinstance(other, WholeSurd):
            return _sign(self.a - other.a, self.b - other.b, self.d)
        difference = super().__sub__(other)
        return difference.sign() if isinstance(difference, Surd) else (difference > 0) - (difference < 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """What makes all numbers of a drawing whole: a factor, and the one root among them (1 for none).

    A drawing with two different roots keeps its own numbers (root 0).
    """

    factor: int
    root: int

    def of(self, number: Number) -> Whole:
        """Multiply by the factor."""
        if not self.root:
            return number
        if isinstance(number, Surd):
            parts = {n: int(coefficient * self.factor) for n, coefficient in number.terms}
            return whole(parts.get(1, 0), parts.get(self.root, 0), self.root)
        return int(number * self.factor)

    def back(self, number: Whole, over: int = 1) -> Number:
        """Divide by the factor, and by `over`."""
        share = self.factor * over
        if isinstance(number, WholeSurd):
            return Fraction(number.a, share) + root(number.d) * Fraction(number.b, share)
        return Fraction(number, share) if isinstance(number, int) else number / share


def whole(a: int, b: int, d: int) -> Whole:
    """Give a + b sqrt(d), a plain whole number where b is 0."""
    return WholeSurd(a, b, d) if b else a


def scale_of(numbers: Iterable[Number]) -> Scale:
    """Find what makes these numbers whole."""
    denominators, roots = {1}, {1}
    for number in numbers:
        if isinstance(number, Surd):
            denominators.update(coefficient.denominator for _, coefficient in number.terms)
            roots.update(n for n, _ in number.terms)
        else:
            denominators.add(number.denominator)
    if len(roots) > 2:  # noqa: PLR2004 -- 1 and one root
        return Scale(factor=1, root=0)
    return Scale(factor=lcm(*denominators), root=max(roots))


def direction(x: Whole, y: Whole) -> tuple[Whole, Whole]:
    """Give one whole vector for all that are parallel to this one."""
    if not x:
        return 0, 1
    if isinstance(x, WholeSurd):  # multiply both by its conjugate, so that x becomes whole
        y, x = WholeSurd(x.a, -x.b, x.d) * y, x.a * x.a - x.b * x.b * x.d
    if not isinstance(x, int) or not isinstance(y, int | WholeSurd):
        return Fraction(1), (Fraction(y) if isinstance(y, int) else y) / x
    a, b, d = (y.a, y.b, y.d) if isinstance(y, WholeSurd) else (y, 0, 1)
    shared = gcd(x, a, b) * (1 if x > 0 else -1)
    return x // shared, whole(a // shared, b // shared, d)


def _sign(a: int, b: int, d: int) -> int:
    if a >= 0 and b >= 0:
        return 1 if a or b else 0
    if a <= 0 and b <= 0:
        return -1
    return 1 if (a * a > b * b * d) == (a > 0) else -1
