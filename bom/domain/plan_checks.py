"""An independent look at a strip plan: every piece is there, lies inside its strip, and none overlap.

Trusts nothing that the planner says of itself: only where each cut lies, in exact inches.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import combinations
from typing import TYPE_CHECKING

from bom.domain.proof_types import Finding
from patterns.engine.measure import write_inches

if TYPE_CHECKING:
    from patterns.engine.strips import Cut, Demand, Strip, StripPlan


def layout_faults(plan: StripPlan, demands: Iterable[Demand], *, width: Fraction) -> Iterator[Finding]:
    """List what is wrong with a plan of these pieces on fabric of this usable width, inches."""
    wanted = {demand.label: demand for demand in demands}
    yield from _counts(plan, wanted)
    for number, strip in enumerate(plan.strips, start=1):
        yield from _strip(strip, f"strip {number}", width=width, wanted=wanted)
    total = sum((strip.height * strip.repeat for strip in plan.strips), Fraction(0))
    if total != plan.total_length:
        yield _finding("all strips", "length", write_inches(plan.total_length), write_inches(total))


def _counts(plan: StripPlan, wanted: dict[str, Demand]) -> Iterator[Finding]:
    cut: Counter[str] = Counter()
    for strip in plan.strips:
        for piece in strip.cuts:
            cut[piece.label] += 0 if piece.surplus else strip.repeat
    for label in sorted({*cut, *wanted}):
        asked = wanted[label].count if label in wanted else 0
        if cut[label] != asked:
            yield _finding("all strips", label, f"{asked} cut", f"{cut[label]} cut")


def _strip(strip: Strip, name: str, *, width: Fraction, wanted: dict[str, Demand]) -> Iterator[Finding]:
    inside = f"inside {write_inches(width)} x {write_inches(strip.height)}"
    for cut in strip.cuts:
        right, top = cut.x + cut.width, cut.y + cut.length
        if cut.x < 0 or cut.y < 0 or right > width or top > strip.height:
            yield _finding(name, cut.label, inside, f"reaches {write_inches(right)} x {write_inches(top)}")
        if cut.label in wanted:
            yield from _size(cut, wanted[cut.label], name)
    for one, other in combinations(strip.cuts, 2):
        if _overlap(one, other):
            yield _finding(name, one.label, "no piece on another", f"lies on {other.label}")


def _size(cut: Cut, demand: Demand, name: str) -> Iterator[Finding]:
    laid = (cut.length, cut.width) if cut.turned else (cut.width, cut.length)
    if laid != (demand.width, demand.length):
        sizes = [" x ".join(map(write_inches, size)) for size in ((demand.width, demand.length), laid)]
        yield _finding(name, cut.label, sizes[0], sizes[1])
    if cut.turned and not demand.may_turn:
        yield _finding(name, cut.label, "not turned", "turned")


def _overlap(one: Cut, other: Cut) -> bool:
    across = one.x < other.x + other.width and other.x < one.x + one.width
    along = one.y < other.y + other.length and other.y < one.y + one.length
    return across and along


def _finding(step: str, piece: str, expected: str, found: str) -> Finding:  # noqa: PLR0917 -- the order of a finding
    return Finding(step=step, piece=piece, expected=expected, found=found)
