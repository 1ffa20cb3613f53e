"""How one drawing is made: its recipe, and what virtual sewing says of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from bom.domain.keeping import Kept, hash_of
from patterns.engine.blocks import block_as_data
from patterns.engine.errors import OtherSeamsNeeded
from patterns.engine.methods import NoMethod
from patterns.engine.pictures import illustrate
from patterns.engine.rebuild import prove
from patterns.engine.recipes import write_recipe
from patterns.engine.steps import Phrase
from patterns.engine.units.slices import FROM_STRIPS

if TYPE_CHECKING:
    from bom.domain.work import PartWork
    from patterns.engine.blocks import Block
    from patterns.engine.parts import Assembly
    from patterns.engine.rebuild import Proof
    from patterns.engine.steps import Picture, Recipe
    from patterns.engine.units.base import Style


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """A recipe and its proof, or the reason why there is none."""

    recipe: Recipe | None = None
    proof: Proof | None = None
    fault: Phrase | None = None


NARROWEST = Fraction(20)  # inches of usable width: half of what quilting cotton has
OF_A_WIDTH = ("from strip sets", FROM_STRIPS)  # methods whose cutting follows the width of the fabric

_kept: Kept[Made] = Kept(most=512)
_pictures: Kept[list[tuple[Picture, ...]]] = Kept(most=128)


def make(drawing: Block, *, order: Callable[[], Assembly], style: Style) -> Made:
    """Write the recipe of a drawing in finished inches and sew it virtually; kept by its content.

    How wide the fabric is matters where strip sets are sewn, where strips are cut at an angle, and where
    a piece is longer than it; what is small and has none of these is the same on every fabric.
    A drawing that this style cannot make comes back with its fault, so that the rest of the program
    can still be shown.
    """
    shape = block_as_data(drawing)
    if max(drawing.width, drawing.height) + 2 * style.seam <= NARROWEST <= style.usable_width:
        usual = replace(style, usable_width=NARROWEST)
        found = _of(shape, drawing, order=order, style=usual)
        if found.recipe and not any(row.method in OF_A_WIDTH for row in found.recipe.units):
            return found
    return _of(shape, drawing, order=order, style=style)


def _of(shape: dict[str, Any], drawing: Block, *, order: Callable[[], Assembly], style: Style) -> Made:
    return _kept.get(hash_of([shape, asdict(style)]), lambda: _make(drawing, order, style))


def illustrated(part: PartWork) -> Recipe:
    """Give the recipe of a sewn part with its pictures; they are drawn when somebody looks, and kept.

    ValueError where the part has no recipe.
    """
    recipe, style = part.recipe, part.style
    if recipe is None or style is None:
        raise ValueError(f"{part.kind} has no recipe")
    units = [(row.part, row.kind) for row in recipe.units]
    key = hash_of([recipe.as_data(), units, asdict(style)])
    pictures = _pictures.get(key, lambda: [step.pictures for step in illustrate(recipe, style).steps])
    steps = zip(recipe.steps, pictures, strict=True)
    return replace(recipe, steps=tuple(replace(step, pictures=drawn) for step, drawn in steps))


def prove_recipe(data: dict[str, Any], drawing: Block) -> Proof:
    """Sew a recipe's plain data and compare the result with the drawing it is of."""
    return prove(data, block_as_data(drawing))


def _drawn_later(recipe: Recipe, _style: Style) -> Recipe:
    """Leave the pictures out: most that is asked of a recipe needs none, and they take the longest."""
    return recipe


def _make(drawing: Block, order: Callable[[], Assembly], style: Style) -> Made:
    try:
        finished = (drawing.width, drawing.height)
        recipe = write_recipe(order(), name=drawing.name, style=style, finished=finished, draw=_drawn_later)
    except OtherSeamsNeeded as error:
        words = "{block} needs a {needs}, which cannot be written yet: draw it with straight seams."
        return Made(fault=Phrase(words, {"block": drawing.name, "needs": error.needs}))
    except NoMethod as error:
        words = "No method of that name makes this unit of {block}: {unit}. Choose another method."
        return Made(fault=Phrase(words, {"block": drawing.name, "unit": error.unit}))
    return Made(recipe=recipe, proof=prove_recipe(recipe.as_data(), drawing))
