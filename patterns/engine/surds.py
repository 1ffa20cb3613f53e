"""Exact numbers with square roots: finite sums of rational x sqrt(n).

Triangles bring in square roots (half-square triangles sqrt(2), hexagons sqrt(3), half-rectangles
the root of a sum of squares).  They are carried exactly; nothing in the engine is compared with a
tolerance.  A result without roots is always a plain `Fraction`, so most blocks never see a `Surd`.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache, total_ordering
from math import gcd, isqrt
from typing import TypeAlias

Terms: TypeAlias = tuple[tuple[int, Fraction], ...]

_PAIR = 2


@total_ordering
class Surd:
    """A sum of rational multiples of roots of squarefree integers, at least one of them above 1.

    >>> root(2) * root(2)
    Fraction(2, 1)
    >>> 1 < root(2) < Fraction(3, 2)
    True
    """

    __slots__ = ("terms",)

    def __init__(self, terms: Terms) -> None:
        """Take sorted (n, coefficient) pairs; callers use `root` and arithmetic instead."""
        self.terms = terms

    def __add__(self, other: Number | int) -> Number:
        """Add term by term."""
        if not isinstance(other, Surd):
            return self._and_rational(other)
        sums = dict(self.terms)
        for n, coefficient in other.terms:
            sums[n] = sums[n] + coefficient if n in sums else coefficient
        return _number(sums)

    __radd__ = __add__

    def __neg__(self) -> Surd:
        """Turn every sign."""
        return Surd(tuple((n, -c) for n, c in self.terms))

    def __sub__(self, other: Number | int) -> Number:
        """Subtract term by term."""
        return self + -other

    def __rsub__(self, other: Number | int) -> Number:
        """Subtract from a rational."""
        return -self + other

    def __mul__(self, other: Number | int) -> Number:
        """Multiply out: sqrt(a) sqrt(b) = k sqrt(ab / k^2)."""
        if not isinstance(other, Surd):
            return Surd(tuple((n, c * other) for n, c in self.terms)) if other else Fraction(0)
        products: dict[int, Fraction] = {}
        for n, a in self.terms:
            for m, b in other.terms:
                outside = gcd(n, m)
                inside = (n // outside) * (m // outside)
                product = a * b * outside if outside > 1 else a * b
                products[inside] = products[inside] + product if inside in products else product
        return _number(products)

    __rmul__ = __mul__

    def __truediv__(self, other: Number | int) -> Number:
        """Divide exactly."""
        return self * (other._inverse() if isinstance(other, Surd) else Fraction(1, 1) / other)

    def __rtruediv__(self, other: Number | int) -> Number:
        """Divide a rational by this number."""
        return self._inverse() * other

    def __abs__(self) -> Surd:
        """Give the distance from zero."""
        return self if self.sign() > 0 else -self

    def __eq__(self, other: object) -> bool:
        """Compare exactly; a Surd never equals a rational."""
        return isinstance(other, Surd) and self.terms == other.terms

    def __lt__(self, other: Number | int) -> bool:
        """Compare exactly, by the sign of the difference."""
        return sign(self - other) < 0

    def __hash__(self) -> int:
        """Hash by the terms."""
        return hash(self.terms)

    def __repr__(self) -> str:
        """Write as `1+1/2r2`, the way drawing files do."""
        return "+".join(f"{c}r{n}" if n > 1 else str(c) for n, c in self.terms).replace("+-", "-")

    def __float__(self) -> float:
        """Approximate, for drawings on paper and screen only."""
        return float(sum(self.brackets(60)) / 2)

    def sign(self) -> int:
        """Give -1 or 1: by squares where there is one root, else by ever narrower brackets."""
        if len(self.terms) == 1:
            return 1 if self.terms[0][1] > 0 else -1
        if len(self.terms) == _PAIR:
            return _sign_of_pair(*self.terms)
        bits = 16
        while True:
            low, high = self.brackets(bits)
            if low > 0 or high < 0:
                return 1 if low > 0 else -1
            bits *= 2

    def brackets(self, bits: int) -> tuple[Fraction, Fraction]:
        """Give rationals below and above, each root taken to `bits` binary places."""
        low = high = Fraction(0)
        for n, coefficient in self.terms:
            below = isqrt(n << 2 * bits)
            ends = [coefficient * Fraction(below + extra, 1 << bits) for extra in (0, n > 1)]
            low, high = low + min(ends), high + max(ends)
        return low, high

    def _and_rational(self, other: Fraction | int) -> Surd:
        (n, first), rest = self.terms[0], self.terms[1:]
        if n > 1:
            return Surd(((1, Fraction(other)), *self.terms)) if other else self
        return Surd(((1, first + other), *rest) if first + other else rest)

    def _inverse(self) -> Number:
        """Invert by conjugates: 1 / (a + b sqrt p) = (a - b sqrt p) / (a^2 - p b^2)."""
        part = _parting(self.terms)
        rest = _number({n: c for n, c in self.terms if n % part})
        rooted = _number({n: c for n, c in self.terms if n % part == 0})
        conjugate = rest - rooted
        return conjugate * (1 / (rest * rest - rooted * rooted))


Number: TypeAlias = Fraction | Surd


def root(square: Fraction | int) -> Number:
    """Give the exact square root of a rational that is not negative.

    >>> root(Fraction(9, 4))
    Fraction(3, 2)
    """
    ratio = Fraction(square)
    if ratio < 0:
        raise ValueError(f"no real square root of {ratio}")
    (above, inside), (below, under) = _squarefree(ratio.numerator), _squarefree(ratio.denominator)
    return _number({inside * under: Fraction(above, below * under)})


def sign(number: Number | int) -> int:
    """Give -1, 0 or 1."""
    if isinstance(number, Surd):
        return number.sign()
    return (number > 0) - (number < 0)


def ceiling(number: Number, step: Fraction) -> Fraction:
    """Round up to a multiple of `step`; an exact multiple stays as it is.

    >>> ceiling(root(2), Fraction(1, 8))
    Fraction(3, 2)
    """
    if not isinstance(number, Surd):
        return -(-number // step) * step
    steps = int(-(-number.brackets(64)[0] // step))
    while steps * step < number:
        steps += 1
    return steps * step


@lru_cache(maxsize=4096)  # a drawing says the same few numbers over and over
def parse_number(text: str) -> Number:
    """Read "3", "3/2", "1+1/2r2" or "-1/2r3" exactly; ValueError when it is none of these."""
    total: Number = Fraction(0)
    for term in text.replace(" ", "").replace("-", "+-").removeprefix("+").split("+"):
        coefficient, _, inside = term.partition("r")
        if inside:
            total = total + root(int(inside)) * Fraction(coefficient or "1")
        else:
            total = total + Fraction(coefficient)
    return total


def write_number(number: Number) -> str:
    """Write so that `parse_number` reads the same number back."""
    return repr(number) if isinstance(number, Surd) else str(number)


def _number(sums: dict[int, Fraction]) -> Number:
    terms = tuple(sorted((n, c) for n, c in sums.items() if c))
    if not terms:
        return Fraction(0)
    if len(terms) == 1 and terms[0][0] == 1:
        return terms[0][1]
    return Surd(terms)


def _sign_of_pair(first: tuple[int, Fraction], second: tuple[int, Fraction]) -> int:
    """Give the sign of a sqrt(n) + b sqrt(m): where a and b pull apart, the larger square wins."""
    (n, a), (m, b) = first, second
    up = a > 0
    if up == (b > 0):
        return 1 if up else -1
    left = (a.numerator * b.denominator) ** 2 * n
    right = (b.numerator * a.denominator) ** 2 * m
    return 1 if (left > right) == up else -1


@lru_cache(maxsize=4096)
def _squarefree(n: int) -> tuple[int, int]:
    """Split n = outside^2 x inside, inside squarefree."""
    outside, inside, factor = 1, 1, 2
    while n and factor**3 <= n:
        while n % (factor * factor) == 0:
            n //= factor * factor
            outside *= factor
        if n % factor == 0:
            n //= factor
            inside *= factor
        factor += 1
    side = isqrt(n)  # what is left has two prime factors at most
    return (outside * side, inside) if side * side == n else (outside, inside * n)


def _parting(terms: Terms) -> int:
    """Give a factor of the last root that every other root is a multiple of, or shares nothing with."""
    part = terms[-1][0]
    for n, _ in terms:
        shared = gcd(part, n)
        part = shared if shared > 1 else part
    return part
