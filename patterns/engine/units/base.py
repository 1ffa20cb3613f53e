"""What all methods share: the style of a program, what a method is asked for, and what it answers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from typing import Any

from patterns.engine.parts import Point, Unit, UnitKind
from patterns.engine.steps import Phrase, Spare
from patterns.engine.surds import Number, ceiling, root, write_number

TWO = Fraction(2)
HALF_SQUARE = 2 + root(2)  # x seam: what two 45 degree points add to an edge with its square corner
QUARTER_SQUARE = 2 + 2 * root(2)  # x seam: what two 45 degree points add to a long edge, as a square
UNIT = "unit"  # the name of a method's result, until the recipe gives it the unit's own


class HouseStyle(StrEnum):
    """How a program cuts units that are trimmed."""

    EXACT = "exact"
    OVERSIZED = "oversized"


class Unnested(StrEnum):
    """What is done where copies pressed alike do not nest."""

    CLASSES = "two classes"  # some copies are pressed the other way
    OPEN = "open"  # the same, but where that takes a seam from the dark it is pressed open


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How a program sews.  Lengths in inches; a metric program gives its 0.75 cm as 75/254.

    Oversized half-squares are cut 1/8 in larger than exact, quarter-squares and geese 1/4 in, both up to
    the step: at a 1/4 in seam finished + 1 and + 1 1/2 (common practice), and as much to trim at any other
    seam.  `overrides` maps unit keys to methods.  `dark` ranks the letters from light to dark; without it
    a later letter counts as darker.  `directions` tells of letters whose print has one: "one-way", "panel",
    "two-way" or "stripe"; methods that keep it are preferred.
    """

    seam: Fraction = Fraction(1, 4)
    step: Fraction = Fraction(1, 8)
    house: HouseStyle = HouseStyle.EXACT
    half_square_over: Fraction = Fraction(1, 8)
    quarter_square_over: Fraction = Fraction(1, 4)
    usable_width: Fraction = Fraction(40)
    unnested: Unnested = Unnested.CLASSES
    overrides: Mapping[str, str] = field(default_factory=dict, hash=False)
    dark: Mapping[str, int] = field(default_factory=dict, hash=False)
    directions: Mapping[str, str] = field(default_factory=dict, hash=False)

    def darker(self, letters: tuple[str, ...]) -> str:
        """Give the letter to press toward."""
        return max(letters, key=lambda letter: (self.dark.get(letter, 0), len(letter), letter))


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """Cut pieces a method asks for, under a name of its own until the recipe merges them."""

    ref: str
    fabric: str
    width: Fraction
    length: Fraction
    count: int
    then: str = ""
    purpose: str = ""
    outline: tuple[Point, ...] = ()  # of a template: its finished corners


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """One unit made by a method: what to cut, how to sew, what stays over."""

    needs: tuple[Need, ...]
    operations: tuple[dict[str, Any], ...]
    words: tuple[Phrase, ...] = ()
    spares: tuple[Spare, ...] = ()
    warnings: tuple[Phrase, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """Make `make` of a unit in a style; `nudge` cutting steps larger when the first size is too small."""

    unit: Unit
    make: int
    style: Style
    nudge: int = 0

    @property
    def seam(self) -> Fraction:
        """Give the seam allowance."""
        return self.style.seam

    @property
    def unfinished(self) -> tuple[Number, Number]:
        """Give the unit's size with its seams."""
        return (self.unit.width + 2 * self.seam, self.unit.height + 2 * self.seam)

    def up(self, exact: Number) -> Fraction:
        """Round a cut size up to the cutting step."""
        return ceiling(exact, self.style.step) + self.nudge * self.style.step

    def half_square(self, finished: Number) -> Fraction:
        """Give the square for half-squares in pairs: finished + (2 + sqrt 2) seams, or oversized."""
        return self._cut(finished, HALF_SQUARE, self.style.half_square_over)

    def quarter_square(self, finished: Number) -> Fraction:
        """Give the square that is cut twice: finished + (2 + 2 sqrt 2) seams, or oversized."""
        return self._cut(finished, QUARTER_SQUARE, self.style.quarter_square_over)

    def _cut(self, finished: Number, seams: Number, over: Fraction) -> Fraction:
        exact = finished + seams * self.seam
        if self.style.house is HouseStyle.EXACT:
            return self.up(exact)
        return self.up(exact + over)

    def on_step(self, *lengths: Number) -> bool:
        """Say whether lengths lie on the cutting step."""
        return all(on_step(length, self.style.step) for length in lengths)

    def trim(self, align: Mapping[str, Any]) -> dict[str, Any]:
        """Write the trim to this unit's size."""
        return {
            "width": write_number(self.unit.width),
            "height": write_number(self.unit.height),
            "allowance": write_number(self.seam),
            "align": dict(align),
        }

    def spare(self, count: int) -> tuple[Spare, ...]:
        """Name units left over."""
        if not count:
            return ()
        return (
            Spare(
                ref=UNIT,
                count=count,
                fabrics=tuple(patch.fabric for patch in self.unit.patches),
                size=self.unfinished,
                patches=self.unit.patches,
            ),
        )


def always(job: Job) -> bool:
    """Admit a method for every unit of its kind."""
    return bool(job.make)


def never(job: Job) -> bool:
    """Choose a method only where it is asked for."""
    return not always(job)


@dataclass(frozen=True, slots=True, kw_only=True)
class Method:
    """A way to make one kind of unit: when it can be used, when it is chosen unasked, and how it goes.

    `tries` is how many sizes, the smallest first, are tried until virtual sewing passes one.
    """

    name: str
    kind: UnitKind
    draft: Callable[[Job], Draft]
    admits: Callable[[Job], bool] = always
    prefers: Callable[[Job], bool] = always
    tries: int = 4


def on_step(length: Number, step: Fraction) -> bool:
    """Say whether a length is a whole number of steps."""
    return isinstance(length, Fraction) and (length / step).denominator == 1


def text(number: Number) -> str:
    """Write a number into the data of a step."""
    return write_number(number)


def pair(x: Number | int, y: Number | int) -> list[str]:
    """Write a point or direction into the data of a step."""
    return [write_number(Fraction(n) if isinstance(n, int) else n) for n in (x, y)]


def share(count: int, per: int) -> int:
    """Give how many are needed when each gives `per`."""
    return -(-count // per)


MAKE_ONE = Phrase("Make one first and measure it before you go on.")
MAKE_SOME = Phrase("Sew one set first, cut it apart, trim and measure before you sew the rest.")


def draw_words(needs: Iterable[Need]) -> list[Phrase]:
    """Say on which pieces a pencil line is drawn."""
    words = "Draw one diagonal on the wrong side of {count}\N{NO-BREAK SPACE}{piece}."
    return [Phrase(words, {"count": need.count, "piece": need.ref}) for need in needs]
