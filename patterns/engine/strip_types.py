"""Strip plans as values: what is wanted, and the strips and cuts that give it.  Inches, pieces as cut."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Any

from patterns.engine.measure import EIGHTH_YARD, up_to_step, write_inches


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """So many pieces of one size: width across the fabric, length along it, in inches as cut."""

    label: str
    width: Fraction
    length: Fraction
    count: int
    may_turn: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece as it lies in its strip: x across from the edge, y up from the strip's lower edge.

    Width is across and length along, as laid; `turned` says that it lies the other way than written.
    A `surplus` piece is not asked for; plans leave such pieces in what is left over.
    """

    label: str
    x: Fraction
    y: Fraction
    width: Fraction
    length: Fraction
    turned: bool
    surplus: bool = False

    def as_data(self) -> dict[str, Any]:
        """Give plain JSON data, lengths as text."""
        lengths = {name: write_inches(getattr(self, name)) for name in ("x", "y", "width", "length")}
        data = {"label": self.label, **lengths, "turned": self.turned}
        return data | {"surplus": True} if self.surplus else data


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A full-width strip, `repeat` of them cut alike."""

    height: Fraction
    repeat: int
    cuts: tuple[Cut, ...]

    @property
    def used_width(self) -> Fraction:
        """Tell how far across the pieces reach."""
        return max(cut.x + cut.width for cut in self.cuts)

    def as_data(self) -> dict[str, Any]:
        """Give plain JSON data, lengths as text."""
        return {
            "height": write_inches(self.height),
            "repeat": self.repeat,
            "cuts": [cut.as_data() for cut in self.cuts],
        }


class Answer(StrEnum):
    """How good a plan is known to be: the shortest, as good when bought, or neither shown."""

    PROVEN = "proven"
    NO_SMALLER_PURCHASE = "no smaller purchase possible"
    OPEN = "open"


@dataclass(frozen=True, slots=True, kw_only=True)
class StripPlan:
    """Strips that give a list of pieces, and the length that no layout of this kind can beat."""

    total_length: Fraction
    lower_bound: Fraction
    needs_width: Fraction
    usable_width: Fraction
    strips: tuple[Strip, ...]

    @property
    def proven(self) -> bool:
        """Whether no layout of this kind is shorter."""
        return self.total_length == self.lower_bound

    @property
    def gap(self) -> Fraction:
        """Give the inches by which a shorter layout is not ruled out."""
        return self.total_length - self.lower_bound

    @property
    def answer(self) -> Answer:
        """Say how good the plan is known to be where fabric is sold by the eighth of a yard."""
        if self.proven:
            return Answer.PROVEN
        bought = up_to_step(self.total_length, EIGHTH_YARD)
        least = up_to_step(self.lower_bound, EIGHTH_YARD)
        return Answer.NO_SMALLER_PURCHASE if bought == least else Answer.OPEN

    def as_data(self) -> dict[str, Any]:
        """Give plain JSON data, lengths as text such as "13 1/2"."""
        return {
            "total_length": write_inches(self.total_length),
            "lower_bound": write_inches(self.lower_bound),
            "proven": self.proven,
            "needs_width": write_inches(self.needs_width),
            "strips": [strip.as_data() for strip in self.strips],
        }
