"""Whole numbers with one root, a + b sqrt(d): what a drawing's corners become, many times as quick as surds.

A number without root is a plain int, so that most drawings never see a `Rooted`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import total_ordering
from math import gcd, lcm
from typing import TypeAlias

from patterns.engine.geometry import exact
from patterns.engine.surds import Number, Surd, root


@total_ordering
class Rooted:
    """a + b sqrt(d), all whole, b not zero; d is the same throughout a drawing."""

    __slots__ = ("a", "b", "d")

    def __init__(self, a: int, b: int, d: int) -> None:
        """Take b that is not zero; `rooted` makes an int where it is."""
        self.a, self.b, self.d = a, b, d

    def __add__(self, other: Whole) -> Whole:
        """Add term by term."""
        if isinstance(other, Rooted):
            return rooted(self.a + other.a, self.b + other.b, self.d)
        return Rooted(self.a + other, self.b, self.d)

    __radd__ = __add__

    def __neg__(self) -> Rooted:
        """Turn both signs."""
        return Rooted(-self.a, -self.b, self.d)

    def __sub__(self, other: Whole) -> Whole:
        """Subtract term by term."""
        if isinstance(other, Rooted):
            return rooted(self.a - other.a, self.b - other.b, self.d)
        return Rooted(self.a - other, self.b, self.d)

    def __rsub__(self, other: int) -> Whole:
        """Subtract from a plain whole number."""
        return Rooted(other - self.a, -self.b, self.d)

    def __mul__(self, other: Whole) -> Whole:
        """Multiply out."""
        if isinstance(other, Rooted):
            a = self.a * other.a + self.b * other.b * self.d
            return rooted(a, self.a * other.b + self.b * other.a, self.d)
        return rooted(self.a * other, self.b * other, self.d)

    __rmul__ = __mul__

    def __eq__(self, other: object) -> bool:
        """Compare exactly; with a root it never equals a plain number."""
        return isinstance(other, Rooted) and self.a == other.a and self.b == other.b

    def __lt__(self, other: Whole) -> bool:
        """Compare by size."""
        return sign(self - other) < 0

    def __hash__(self) -> int:
        """Hash by both terms."""
        return hash((self.a, self.b))

    def sign(self) -> int:
        """Give -1 or 1: where the terms differ in sign, the larger square decides."""
        own, other = (1 if self.b > 0 else -1), (self.a > 0) - (self.a < 0)
        if own * other >= 0:
            return own
        return own if self.b * self.b * self.d > self.a * self.a else other


Whole: TypeAlias = int | Rooted
Spot: TypeAlias = tuple[Whole, Whole]


def rooted(a: int, b: int, d: int) -> Whole:
    """Make a + b sqrt(d), an int where b is zero."""
    return Rooted(a, b, d) if b else a


def sign(number: Whole) -> int:
    """Give -1, 0 or 1."""
    return number.sign() if isinstance(number, Rooted) else (number > 0) - (number < 0)


def minus(a: Spot, b: Spot) -> Spot:
    """Give the vector from b to a."""
    return a[0] - b[0], a[1] - b[1]


def dot(a: Spot, b: Spot) -> Whole:
    """Give the dot product."""
    return a[0] * b[0] + a[1] * b[1]


def cross(a: Spot, b: Spot) -> Whole:
    """Give the cross product: above zero when b lies clockwise of a (y grows downward)."""
    return a[0] * b[1] - a[1] * b[0]


def direction(vector: Spot) -> tuple[Spot, int]:
    """Give one vector for all that are parallel to this one, and 0, or 1 where this one runs against it."""
    x, y = vector
    if not isinstance(x, Rooted) and not x:
        return (0, 1), int(sign(y) < 0)
    a, b, c = _slope(x, y)
    shared = gcd(a, b, c) * (1 if a > 0 else -1)
    against = int(sign(x) < 0)
    return (a // shared, rooted(b // shared, c // shared, _root_of(x, y))), against


def _slope(x: Whole, y: Whole) -> tuple[int, int, int]:
    """Give y / x as a whole number and the two terms it divides."""
    if isinstance(x, Rooted):
        below, above = x.a * x.a - x.b * x.b * x.d, y * Rooted(x.a, -x.b, x.d)
    else:
        below, above = x, y
    return (below, above.a, above.b) if isinstance(above, Rooted) else (below, above, 0)


def _root_of(x: Whole, y: Whole) -> int:
    return next((number.d for number in (x, y) if isinstance(number, Rooted)), 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """How the numbers of a drawing become whole: number = whole x `step`."""

    step: Number
    d: int  # the drawing's root, 1 without

    def whole(self, number: Number | int) -> Whole:
        """Give a number of the drawing as whole steps."""
        if isinstance(number, int) and self.step == 1:
            return number
        quotient = exact(number) / self.step
        terms = dict(quotient.terms) if isinstance(quotient, Surd) else {1: quotient}
        return rooted(int(terms.get(1, 0)), int(terms.get(self.d, 0)) if self.d > 1 else 0, self.d)

    def number(self, whole: Whole) -> Number:
        """Give whole steps back as a number of the drawing."""
        if isinstance(whole, Rooted):
            return (whole.a + root(whole.d) * whole.b) * self.step
        return whole * self.step


def scale_for(numbers: Iterable[Number | int]) -> Scale | None:
    """Find the step that makes all numbers whole; None where two different roots are among them.

    Where two are, the largest number is tried as a measure: a drawing of one root, drawn to a size with
    another one, has one root only as parts of its width.
    """
    given = [exact(number) for number in numbers]
    for measure in (Fraction(1), max(given)):
        parts = [number / measure for number in given] if measure != 1 else given
        terms = [term for part in parts for term in _terms(part)]
        roots = {n for n, _ in terms} - {1}
        if len(roots) <= 1:
            return Scale(step=measure / lcm(*(c.denominator for _, c in terms)), d=max(roots, default=1))
    return None


def _terms(number: Number) -> tuple[tuple[int, Fraction], ...]:
    return number.terms if isinstance(number, Surd) else ((1, number),)
