"""Diamonds and other patches with slanting ends, cut from strips at 45 or 60 degrees.

A strip is as wide as the patch is high, square to its long edges, and 2 seams; cuts across it at the angle
are as far apart, square to each other, as the patch is wide that way and 2 seams: for a diamond of edge e
both are e x sin(angle) + 2 seams (derived geometry; common practice).  Rounded up, never down.  What they
are too wide by cannot be trimmed: where no mark of the ruler comes close from above, a template is preferred.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from patterns.engine.parts import UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number, ceiling, root, sign
from patterns.engine.templates import clockwise, edges_of, exact_length, way
from patterns.engine.units.base import TWO, UNIT, Draft, Job, Method, Need, pair, text
from patterns.engine.units.templates import PURPOSES, SLACK, outline_of

if TYPE_CHECKING:
    from patterns.engine.parts import Point

FROM_STRIPS = "from strips cut at an angle"
SLICED = "cut into slanting pieces"
SINES = {45: root(2) / TWO, 60: root(3) / TWO}
COTANGENTS = {45: Fraction(1), 60: root(3) / 3}
CORNERS = 4
MOST_OVER = Fraction(3, 64)  # inches: with it corners are still within 1/16 in, at 45 and 60 degrees
STRAIGHT_GRAIN = Phrase(
    "Two edges of each piece lie on the straight grain. The other two are on the bias: do not pull them."
)
ONE_HAND = Phrase("Cut the strip in one layer: of a folded one, half the pieces would be mirror images.")
CUTS = {
    "right": "Lay {count}\N{NO-BREAK SPACE}{piece} across, right side up. Cut off the left end at {angle} "
    "degrees to the long edge, leaning to the right. From there cut {pieces} slanting pieces, {length} wide, "
    "measured square to the cut.",
    "left": "Lay {count}\N{NO-BREAK SPACE}{piece} across, right side up. Cut off the left end at {angle} "
    "degrees to the long edge, leaning to the left. From there cut {pieces} slanting pieces, {length} wide, "
    "measured square to the cut.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Slant:
    """A patch with two pairs of parallel edges, 45 or 60 degrees apart; finished inches.

    Its longer edges lie along the strip, which lies across; `along` is their direction in the patch's own
    frame.  The others lean to the `lean`.
    """

    angle: int
    long: Number
    short: Number
    along: Point
    lean: str

    @property
    def sine(self) -> Number:
        """Give the sine of the angle."""
        return SINES[self.angle]

    @property
    def cotangent(self) -> Number:
        """Give its cotangent."""
        return COTANGENTS[self.angle]

    @property
    def is_diamond(self) -> bool:
        """Say whether all edges are alike, so that it is its own mirror image."""
        return self.long == self.short


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """How a patch is cut from strips: inches as cut, and how many pieces a full strip gives."""

    slant: Slant
    wide: Fraction
    apart: Fraction
    over: Number  # by how much the wider of both is too wide
    most: int
    step: Fraction

    def length(self, pieces: int) -> Fraction:
        """Give the length of a strip of so many pieces, with the triangles that fall off both ends."""
        along = pieces * self.apart / self.slant.sine
        return ceiling(along + self.wide * self.slant.cotangent, self.step)


def slant_of(outline: tuple[Point, ...]) -> Slant | None:
    """Describe a patch that can be cut from a strip at an angle; None for any other."""
    if len(outline) != CORNERS:
        return None
    ways = [way(*edge) for edge in edges_of(clockwise(outline))]
    lengths = [exact_length(along) for along in ways[:2]]
    closed = all(ways[0][k] + ways[2][k] == 0 for k in (0, 1))
    if not closed or None in lengths:
        return None
    found = [slant for place in (0, 1) if (slant := _lying(ways, place))]
    longest = [slant for slant in found if sign(slant.long - slant.short) >= 0]
    return min(longest, key=lambda slant: slant.lean != "right", default=None)


def _lying(ways: list[Point], place: int) -> Slant | None:
    """Lay one edge along the strip, on its upper edge: the next edge goes down from its right end."""
    edge, after = ways[place], ways[place + 1]
    long, short = exact_length(edge), exact_length(after)
    if long is None or short is None:
        return None
    square = (long * short) * (long * short)
    run = edge[0] * after[0] + edge[1] * after[1]
    angle = next((a for a, parts in ((45, 2), (60, 4)) if parts * run * run == square), 0)
    if not angle:
        return None
    return Slant(
        angle=angle,
        long=long,
        short=short,
        along=(edge[0] / long, edge[1] / long),
        lean="right" if sign(run) < 0 else "left",
    )


def strips_for(job: Job) -> Strips | None:
    """Give the strips that a patch can be cut from; None where it has no such slant."""
    slant = slant_of(outline_of(job.unit))
    if slant is None:
        return None
    exact = [edge * slant.sine + 2 * job.seam for edge in (slant.short, slant.long)]
    wide, apart = (_mark(size, job.style.step) for size in exact)
    room = (job.style.usable_width - wide * slant.cotangent) * slant.sine / apart
    return Strips(
        slant=slant,
        wide=wide,
        apart=apart,
        over=max(wide - exact[0], apart - exact[1]),
        most=-int(ceiling(-room, Fraction(1))),
        step=job.style.step,
    )


def _mark(exact: Number, step: Fraction) -> Fraction:
    """Round up to the cutting step; to half of it where that would leave too much to match."""
    size = ceiling(exact, step)
    return size if size - exact <= SLACK else ceiling(exact, step / TWO)


def from_strips(job: Job) -> Draft:
    """Cut full strips, and what is left from one shorter strip."""
    strips = strips_for(job)
    if strips is None:
        raise ValueError("no strip gives this patch")
    needs, operations = [], []
    for number, (count, pieces) in enumerate(_shared(job.make, strips.most), 1):
        need = Need(
            ref=f"s{number}",
            fabric=job.unit.fabrics[0],
            width=strips.wide,
            length=strips.length(pieces),
            count=count,
            then=SLICED,
            purpose=PURPOSES[UnitKind.DIAMOND] if strips.slant.is_diamond else "slanting patches",
        )
        needs.append(need)
        operations.append(_slice(job, strips, need, pieces=pieces))
    told = (STRAIGHT_GRAIN,) if strips.slant.is_diamond else (ONE_HAND, STRAIGHT_GRAIN)
    words = (*(_words(row) for row in operations), *told)
    return Draft(needs=tuple(needs), operations=tuple(operations), words=words)


def _shared(make: int, most: int) -> Iterator[tuple[int, int]]:
    """Give how many strips with how many pieces each."""
    full, left = divmod(make, most)
    if full:
        yield full, most
    if left:
        yield 1, left


def _slice(job: Job, strips: Strips, need: Need, *, pieces: int) -> dict[str, Any]:
    return {
        "op": "slice",
        "of": need.ref,
        "times": need.count,
        "angle": str(strips.slant.angle),
        "lean": strips.slant.lean,
        "apart": text(strips.apart),
        "pieces": pieces,
        "outline": [pair(*corner) for corner in outline_of(job.unit)],
        "turned_by": pair(*strips.slant.along),
        "gives": UNIT,
    }


def _words(row: dict[str, Any]) -> Phrase:
    facts = {
        "count": row["times"],
        "piece": row["of"],
        "angle": int(row["angle"]),
        "pieces": row["pieces"],
        "length": Fraction(row["apart"]),
    }
    return Phrase(CUTS[row["lean"]], facts)


def _admits(job: Job) -> bool:
    strips = strips_for(job)
    return strips is not None and strips.most > 0 and strips.over <= MOST_OVER


def _prefers(job: Job) -> bool:
    strips = strips_for(job)
    return strips is not None and strips.over <= SLACK


METHODS = tuple(
    Method(name=FROM_STRIPS, kind=kind, draft=from_strips, admits=_admits, prefers=_prefers, tries=1)
    for kind in (UnitKind.DIAMOND, UnitKind.TEMPLATE)
)
