"""Sizes at which a block can be cut on the marks of a ruler, and patches too thin to sew.

All lengths are finished inches.  Seams do not matter: an allowance of whole cutting steps keeps what lies
on the step there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from patterns.engine import geometry
from patterns.engine.blocks import Block
from patterns.engine.errors import Place
from patterns.engine.geometry import dot, minus
from patterns.engine.surds import Number

THIN = Fraction(1, 100)  # of the wider side: an eighth of an inch in a block of a foot
_FARTHEST = 2  # times as large, or as small: farther away a size is another block


@dataclass(frozen=True, slots=True, kw_only=True)
class NearestSizes:
    """The finished sizes next to a block's own at which its upright and level seams fall on the step.

    Sizes are of the wider side.  `part` is the measure that all those seams share at the block's own size.
    None: there is no size between half and twice as large.
    """

    part: Fraction
    below: Fraction | None
    above: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sliver:
    """A patch that is thinner than a hundredth of the block: its number from 0, and its middle."""

    patch: int
    where: Place


def nearest_sizes(block: Block, step: Fraction) -> NearestSizes | None:
    """Offer the sizes nearest to a block's own; None where it falls on the step, or at no size can.

    No size helps where an upright or level seam lies at a root, as in stars of eight points.

    A grid of nine at 12 in, cut on eighths: parts of 1 1/3 in; 11 1/4 in below, 12 3/8 in above.
    """
    places = set(_places(block))
    lengths = [place for place in places if isinstance(place, Fraction)]
    if len(lengths) < len(places):
        return None
    part = _shared_measure(lengths)
    if part % step == 0:
        return None
    wider = max(lengths)
    base = wider * step / part  # the smallest of all such sizes, and the distance between them
    below = wider // base * base
    return NearestSizes(
        part=part,
        below=below if below * _FARTHEST >= wider else None,
        above=below + base if below + base <= wider * _FARTHEST else None,
    )


def slivers(block: Block) -> tuple[Sliver, ...]:
    """Find the patches whose area, shared out over their longest reach, is thinner than a hundredth."""
    least = max(block.width, block.height) * THIN
    found = []
    for number, patch in enumerate(block.patches):
        points = patch.points
        reach = max(dot(minus(a, b), minus(a, b)) for a in points for b in points)
        if geometry.area(points) * geometry.area(points) < least * least * reach:
            found.append(Sliver(patch=number, where=geometry.middle(*points)))
    return tuple(found)


def _places(block: Block) -> Iterator[Number]:
    """Give how far from the top or the left the upright and level edges lie."""
    yield from (block.width, block.height)
    for patch in block.patches:
        for start, end in geometry.edges(patch.points):
            yield from (geometry.exact(a) for a, b in zip(start, end, strict=True) if a == b)


def _shared_measure(lengths: list[Fraction]) -> Fraction:
    """Give the largest length that measures all of them."""
    over = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * over) for length in lengths)), over)
