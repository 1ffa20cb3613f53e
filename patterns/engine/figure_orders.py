"""The sewing order of a part of any outline: seams that cut to alike parts first, then what is set in.

As in `dividing`, each different part is paid once; costs are in hundredths, the weights our own.  A part
is one patch, or a rectangle that seams square to its sides divide into known units, or is divided by
straight seams at any angle.  Where none divides it, patches are merged to convex ones and some of these
peel off, each along one path.  Every partition can be peeled, so there is always an order.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from patterns.engine.dividing import Divider
from patterns.engine.errors import OtherSeamsNeeded
from patterns.engine.figure_forms import Form, Forms
from patterns.engine.figure_frames import Upright, upright
from patterns.engine.figure_joins import Joins
from patterns.engine.figure_numbers import Scale
from patterns.engine.figure_seams import Cells, congruent, peeled_cells, straight_cells, super_patches
from patterns.engine.figures import Mask, Sheet, mask_of, sheet
from patterns.engine.geometry import Coordinate
from patterns.engine.regions import Region
from patterns.engine.surds import Number

Costs: TypeAlias = Mapping[Hashable, Coordinate]

MOST_PATCHES_SEARCHED = 80
MOST_PARTS = 800  # counted, not timed: the same drawing gives the same order on every machine
MOST_STUCK = 60
FEW_PEELS, MANY_PEELS = 3, 10

_PATCH_COST, _NODE_COST, _CELL_COST, _SLANT_COST = 30, 100, 15, 40
_BEND_COST, _PARTIAL_COST, _FIGURE_COST = 1000, 500, 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """How a part is made: of one patch or one rectangle of rows (no cells), or of cells sewn in this order.

    Cells are lists of places in the form's order of patches, so that a cut fits all congruent parts.
    `costs` holds each different part once; `care` is what its set-in and partial seams cost, every one.
    """

    cells: tuple[tuple[int, ...], ...]
    costs: Costs
    care: int = 0

    @property
    def total(self) -> Coordinate:
        """Add up."""
        return sum(self.costs.values(), start=self.care)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Try:
    masks: tuple[Mask, ...]
    bends: int
    costs: Costs
    care: int

    @property
    def total(self) -> Coordinate:
        return sum(self.costs.values(), start=self.care)


@dataclass(slots=True, kw_only=True)
class Figures:
    """Finds and remembers how parts are made, by form; one for a whole drawing."""

    scale: Scale
    forms: Forms = field(default_factory=Forms)
    divider: Divider = field(default_factory=Divider)  # of rectangles, by seams square to their sides
    cuts: dict[int, Cut] = field(default_factory=dict)  # the best of a form
    tried: dict[tuple[int, tuple[tuple[int, ...], ...]], Cut] = field(default_factory=dict)
    met: dict[tuple[int, Mask, tuple[Mask, ...]], Cut] = field(default_factory=dict)  # by sheet and mask
    rows: dict[int, Upright | None] = field(default_factory=dict)  # by form: a rectangle that rows divide
    sheets: dict[Region, Sheet] = field(default_factory=dict)
    parts_seen: int = 0
    stuck_seen: int = 0

    def costs(self, region: Region) -> Costs:
        """Give what a rectangle that no seam square to its sides divides costs."""
        made = self.sheet(region)
        form = self.forms.form(made, made.whole)
        best = self.best(made, made.whole)
        return {**best.costs, ("figure", form.number): _FIGURE_COST + best.care}

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
        met = made.number, mask, atoms
        if met not in self.met:
            form = self.forms.form(made, mask)
            key = form.number, _places(form, atoms)
            if key not in self.tried:
                self.parts_seen += 1
                self.tried[key] = self._best(made, mask, atoms)
                self._keep(form, self.tried[key])
            self.met[met] = self.tried[key]
        return self.met[met]

    def _keep(self, form: Form, cut: Cut) -> None:
        known = self.cuts.get(form.number)
        if known is None or cut.total < known.total:
            self.cuts[form.number] = cut

    def _best(self, made: Sheet, mask: Mask, atoms: Sequence[Mask]) -> Cut:
        form = self.forms.form(made, mask)
        if mask & (mask - 1) == 0:
            return Cut(cells=(), costs={form.number: _PATCH_COST})
        rows = self.is_rows(made, mask)
        if rows is not None:
            return Cut(cells=(), costs=self.divider.plans[rows.region.least()[0]].costs)
        tries = [self._tried(made, mask, cells, atoms=atoms) for cells in self._straight(made, mask, atoms)]
        best = min(tries or self._stuck(made, mask, atoms), key=lambda each: each.total)
        return Cut(cells=_places(form, best.masks), costs=best.costs, care=best.care)

    def _straight(self, made: Sheet, mask: Mask, atoms: Sequence[Mask]) -> list[Cells]:
        found = straight_cells(made, mask, atoms)
        searched = self.parts_seen < MOST_PARTS and mask.bit_count() <= MOST_PATCHES_SEARCHED
        return found if searched else found[:1]

    def _stuck(self, made: Sheet, mask: Mask, atoms: Sequence[Mask]) -> list[_Try]:
        """Peel; where one way needs a set-in seam, look a little further for one that needs none."""
        atoms = atoms or super_patches(made, mask)
        number = {atom: self.forms.form(made, atom).number for atom in atoms}
        ways = peeled_cells(made, mask, congruent(atoms, number))
        if not ways:
            raise OtherSeamsNeeded(where=self._place(made, mask), patches=(), needs="template")
        self.stuck_seen += 1
        few, many = (FEW_PEELS, MANY_PEELS) if self.stuck_seen <= MOST_STUCK else (1, 1)
        tries: list[_Try] = []
        for cells in ways[:many]:
            if len(tries) >= few and (cells.bends or not all(each.bends for each in tries)):
                break
            tries.append(self._tried(made, mask, cells, atoms=atoms))
        return tries

    def _place(self, made: Sheet, mask: Mask) -> tuple[Number, Number]:
        x, y = made.spots[made.round(mask).corners[0]]
        return self.scale.number(x), self.scale.number(y)

    def _tried(self, made: Sheet, mask: Mask, cells: Cells, *, atoms: Sequence[Mask]) -> _Try:
        own = _NODE_COST + _CELL_COST * (len(cells.masks) - 1)
        own += 0 if made.is_rectangle(mask) else _SLANT_COST
        costs: dict[Hashable, Coordinate] = {self.forms.form(made, mask).number: own}
        bends, partials, care = 0, 0, 0
        for cell in cells.masks:
            best = self.best(made, cell, atoms)
            costs |= best.costs
            care += best.care
        if not cells.is_straight:
            bends, partials = self._bends(made, cells)
        care += _BEND_COST * bends + _PARTIAL_COST * partials
        return _Try(masks=cells.masks, bends=bends, costs=costs, care=care)

    def _bends(self, made: Sheet, cells: Cells) -> tuple[int, int]:
        """Count the bends that are set in, and the partial seams, as they will be sewn."""
        joins = Joins(sheet=made, cells_of=lambda mask: self.cells(made, mask)).sew(cells.masks)
        added = [join for join in joins.found if join.mask in cells.masks and join.path]
        return sum(len(join.path) - 2 for join in added), sum(len(join.closes) for join in added)


def _places(form: Form, masks: Sequence[Mask]) -> tuple[tuple[int, ...], ...]:
    return tuple(
        tuple(place for place, patch in enumerate(form.patches) if mask >> patch & 1) for mask in masks
    )
