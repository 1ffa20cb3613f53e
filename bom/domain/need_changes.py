"""What a change does to the fabric: line by line, before and after; lengths in inches."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bom.domain.frozen import Data

Lengths = tuple[Fraction, Fraction]  # minimum and suggested
NOTHING: Lengths = (Fraction(0), Fraction(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedChange:
    """One fabric of one packet whose need is another: colorway by its slug, `cloth` number and name."""

    colorway: str
    number: int
    cloth: str
    letters: tuple[str, ...]
    before: Lengths
    after: Lengths

    @property
    def rises(self) -> bool:
        """Whether more has to be bought."""
        return self.after[1] > self.before[1]

    def as_data(self) -> dict[str, Any]:
        """Give plain JSON data."""
        return {
            "colorway": self.colorway,
            "number": self.number,
            "cloth": self.cloth,
            "letters": list(self.letters),
            "before": [str(length) for length in self.before],
            "after": [str(length) for length in self.after],
        }

    @classmethod
    def from_data(cls, data: dict[str, Any]) -> NeedChange:
        """Read what `as_data` gave."""
        pairs = {name: _pair(data[name]) for name in ("before", "after")}
        return cls(
            colorway=data["colorway"],
            number=data["number"],
            cloth=data["cloth"],
            letters=tuple(data["letters"]),
            **pairs,
        )


def need_changes(before: Data, after: Data) -> tuple[NeedChange, ...]:
    """Compare two states of `frozen.needs_data`, by colorway, installment and fabric."""
    return tuple(_changes(before, after))


def _changes(before: Data, after: Data) -> Iterator[NeedChange]:
    for colorway in dict.fromkeys((*before, *after)):
        old, new = before.get(colorway, {}), after.get(colorway, {})
        for number in sorted({*old, *new}, key=int):
            yield from _packet(colorway, old.get(number, {}), new.get(number, {}), number=int(number))


def _packet(colorway: str, old: Data, new: Data, *, number: int) -> Iterator[NeedChange]:
    for cloth in dict.fromkeys((*old, *new)):
        pair = _lengths(old.get(cloth)), _lengths(new.get(cloth))
        if pair[0] != pair[1]:
            yield NeedChange(
                colorway=colorway,
                number=number,
                cloth=cloth,
                letters=tuple((new.get(cloth) or old[cloth])["letters"]),
                before=pair[0],
                after=pair[1],
            )


def _lengths(need: Data | None) -> Lengths:
    return (Fraction(need["minimum"]), Fraction(need["suggested"])) if need else NOTHING


def _pair(values: list[str]) -> Lengths:
    return Fraction(values[0]), Fraction(values[1])
