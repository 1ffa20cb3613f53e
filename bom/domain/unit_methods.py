"""The units of a placed block and the methods that can make each of them."""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING

from bom.domain.chain import work_of
from bom.domain.drawings import placed_drawing
from bom.domain.keeping import Kept, hash_of
from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_as_data
from patterns.engine.errors import PatternError
from patterns.engine.methods import admitted_methods, unit_key
from patterns.engine.parts import Unit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from patterns.engine.blocks import Block
    from patterns.engine.methods import Style
    from patterns.models import PlacedBlock


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitChoice:
    """A distinct unit of a block: how many are made, and the methods that can make it, preferred first."""

    unit: Unit
    key: str
    make: int
    methods: tuple[str, ...]


_kept: Kept[tuple[UnitChoice, ...]] = Kept(most=256)


def unit_choices(drawing: Block, style: Style) -> tuple[UnitChoice, ...]:
    """List the units of a drawing in sewing order; empty where it cannot be sewn."""
    plain = replace(style, overrides={})
    key = hash_of([block_as_data(drawing), asdict(plain)])
    return _kept.get(key, lambda: _choices(drawing, plain))


def methods_of(placed: PlacedBlock, chosen: Sequence[str]) -> dict[str, str]:
    """Give the overrides for the methods chosen unit by unit, for the block as it lies now.

    Only what differs from the preferred method is kept.  Where the drawing has other units than those
    that were chosen for, none is.
    """
    style = work_of(placed.quilt.program).style
    choices = unit_choices(placed_drawing(placed), style)
    if len(choices) != len(chosen):
        return {}
    pairs = zip(choices, chosen, strict=True)
    return {
        each.key: method for each, method in pairs if method in each.methods and method != each.methods[0]
    }


def _choices(drawing: Block, style: Style) -> tuple[UnitChoice, ...]:
    try:
        order = sewing_order(drawing)
    except PatternError:
        return ()
    units = [part for part in order.parts if isinstance(part, Unit)]
    return tuple(
        UnitChoice(
            unit=unit,
            key=unit_key(unit),
            make=order.make[unit.id],
            methods=admitted_methods(unit, order.make[unit.id], style),
        )
        for unit in units
    )
