"""Slanting patches for the tests, and a star of eight diamonds."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from patterns.engine.parts import Point, Unit, UnitKind
from patterns.engine.recipes import write_recipe
from patterns.engine.steps import Recipe
from patterns.engine.surds import Number, root
from patterns.engine.units.base import Style
from tests.engine.fitted_samples import drawing_of, eight_point_star, one_patch, points

SINE = {45: 1 / root(2), 60: root(3) / 2}
COSINE = {45: 1 / root(2), 60: Fraction(1, 2)}


def leaning(angle: int, long: Number, short: Number, *, lean: str = "right") -> tuple[Point, ...]:
    """Draw a patch whose long edges lie across and whose ends lean."""
    run, high = short * COSINE[angle], short * SINE[angle]
    if lean == "right":
        return points((run, 0), (run + long, 0), (long, high), (0, high))
    return points((0, 0), (long, 0), (long + run, high), (run, high))


def patch(outline: tuple[Point, ...], kind: UnitKind = UnitKind.DIAMOND) -> Unit:
    return one_patch("unit-1", kind, letter="A", outline=outline)


def diamond(angle: int, wide: object) -> Unit:
    """Give a diamond that is so wide from edge to edge, square to them; finished inches."""
    edge = Fraction(wide) / SINE[angle]
    return patch(leaning(angle, edge, edge))


def star(style: Style, size: int = 12) -> tuple[Recipe, dict[str, Any]]:
    order = eight_point_star(size)
    return write_recipe(order, name="star", style=style), drawing_of(order)
