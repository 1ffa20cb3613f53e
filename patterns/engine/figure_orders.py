"""The sewing order of a part of any outline: seams that cut to alike parts first, then what is set in.

As in `dividing`, each different part is paid once; costs are in hundredths, the weights our own.  A part
is one patch, or a rectangle that seams square to its sides divide into known units, or is divided by
straight seams at any angle.  Where none divides it, patches are merged to convex ones and some of these
peel off, each along one path.  Every partition can be peeled, so there is always an order.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from patterns.engine.dividing import Divider
from patterns.engine.errors import OtherSeamsNeeded
from patterns.engine.figure_forms import Form, Forms
from patterns.engine.figure_frames import Upright, upright
from patterns.engine.figure_numbers import Scale
from patterns.engine.figure_seams import Cells, congruent, peeled_cells, straight_cells, super_patches
from patterns.engine.figures import Mask, Sheet, mask_of, sheet
from patterns.engine.geometry import Coordinate
from patterns.engine.regions import Region
from patterns.engine.surds import Number

Costs: TypeAlias = Mapping[Hashable, Coordinate]

MOST_PATCHES_SEARCHED = 80
MOST_PARTS = 1_500  # counted, not timed: the same drawing gives the same order on every machine
MOST_STUCK = 60
FEW_PEELS = 3

_PATCH_COST, _NODE_COST, _CELL_COST, _SLANT_COST = 30, 100, 15, 40
_BEND_COST, _PARTIAL_COST, _FIGURE_COST = 300, 120, 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """How a part is made: of one patch or one rectangle of rows (no cells), or of cells sewn in this order.

    Cells are lists of places in the form's order of patches, so that a cut fits all congruent parts.
    """

    cells: tuple[tuple[int, ...], ...]
    costs: Costs

    @property
    def total(self) -> Coordinate:
        """Add up the cost of each different part."""
        return sum(self.costs.values(), start=0)


@dataclass(slots=True, kw_only=True)
class Figures:
    """Finds and remembers how parts are made, by form; one for a whole drawing."""

    scale: Scale
    forms: Forms = field(default_factory=Forms)
    divider: Divider = field(default_factory=Divider)  # of rectangles, by seams square to their sides
    cuts: dict[int, Cut] = field(default_factory=dict)  # the best of a form
    tried: dict[tuple[int, tuple[tuple[int, ...], ...]], Cut] = field(default_factory=dict)
    rows: dict[int, Upright | None] = field(default_factory=dict)  # by form: a rectangle that rows divide
    sheets: dict[Region, Sheet] = field(default_factory=dict)
    parts_seen: int = 0
    stuck_seen: int = 0

    def costs(self, region: Region) -> Costs:
        """Give what a rectangle that no seam square to its sides divides costs."""
        made = self.sheet(region)
        form = self.forms.form(made, made.whole)
        return {**self.best(made, made.whole).costs, ("figure", form.number): _FIGURE_COST}

    def sheet(self, region: Region) -> Sheet:
        """Give the net of a rectangle of patches."""
        if region not in self.sheets:
            whole = self.scale.whole
            polygons = [[(whole(x), whole(y)) for x, y in polygon] for polygon in region.polygons]
            self.sheets[region] = sheet(polygons, region.letters, number=len(self.sheets))
        return self.sheets[region]

    def cells(self, made: Sheet, mask: Mask) -> tuple[Mask, ...]:
        """Give the parts a part is sewn from, in order; none for one patch or a rectangle of rows."""
        form = self.forms.form(made, mask)
        if form.number not in self.cuts:
            self.best(made, mask)
        cut = self.cuts[form.number]
        return tuple(mask_of([form.patches[place] for place in cell]) for cell in cut.cells)

    def is_rows(self, made: Sheet, mask: Mask) -> Upright | None:
        """Give the upright rectangle of a part that rows of known units make."""
        form = self.forms.form(made, mask)
        if form.number not in self.rows:
            found = upright(made, mask, self.scale)
            if found is not None and self.divider.plan(found.region.least()[0]) is None:
                found = None
            self.rows[form.number] = found
        return upright(made, mask, self.scale) if self.rows[form.number] else None

    def best(self, made: Sheet, mask: Mask, atoms: Sequence[Mask] = ()) -> Cut:
        """Find the best way to make a part; no seam cuts one of the atoms, if there are any."""
        atoms = tuple(atom for atom in atoms if atom & mask)
        if len(atoms) == 1:
            atoms = ()
        form = self.forms.form(made, mask)
        key = form.number, _places(form, atoms)
        if key not in self.tried:
            self.parts_seen += 1
            cut = self._best(made, mask, atoms)
            self.tried[key] = cut
            known = self.cuts.get(form.number)
            if known is None or cut.total < known.total:
                self.cuts[form.number] = cut
        return self.tried[key]

    def _best(self, made: Sheet, mask: Mask, atoms: Sequence[Mask]) -> Cut:
        form = self.forms.form(made, mask)
        if mask & (mask - 1) == 0:
            return Cut(cells=(), costs={form.number: _PATCH_COST})
        rows = self.is_rows(made, mask)
        if rows is not None:
            return Cut(cells=(), costs=self.divider.plans[rows.region.least()[0]].costs)
        tries = [self._cost(made, mask, cells, atoms=atoms) for cells in self._straight(made, mask, atoms)]
        if not tries:
            tries = list(self._stuck(made, mask, atoms))
        return min(tries, key=lambda cut: cut.total)

    def _straight(self, made: Sheet, mask: Mask, atoms: Sequence[Mask]) -> list[Cells]:
        found = straight_cells(made, mask, atoms)
        searched = self.parts_seen < MOST_PARTS and mask.bit_count() <= MOST_PATCHES_SEARCHED
        return found if searched else found[:1]

    def _stuck(self, made: Sheet, mask: Mask, atoms: Sequence[Mask]) -> Iterator[Cut]:
        atoms = atoms or super_patches(made, mask)
        number = {atom: self.forms.form(made, atom).number for atom in atoms}
        tries = peeled_cells(made, mask, congruent(atoms, number))
        if not tries:
            raise OtherSeamsNeeded(where=self._place(made, mask), patches=(), needs="template")
        self.stuck_seen += 1
        few = FEW_PEELS if self.stuck_seen <= MOST_STUCK else 1
        for cells in tries[:few]:
            yield self._cost(made, mask, cells, atoms=atoms)

    def _place(self, made: Sheet, mask: Mask) -> tuple[Number, Number]:
        x, y = made.spots[made.round(mask).corners[0]]
        return self.scale.number(x), self.scale.number(y)

    def _cost(self, made: Sheet, mask: Mask, cells: Cells, *, atoms: Sequence[Mask]) -> Cut:
        form = self.forms.form(made, mask)
        own = _NODE_COST + _CELL_COST * (len(cells.masks) - 1)
        own += 0 if made.is_rectangle(mask) else _SLANT_COST
        own += _BEND_COST * cells.bends + _PARTIAL_COST * cells.partials
        costs: dict[Hashable, Coordinate] = {form.number: own}
        for cell in cells.masks:
            costs |= self.best(made, cell, atoms).costs
        return Cut(cells=_places(form, cells.masks), costs=costs)


def _places(form: Form, masks: Sequence[Mask]) -> tuple[tuple[int, ...], ...]:
    return tuple(
        tuple(place for place, patch in enumerate(form.patches) if mask >> patch & 1) for mask in masks
    )
