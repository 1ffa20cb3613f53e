"""A hanging sleeve for the back of a quilt, and batting as it is sold.  Inches."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.finishing import strips_end_to_end
from patterns.engine.surds import Number

DEPTH = Fraction(
    4
)  # finished; what shows ask for ("Instructions for making sleeves", International Quilt Association)
LONGER, HEM = (
    Fraction(2),
    Fraction(3, 2),
)  # cut 2 in longer than the edge, 1 1/2 in turned under (same source)
SEAM = Fraction(1, 4)

PACKAGED = {  # batting as it is packed: width, height ("Quilting basics: standard quilt sizes", a blog, 2012)
    "craft": (34, 45),
    "crib": (45, 60),
    "twin": (72, 90),
    "queen": (90, 108),
    "king": (124, 120),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Sleeve:
    """A tube of cloth: cut, hemmed at both ends, folded lengthwise, sewn to the back below the top edge."""

    cut_width: Fraction
    cut_length: Number
    hem: Fraction  # turned under at each end
    finished_length: Number
    strips: int  # across the fabric, joined end to end
    fabric_length: Fraction


def hanging_sleeve(
    width: Number, *, usable_width: Fraction, depth: Fraction = DEPTH, seam: Fraction = SEAM
) -> Sleeve:
    """Plan a sleeve for a quilt of that width: twice the depth and two seams wide, 1 in short when hemmed.

    >>> hanging_sleeve(Fraction(54), usable_width=Fraction(40)).cut_width
    Fraction(17, 2)
    """
    cut_length, cut_width = width + LONGER, 2 * depth + 2 * seam
    strips = strips_end_to_end(cut_length - 2 * seam, usable_width=usable_width - 2 * seam)
    return Sleeve(
        cut_width=cut_width,
        cut_length=cut_length,
        hem=HEM,
        finished_length=cut_length - 2 * HEM,
        strips=strips,
        fabric_length=strips * cut_width,
    )


def packaged_batting(width: Number, height: Number) -> str:
    """Name the smallest packaged batting that holds width x height, either way round; "" where none does."""
    held = [
        name
        for name, (short, long) in PACKAGED.items()
        if min(width, height) <= min(short, long) and max(width, height) <= max(short, long)
    ]
    return min(held, key=lambda name: PACKAGED[name][0] * PACKAGED[name][1], default="")
