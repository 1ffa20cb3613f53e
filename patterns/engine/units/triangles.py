"""Triangles from squares: how many squares, cut apart how, and how many triangles stay over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from patterns.engine.steps import Phrase, Spare
from patterns.engine.units.base import TWO, Need, share

if TYPE_CHECKING:
    from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Triangles:
    """Ask for `number` triangles of a fabric; `name` is what later steps call one."""

    name: str
    fabric: str
    number: int
    purpose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """Squares to cut, the step that cuts them apart, and the triangles left over."""

    need: Need
    operation: dict[str, Any]
    spares: tuple[Spare, ...]

    @property
    def words(self) -> Phrase:
        """Say how the squares are cut apart."""
        once = self.operation["along"] == "one diagonal"
        words = (
            "Cut {count}\N{NO-BREAK SPACE}{piece} once diagonally."
            if once
            else "Cut {count}\N{NO-BREAK SPACE}{piece} twice diagonally."
        )
        return Phrase(words, {"count": self.need.count, "piece": self.need.ref})


def cut_once(wanted: Triangles, *, ref: str, size: Fraction) -> Apart:
    """Cut squares once: two triangles each, their short sides on the straight grain; `size` as cut."""
    count = share(wanted.number, 2)
    operation = {"op": "cut", "of": ref, "times": count, "along": "one diagonal", "gives": wanted.name}
    need = _squares(wanted, ref=ref, size=size, count=count, then="cut once diagonally")
    return Apart(need=need, operation=operation, spares=_over(wanted, 2 * count, (size, size)))


def cut_twice(wanted: Triangles, *, ref: str, size: Fraction) -> Apart:
    """Cut squares twice: four triangles each, their long sides on the straight grain; `size` as cut."""
    count = share(wanted.number, 4)
    operation = {"op": "cut", "of": ref, "times": count, "along": "both diagonals", "gives": wanted.name}
    need = _squares(wanted, ref=ref, size=size, count=count, then="cut twice diagonally")
    return Apart(need=need, operation=operation, spares=_over(wanted, 4 * count, (size / TWO, size)))


def _squares(wanted: Triangles, *, ref: str, size: Fraction, count: int, then: str) -> Need:
    return Need(
        ref=ref,
        fabric=wanted.fabric,
        width=size,
        length=size,
        count=count,
        then=then,
        purpose=wanted.purpose,
    )


def _over(wanted: Triangles, made: int, box: tuple[Fraction, Fraction]) -> tuple[Spare, ...]:
    """Name the triangles left over; `box` is the size of the box round one."""
    left = made - wanted.number
    return (Spare(ref=wanted.name, count=left, fabrics=(wanted.fabric,), size=box),) if left else ()
