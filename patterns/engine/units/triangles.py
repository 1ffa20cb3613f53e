"""Triangles from squares and rectangles: how many, cut apart how, and how many triangles stay over."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, TypeAlias

from patterns.engine.steps import Phrase, Spare
from patterns.engine.units.base import TWO, Need, share

Size: TypeAlias = tuple[Fraction, Fraction]


ALONG = {
    "one diagonal": "Cut {count}\N{NO-BREAK SPACE}{piece} once diagonally.",
    "both diagonals": "Cut {count}\N{NO-BREAK SPACE}{piece} twice diagonally.",
    "falling diagonal": "Stand {count}\N{NO-BREAK SPACE}{piece} upright, right side up, and cut once from "
    "the top left to the bottom right corner.",
    "rising diagonal": "Stand {count}\N{NO-BREAK SPACE}{piece} upright, right side up, and cut once from "
    "the bottom left to the top right corner.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Triangles:
    """Ask for `number` triangles of a fabric; `name` is what later steps call one."""

    name: str
    fabric: str
    number: int
    purpose: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """Squares or rectangles to cut, the step that cuts them apart, and the triangles left over."""

    need: Need
    operation: dict[str, Any]
    spares: tuple[Spare, ...]

    @property
    def words(self) -> Phrase:
        """Say how the squares or rectangles are cut apart."""
        words = ALONG[self.operation["along"]]
        return Phrase(words, {"count": self.operation["times"], "piece": self.need.ref})


def cut_once(wanted: Triangles, *, ref: str, size: Fraction) -> Apart:
    """Cut squares once: two triangles each, their short sides on the straight grain; `size` as cut."""
    count = share(wanted.number, 2)
    operation = {"op": "cut", "of": ref, "times": count, "along": "one diagonal", "gives": wanted.name}
    need = _pieces(wanted, ref=ref, size=(size, size), count=count, then="cut once diagonally")
    return Apart(need=need, operation=operation, spares=_over(wanted, 2 * count, (size, size)))


def cut_twice(wanted: Triangles, *, ref: str, size: Fraction) -> Apart:
    """Cut squares twice: four triangles each, their long sides on the straight grain; `size` as cut."""
    count = share(wanted.number, 4)
    operation = {"op": "cut", "of": ref, "times": count, "along": "both diagonals", "gives": wanted.name}
    need = _pieces(wanted, ref=ref, size=(size, size), count=count, then="cut twice diagonally")
    return Apart(need=need, operation=operation, spares=_over(wanted, 4 * count, (size / TWO, size)))


def cut_rectangles(wanted: Triangles, *, ref: str, size: Size, along: str) -> Apart:
    """Cut upright rectangles along one diagonal, all the same way: two triangles each; `size` as cut."""
    count = share(wanted.number, 2)
    operation = {"op": "cut", "of": ref, "times": count, "along": along, "gives": wanted.name}
    need = _pieces(wanted, ref=ref, size=size, count=count, then="cut once diagonally")
    return Apart(need=need, operation=operation, spares=_over(wanted, 2 * count, size[::-1]))


def _pieces(wanted: Triangles, *, ref: str, size: Size, count: int, then: str) -> Need:
    return Need(
        ref=ref,
        fabric=wanted.fabric,
        width=size[0],
        length=size[1],
        count=count,
        then=then,
        purpose=wanted.purpose,
    )


def _over(wanted: Triangles, made: int, box: Size) -> tuple[Spare, ...]:
    """Name the triangles left over; `box` is the size of the box round one."""
    left = made - wanted.number
    return (Spare(ref=wanted.name, count=left, fabrics=(wanted.fabric,), size=box),) if left else ()
