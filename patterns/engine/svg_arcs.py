"""Arcs of circles in the paths of a picture: quarter and half circles, as a drawing has them.

A path says an arc by its radius and the way round; a drawing by the centre of each quarter circle.  The
ends are snapped first, and the centre follows from them exactly, so the radius need only be near.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import isqrt
from typing import Any, TypeAlias

from patterns.engine.arcs import POINTS, centre_of
from patterns.engine.errors import Curve
from patterns.engine.geometry import cross, dot, exact, middle, minus
from patterns.engine.parts import Point
from patterns.engine.surds import sign, write_number
from patterns.engine.svg_numbers import Matrix, Spot, nearly

Entry: TypeAlias = "list[str] | dict[str, Any]"  # of a drawing file: a corner, or {"arc": centre}

NEAR = Fraction(1, 500)  # of the width of the picture: how far the radius may be off
_ALIKE = Fraction(1, 10_000)  # of a scale: by how much a picture may be stretched one way
_FINE = 10**12
_QUARTER, _HALF = 1, 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """An arc that leads to a corner of an outline: its radius, squared, and the way round."""

    square: Fraction
    is_clockwise: bool
    is_long: bool

    def moved(self, matrix: Matrix, where: str) -> Arc:
        """Turn, mirror or scale it; Curve where the picture is stretched so that it is no circle."""
        across, down = (matrix.a, matrix.b), (matrix.c, matrix.d)
        scale = dot(across, across)
        off = max(abs(nearly(exact(scale - dot(down, down)))), abs(nearly(exact(dot(across, down)))))
        if off > _ALIKE * nearly(exact(scale)):
            raise Curve(where=where)
        is_mirrored = sign(exact(cross(across, down))) < 0
        return replace(
            self,
            square=self.square * nearly(exact(scale)),
            is_clockwise=self.is_clockwise != is_mirrored,
        )

    def entries(self, start: Point, end: Point, *, quarters: int) -> Iterator[Entry]:
        """Write what stands between two corners in the drawing file."""
        half = middle((Fraction(0), Fraction(0)), minus(end, start))
        x, y = middle(start, end)
        aside = (-half[1], half[0]) if self.is_clockwise else (half[1], -half[0])
        if quarters == _QUARTER:
            yield {"arc": _written((exact(x + aside[0]), exact(y + aside[1])))}
        else:
            yield {"arc": _written((exact(x), exact(y)))}
            yield _written((exact(x - aside[0]), exact(y - aside[1])))
            yield {"arc": _written((exact(x), exact(y)))}

    def quarters(self, ends: tuple[Spot, Spot], *, width: Fraction, where: str) -> int:
        """Count the quarter circles that it is, 1 or 2, by its ends as drawn; Curve when it is neither."""
        (x, y), (far, low) = ends
        chord = (far - x) ** 2 + (low - y) ** 2
        for count in (_QUARTER, _HALF):
            off = chord - 2 * count * self.square
            if off * off <= 4 * (NEAR * width) ** 2 * chord and (count == _HALF or not self.is_long):
                return count
        raise Curve(where=where)


def _written(point: Point) -> list[str]:
    return [write_number(number) for number in point]


def folded(points: Sequence[Point]) -> list[tuple[Point, Point | None]]:
    """Give the corners of an outline, each with the centre of the quarter circle that leads on from it."""
    closed = (*points, points[0])
    found: list[tuple[Point, Point | None]] = []
    at = 0
    while at < len(points):
        centre = centre_of(closed[at : at + POINTS])
        found.append((points[at], centre))
        at += POINTS - 1 if centre else 1
    return found


def is_clockwise(start: Point, end: Point, centre: Point) -> bool:
    """Say which way round a quarter circle goes, as it is seen."""
    return sign(exact(cross(minus(start, centre), minus(end, centre)))) > 0


def radius(start: Point, centre: Point) -> Fraction:
    """Give the radius of an arc, to 1/10^12 where it has a root."""
    away = minus(start, centre)
    square = nearly(exact(dot(away, away)))
    return Fraction(isqrt(round(square * _FINE * _FINE)), _FINE)
