"""How one drawing is made: its recipe, and what virtual sewing says of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from bom.domain.keeping import Kept, hash_of
from patterns.engine.blocks import block_as_data
from patterns.engine.errors import OtherSeamsNeeded
from patterns.engine.methods import NoMethod
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.steps import Phrase

if TYPE_CHECKING:
    from patterns.engine.blocks import Block
    from patterns.engine.parts import Assembly
    from patterns.engine.rebuild import Proof
    from patterns.engine.steps import Recipe
    from patterns.engine.units.base import Style


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A recipe and its proof, or the reason why there is none."""

    recipe: Recipe | None = None
    proof: Proof | None = None
    fault: Phrase | None = None


_kept: Kept[Made] = Kept(most=512)


def make(drawing: Block, *, order: Callable[[], Assembly], style: Style) -> Made:
    """Write the recipe of a drawing in finished inches and sew it virtually; kept by its content.

    A drawing that this style cannot make comes back with its fault, so that the rest of the program
    can still be shown.
    """
    key = hash_of([block_as_data(drawing), asdict(style)])
    return _kept.get(key, lambda: _make(drawing, order, style))


def prove_recipe(data: dict[str, Any], drawing: Block) -> Proof:
    """Sew a recipe's plain data and compare the result with the drawing it is of."""
    return prove(data, block_as_data(drawing))


def _make(drawing: Block, order: Callable[[], Assembly], style: Style) -> Made:
    try:
        finished = (drawing.width, drawing.height)
        recipe = write_recipe(order(), name=drawing.name, style=style, finished=finished)
    except OtherSeamsNeeded as error:
        words = "{block} needs a {needs}, which cannot be written yet: draw it with straight seams."
        return Made(fault=Phrase(words, {"block": drawing.name, "needs": error.needs}))
    except NoMethod as error:
        words = "No method of that name makes this unit of {block}: {unit}. Choose another method."
        return Made(fault=Phrase(words, {"block": drawing.name, "unit": error.unit}))
    return Made(recipe=recipe, proof=prove_recipe(recipe.as_data(), drawing))
