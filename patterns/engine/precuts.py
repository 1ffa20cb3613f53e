"""The fewest precuts of one kind that give a cut list.

Each is cut into strips first, either way, and the strips into pieces, lower ones trimmed.  Lengths are
inches; `precut_sizes` says what is planned on.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from patterns.engine.errors import PieceWiderThanFabric
from patterns.engine.precut_branch import fewest
from patterns.engine.precut_search import Pattern, Way
from patterns.engine.precut_sizes import Precut
from patterns.engine.strip_layout import Dealer, Sizes, sizes_of
from patterns.engine.strip_model import PlanMode
from patterns.engine.strip_scale import problem_of, scale_of
from patterns.engine.strip_types import Demand, Strip


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPrecut:
    """One precut, `repeat` of them cut alike; the strips run along the fabric where `strips_along`."""

    strips: tuple[Strip, ...]
    strips_along: bool
    repeat: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PrecutPlan:
    """How many precuts give a list, and a number that no two-stage choice can beat."""

    precut: Precut
    count: int
    lower_bound: int
    cuts: tuple[CutPrecut, ...]

    @property
    def proven(self) -> bool:
        """Whether fewer are impossible."""
        return self.count == self.lower_bound


def fewest_precuts(demands: Iterable[Demand], *, precut: Precut) -> PrecutPlan:
    """Cut a list from as few precuts as can be; raises PieceWiderThanFabric with a piece that fits none."""
    wanted = tuple(demand for demand in demands if demand.count)
    across, along = precut.usable
    for demand in wanted:
        _check(demand, across, along)
    if not wanted:
        return PrecutPlan(precut=precut, count=0, lower_bound=0, cuts=())
    sizes = sizes_of(wanted)
    turned = tuple(replace(size, width=size.length, length=size.width) for size in sizes)
    ways = (
        _way(sizes, across=across, reach=along, strips_along=False),
        _way(turned, across=along, reach=across, strips_along=True),
    )
    found, bound = fewest(ways, [size.count for size in sizes])
    unit = scale_of([(size.width, size.length) for size in sizes], across).unit
    return PrecutPlan(
        precut=precut,
        count=sum(found.values()),
        lower_bound=bound,
        cuts=_written(found, sizes=(sizes, turned), unit=unit),
    )


def _check(demand: Demand, across: Fraction, along: Fraction) -> None:
    fits = demand.width <= across and demand.length <= along
    turned = demand.may_turn and demand.length <= across and demand.width <= along
    if not (fits or turned):
        raise PieceWiderThanFabric(label=demand.label, width=demand.width, usable_width=across)


def _way(sizes: Sizes, *, across: Fraction, reach: Fraction, strips_along: bool) -> Way:
    scale = scale_of([(size.width, size.length) for size in sizes], across)
    problem = problem_of(scale, sizes, PlanMode.TRIM)
    shapes = tuple(shape for shape in problem.shapes if scale.length(shape.height) <= reach)
    return Way(replace(problem, shapes=shapes), int(reach // scale.unit), strips_along)


def _written(
    found: dict[Pattern, int], *, sizes: tuple[Sizes, Sizes], unit: Fraction
) -> tuple[CutPrecut, ...]:
    """Deal the labels out, precut after precut; those that are alike are one with its number."""
    dealers: dict[bool, Dealer] = {}
    for pattern in found:
        along = pattern.way.strips_along
        dealers.setdefault(along, Dealer(pattern.way.problem, sizes[along]))
    shared = next(iter(dealers.values())).waiting
    for dealer in dealers.values():
        dealer.waiting = shared
    cut: dict[tuple[tuple[Strip, ...], bool], int] = {}
    for pattern, number in found.items():
        along = pattern.way.strips_along
        for _ in range(number):
            strips = tuple(
                Strip(height=column.height * unit, repeat=1, cuts=cuts)
                for column in pattern.strips
                if (cuts := dealers[along].cuts(column))
            )
            cut[strips, along] = cut.get((strips, along), 0) + 1
    return tuple(
        CutPrecut(strips=strips, strips_along=along, repeat=number) for (strips, along), number in cut.items()
    )
