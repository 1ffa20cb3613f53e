"""The sums of a recipe that must agree: pieces less spares are sewn, patches fill the block."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.parts import Hand
from patterns.engine.rebuild import finished_area, sew
from patterns.engine.steps import Recipe
from patterns.engine.surds import Number

Account: TypeAlias = tuple[int, int, int]  # out of the pieces cut, named spares, sewn into the whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Reconciliation:
    """Patches per fabric and units per hand: made, spare, sewn; and finished areas in square inches.

    `made` comes from virtual sewing, `spare` from the recipe's named spares, `sewn` from its table of
    units: three sources that have to agree.
    """

    fabrics: dict[str, Account]
    hands: dict[tuple[str, Hand], Account]  # by part and hand
    area_of_patches: Number
    area_of_block: Number

    @property
    def reconciles(self) -> bool:
        """Say whether made less spare is sewn everywhere, and the patches fill the block exactly."""
        accounts = (*self.fabrics.values(), *self.hands.values())
        return all(made - spare == sewn for made, spare, sewn in accounts) and (
            self.area_of_patches == self.area_of_block
        )


def reconcile(recipe: Recipe) -> Reconciliation:
    """Compare what virtual sewing makes of the pieces with the named spares and the table of units."""
    sewn = sew(recipe.as_data())
    made: Counter[str] = sewn.patches(brought=recipe.given)
    spare: Counter[str] = Counter()
    for row in recipe.spares:
        spare.update({letter: row.count * n for letter, n in Counter(row.fabrics).items()})
    used = Counter(shape.fabric for shape in recipe.applique)
    for unit in recipe.units:
        used.update({letter: unit.count * n for letter, n in Counter(unit.fabrics).items()})
    fabrics = {
        letter: (made[letter], spare[letter], used[letter]) for letter in sorted({*made, *spare, *used})
    }
    width, height = recipe.finished
    return Reconciliation(
        fabrics=fabrics,
        hands=_by_hand(recipe, sewn.made),
        area_of_patches=finished_area(sewn, recipe.seam) if sewn.whole else Fraction(0),
        area_of_block=width * height,
    )


def _by_hand(recipe: Recipe, made: Counter[str]) -> dict[tuple[str, Hand], Account]:
    """Count the units that are sewn, part by part; squares and rectangles are pieces and counted as such."""
    spare = {row.ref: row.count for row in recipe.spares}
    return {
        (unit.part, unit.hand): (made[unit.part], spare.get(unit.part, 0), unit.count)
        for unit in recipe.units
        if unit.part in made
    }
