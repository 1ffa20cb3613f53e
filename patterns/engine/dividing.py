"""How is a rectangle best divided by straight seams?  Each different sub-assembly is paid once.

The number and length of seams is the same for every straight order; what differs is the number of
*different* parts to make, so that is what the cost counts.  Costs are in hundredths; the weights are
our own, tuned on sixty traditional drawings.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, field
from itertools import chain
from typing import TypeAlias

from patterns.engine import geometry
from patterns.engine.geometry import Box, Coordinate
from patterns.engine.parts import UnitKind
from patterns.engine.recognise import Recognised, recognise
from patterns.engine.regions import Region, grid_boxes

Stops: TypeAlias = tuple[Coordinate, ...]
Cuts: TypeAlias = tuple[Stops, Stops]  # seams at x, seams at y

MOST_PATCHES_SEARCHED = 80
MOST_PATCHES_WITH_ROOTS = 12  # a root costs some fifty times as much as a whole number
MOST_CELLS = 20_000  # counted, not timed: the same drawing gives the same order on every machine
FEW_SEAMS = 4

_PIECE_COST, _UNIT_COST, _NODE_COST = 30, 100, 100
_STRIP_SET_COST, _STRIP_COST = 80, 10
_CELL_COST, _ROW_COST, _ASPECT_COST = 15, 5, 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A region is a unit, or is cut at `cuts`, or is a figure; `costs` holds each different form."""

    unit: Recognised | None
    cuts: Cuts
    costs: Mapping[Hashable, Coordinate]

    @property
    def total(self) -> Coordinate:
        """Add up the cost of each different form."""
        return sum(self.costs.values(), start=0)


@dataclass(slots=True)
class Divider:
    """Finds and remembers plans by form (`Region.least`)."""

    most_patches: int = MOST_PATCHES_SEARCHED  # in larger regions only all seams at once are tried
    figured: Callable[[Region], Mapping[Hashable, Coordinate]] | None = None  # costs of what has no seam
    plans: dict[Region, Plan] = field(default_factory=dict)
    stuck: set[Region] = field(default_factory=set)
    forms: dict[Region, Region] = field(default_factory=dict)  # of cells met before
    cells_seen: int = 0

    def plan(self, form: Region) -> Plan | None:
        """Give the best plan of a form, or None where straight seams do not divide it into units."""
        if form not in self.plans and form not in self.stuck:
            unit = recognise(form)
            plan = self._divided(form) if unit is None else _as_unit(form, unit)
            if plan is None:
                self.stuck.add(form)
            else:
                self.plans[form] = plan
        return self.plans.get(form)

    def _form(self, cell: Region) -> Region:
        if cell not in self.forms:
            self.forms[cell] = cell.least()[0]
        return self.forms[cell]

    def _divided(self, form: Region) -> Plan | None:
        if self.figured is not None and not form.seams(0) and not form.seams(1):
            return Plan(unit=None, cuts=((), ()), costs=self.figured(form))
        best: Plan | None = None
        cells: dict[Box, Plan | None] = {}
        for cuts in self._choices(form):
            plan = self._try(form, cuts, cells)
            if plan and (best is None or plan.total < best.total):
                best = plan
        return best

    def _choices(self, form: Region) -> Iterator[Cuts]:
        across, down = form.seams(0), form.seams(1)
        if not across and not down:
            return
        yield across, down
        if len(form.polygons) > self.most_patches:
            return
        for xs in _seam_sets(across, form.size[0]):
            for ys in _seam_sets(down, form.size[1]):
                if (xs or ys) and (xs, ys) != (across, down) and self.cells_seen < MOST_CELLS:
                    yield xs, ys

    def _try(self, form: Region, cuts: Cuts, cells: dict[Box, Plan | None]) -> Plan | None:
        rows = grid_boxes(form.size, *cuts)
        costs: dict[Hashable, Coordinate] = {form: _node_cost(form, rows=len(rows), columns=len(rows[0]))}
        for box in chain.from_iterable(rows):
            if box not in cells:
                self.cells_seen += 1
                cells[box] = self.plan(self._form(form.within(box)))
            plan = cells[box]
            if plan is None:
                return None
            costs.update(plan.costs)
        return Plan(unit=None, cuts=cuts, costs=costs)


def _as_unit(form: Region, unit: Recognised) -> Plan:
    cost = _UNIT_COST
    if unit.kind in {UnitKind.SQUARE, UnitKind.RECTANGLE}:
        cost = _PIECE_COST
    elif unit.kind is UnitKind.STRIP_SET:
        cost = _STRIP_SET_COST + _STRIP_COST * len(unit.fabrics)
    return Plan(unit=unit, cuts=((), ()), costs={form: cost})


def _node_cost(form: Region, *, rows: int, columns: int) -> Coordinate:
    cells = rows * columns - 1
    aspect = geometry.exact(max(form.size)) / min(form.size) - 1
    return _NODE_COST + _CELL_COST * cells + _ROW_COST * (min(rows, columns) - 1) + _ASPECT_COST * aspect


def _seam_sets(stops: Stops, length: Coordinate) -> list[Stops]:
    """Give the sets of parallel seams worth a try: none, all, equal parts, symmetric pairs, single ones."""
    allowed = set(stops)
    sets: list[Stops] = [(), stops]
    for count in range(2, len(stops) + 2):
        equal = tuple(geometry.exact(length) * i / count for i in range(1, count))
        if allowed.issuperset(equal):
            sets.append(tuple(stop for stop in stops if stop in equal))
    sets += [(stop, length - stop) for stop in stops if 2 * stop < length and length - stop in allowed]
    single = stops if len(stops) <= FEW_SEAMS else (stops[0], stops[len(stops) // 2], stops[-1])
    sets += [(stop,) for stop in single]
    return list(dict.fromkeys(sets))
