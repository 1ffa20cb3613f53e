"""The seam test that a sheet begins with: three strips side by side, the middle one measured.

Both seams of the middle strip take cloth from it, so that it shows the seam allowance twice (common
practice).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patterns.engine.measure import Units, centimetres
from patterns.engine.steps import Phrase

MIDDLES = {Units.CENTIMETRES: centimetres("2.5")}  # finished width of the middle strip; else 1 in
LENGTHS = {Units.CENTIMETRES: centimetres("15")}  # of the strips, about; else 6 in
INCH, HAND = Fraction(1), Fraction(6)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeamTest:
    """Strips of `cut` x `length`, seams included; the middle one finishes `middle`.  Inches, exact."""

    cut: Fraction
    middle: Fraction
    length: Fraction
    words: tuple[Phrase, ...]


def seam_test(seam: Fraction, units: Units = Units.INCHES) -> SeamTest:
    """Write the test for a seam allowance in inches; the middle is wider than both seams together.

    >>> seam_test(Fraction(1, 4)).cut
    Fraction(3, 2)
    """
    step = MIDDLES.get(units, INCH)
    middle = step * (2 * seam // step + 1)
    cut, length = middle + 2 * seam, LENGTHS.get(units, HAND)
    facts = {"cut": cut, "middle": middle, "length": length, "seam": seam}
    words = (
        Phrase(
            "Cut three strips {cut} wide and about {length} long from what is left over. Sew them side by "
            "side with your {seam} seam, and press.",
            facts,
        ),
        Phrase("The middle strip must measure {middle} from seam to seam.", facts),
        Phrase(
            "Less: your seam is too wide. More: too narrow, or not pressed flat. Move the needle or the "
            "guide and try again.",
        ),
    )
    return SeamTest(cut=cut, middle=middle, length=length, words=words)
