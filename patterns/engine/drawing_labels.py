"""Where a letter or a name is set on a piece: where it is seen, as far as may be from all else."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, TypeAlias

from patterns.engine.drawing import (
    Outline,
    Pixel,
    bounds,
    clearance_squared,
    distance_squared,
    inner_point,
    is_inside,
    thousandth,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

Boxed: TypeAlias = tuple[tuple[Fraction, Fraction, Fraction, Fraction], Outline]  # with its bounds

_FAR = Fraction(10**9)
_RASTER = 9  # points tried across a piece, and down it, for its label


def best_spot(
    outline: Outline, *, above: Sequence[Outline], lines: Sequence[Outline], taken: Sequence[Outline]
) -> tuple[Fraction, Pixel]:
    """Give the point of a raster over the piece that is farthest from all else, and that distance squared."""
    centre = inner_point(outline)
    if not (above or lines or taken):
        return clearance_squared(centre, outline), centre
    spots = [spot for spot in (centre, *raster(outline)) if is_inside(spot, outline)]
    free = [spot for spot in spots if not any(is_inside(spot, other) for other in above)]
    walls = [edge for shape in (outline, *above) for edge in edges(shape)]
    walls += [(start, end) for start, end in lines]
    best = (Fraction(0), centre)
    for spot in free:
        room = min((distance_squared(spot, other, other) / 4 for other, _ in taken), default=_FAR)
        for start, end in walls:
            if room <= best[0]:
                break
            room = min(room, distance_squared(spot, start, end))
        best = max(best, (room, spot), key=lambda found: found[0])
    return best


def boxed(outline: Outline) -> Boxed:
    """Put the bounds beside a shape or a line."""
    return bounds(outline), outline


def half_width(shape: Boxed) -> Fraction:
    """Give half of the lesser side of the bounds: no point inside is farther from every edge."""
    left, top, right, bottom = shape[0]
    return min(right - left, bottom - top) / 2


def meeting(shape: Boxed, others: Iterable[Boxed]) -> list[Outline]:
    """Give those shapes and lines whose upright bounds meet those of the shape."""
    left, top, right, bottom = shape[0]
    return [
        outline
        for (x1, y1, x2, y2), outline in others
        if x1 < right and x2 > left and y1 < bottom and y2 > top
    ]


def raster(outline: Outline) -> list[Pixel]:
    """Give points in even rows over the upright bounds of an outline."""
    left, top, right, bottom = bounds(outline)
    steps = [Fraction(2 * share + 1, 2 * _RASTER) for share in range(_RASTER)]
    return [
        (thousandth(left + (right - left) * a), thousandth(top + (bottom - top) * b))
        for b in steps
        for a in steps
    ]


def edges(shape: Outline) -> list[tuple[Pixel, Pixel]]:
    """Give the edges of a shape."""
    return list(zip(shape, [*shape[1:], shape[0]], strict=True))
