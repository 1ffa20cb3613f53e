"""What can be wrong with what the engine is given: kinds of error that carry facts, not sentences.

Forms and commands word them for readers; the text of an exception is for developers.
"""

from __future__ import annotations

from fractions import Fraction


class PatternError(ValueError):
    """The base of all errors of the engine."""


class LengthNotRead(PatternError):
    """A text is no length: forms are 2 1/2, 5/2, 2.5 and 2½."""

    def __init__(self, *, text: str) -> None:
        """Keep the text as it was given."""
        super().__init__(f"no length: {text!r}; write 2 1/2, 5/2 or 2.5")
        self.text = text


class PieceWiderThanFabric(PatternError):
    """A piece does not fit across the usable width, however it may be turned.  Inches."""

    def __init__(self, *, label: str, width: Fraction, usable_width: Fraction) -> None:
        """Keep the piece's label, its smallest width across, and the usable width."""
        super().__init__(f"piece {label} is {width} in across, usable width is {usable_width} in")
        self.label = label
        self.width = width
        self.usable_width = usable_width


class CutLongerThanBolt(PatternError):
    """A cut of fabric is longer than the longest bolt gives.  Inches."""

    def __init__(self, *, length: Fraction, longest: Fraction) -> None:
        """Keep the cut's length and what the longest bolt gives after its end loss."""
        super().__init__(f"a cut of {length} in needs a longer bolt; the longest gives {longest} in")
        self.length = length
        self.longest = longest
