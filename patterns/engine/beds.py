"""Which mattress a quilt lies over, and how far it hangs down at its sides.  Inches."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.surds import Number

# width, length ("Bed size: standard sizes in the United States and Canada", an encyclopaedia, a copy; crib:
# "Quilt sizes", a personal quilt page); other makers differ by an inch or two
MATTRESSES = {
    "crib": (Fraction(27), Fraction(52)),
    "twin": (Fraction(75, 2), Fraction(149, 2)),
    "full": (Fraction(54), Fraction(75)),
    "queen": (Fraction(60), Fraction(80)),
    "california king": (Fraction(72), Fraction(84)),
    "king": (Fraction(76), Fraction(80)),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A mattress that a quilt covers; `drop` is what hangs down at each of its long sides."""

    name: str
    width: Fraction
    length: Fraction
    drop: Number


def bed_under(width: Number, height: Number) -> Bed | None:
    """Give the widest mattress that a quilt of a finished size covers whole, or None.

    >>> bed_under(Fraction(72), Fraction(90))
    Bed(name='queen', width=Fraction(60, 1), length=Fraction(80, 1), drop=Fraction(6, 1))
    """
    across, along = min(width, height), max(width, height)
    covered = [
        Bed(name=name, width=wide, length=long, drop=(across - wide) / 2)
        for name, (wide, long) in MATTRESSES.items()
        if wide <= across and long <= along
    ]
    return max(covered, key=lambda bed: bed.width, default=None)
