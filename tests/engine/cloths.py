"""Three fabrics to draw with, and a short way to write points."""

from __future__ import annotations

from fractions import Fraction

from patterns.engine.hatches import Cloth

FOG = Cloth("A", "#F0EFE7", 0, "Fog")
DEEP = Cloth("B", "#1F3A54", 1, "Deep Water")
KELP = Cloth("C", "#4F7F6A", 2, "Kelp")
CLOTHS = {cloth.letter: cloth for cloth in (FOG, DEEP, KELP)}


def points(text: str) -> tuple[tuple[Fraction, Fraction], ...]:
    """Read "0,0 4,0 4,4" as points."""
    return tuple((Fraction(x), Fraction(y)) for x, y in (pair.split(",") for pair in text.split()))
