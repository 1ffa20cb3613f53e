"""Strip plans: the fewest inches of full-width strips that give a list of pieces.

Fabric is cut into strips across its width, strips into pieces, and pieces lower than their strip are
trimmed (two-stage cutting with trimming; Cintra, Miyazawa, Wakabayashi and Xavier, EJOR 191, 2008).
"Best" always means the best of these layouts, never the least fabric possible.  All lengths are
inches, pieces as cut; squaring up and other allowances come on top (see `yardage`).
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.strip_kindness import kindest
from patterns.engine.strip_layout import Sizes, sizes_of, strips_of
from patterns.engine.strip_model import PlanMode
from patterns.engine.strip_scale import problem_of, scale_of
from patterns.engine.strip_solve import solve
from patterns.engine.strip_types import Answer, Cut, Demand, Strip, StripPlan

__all__ = ["Answer", "Cut", "Demand", "PlanMode", "Strip", "StripPlan", "plan_strips", "sensitivity"]


def plan_strips(
    demands: Iterable[Demand],
    *,
    usable_width: Fraction,
    mode: PlanMode = PlanMode.TRIM,
    effort: int = 1,
) -> StripPlan:
    """Lay pieces into full-width strips of the usable width, fewest inches first, then kindest.

    Among plans of equal length: holds at the narrowest width, fewest sizes in a strip, fewest trims.
    `effort` multiplies the counted budget of the search and its proof: about a second each on a hard
    list.  Nothing hangs on the clock, so a list has one plan everywhere.  Raises PieceWiderThanFabric
    with the piece's label.

    >>> plan_strips([Demand(label="A1", width=Fraction(5, 2), length=Fraction(5, 2), count=40)],
    ...             usable_width=Fraction(40)).total_length
    Fraction(15, 2)
    """
    wanted = tuple(demand for demand in demands if demand.count)
    return _planned(wanted, usable_width, mode=mode, effort=effort)


def sensitivity(
    demands: Iterable[Demand], *, usable_width: Fraction, mode: PlanMode = PlanMode.TRIM
) -> tuple[tuple[Fraction, Fraction], ...]:
    """Give (usable width, total length) at the stated width, at 1/2 in less and at 1 in less.

    Widths that a piece no longer fits across are left out.
    """
    wanted = tuple(demands)
    rows = []
    for less in (Fraction(0), Fraction(1, 2), Fraction(1)):
        width = usable_width - less
        try:
            rows.append((width, plan_strips(wanted, usable_width=width, mode=mode).total_length))
        except PieceWiderThanFabric:
            if not less:
                raise
    return tuple(rows)


@lru_cache(maxsize=4096)
def _planned(
    demands: tuple[Demand, ...], usable_width: Fraction, *, mode: PlanMode, effort: int
) -> StripPlan:
    for demand in demands:
        across = min(demand.width, demand.length) if demand.may_turn else demand.width
        if across > usable_width:
            raise PieceWiderThanFabric(label=demand.label, width=across, usable_width=usable_width)
    if not demands:
        zero = Fraction(0)
        return StripPlan(
            total_length=zero, lower_bound=zero, needs_width=zero, usable_width=usable_width, strips=()
        )
    sizes = sizes_of(demands)
    scale = scale_of([(size.width, size.length) for size in sizes], usable_width)
    found = solve(problem_of(scale, sizes, mode), effort=effort)
    kind = kindest(found)
    strips = strips_of(kind, sizes, scale.unit)
    return StripPlan(
        total_length=scale.length(kind.length),
        lower_bound=scale.length(kind.bound) if scale.exact else _area(sizes) / usable_width,
        needs_width=max(strip.used_width for strip in strips),
        usable_width=usable_width,
        strips=strips,
    )


def _area(sizes: Sizes) -> Fraction:
    return sum((size.width * size.length * size.count for size in sizes), start=Fraction(0))
