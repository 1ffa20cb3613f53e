"""What the program finds in a drawing: units and sewing order at the size of a place, or why none."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.lengths import units_of
from bom.domain.making import make
from bom.web.installment_parts import unit_name
from bom.web.year_rows import work_or_fault
from patterns.domain.boards import point_text
from patterns.domain.drawing_words import remedy_text
from patterns.domain.size_words import size_notes
from patterns.domain.wording import fractions_html, measure_html, say, size_text
from patterns.engine.assembly import sewing_order
from patterns.engine.errors import DrawingError, OtherSeamsNeeded
from patterns.engine.methods import Style

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.making import Made
    from bom.models import Program
    from patterns.domain.boards import Board
    from patterns.engine.blocks import Block
    from patterns.engine.surds import Number


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Units and steps of a drawing, or the reason why there are none."""

    size: str = ""
    units: tuple[tuple[str, int, SafeString], ...] = ()  # name, how many, finished size
    steps: tuple[SafeString, ...] = ()
    notes: tuple[str, ...] = ()  # of its size
    reason: str = ""
    is_proved: bool = False


def found_in(program: Program, board: Board) -> Found:
    """Find the sewing order of a drawing as large as a place of the quilt."""
    side = program.quilt.block_size
    try:
        block = board.block()
        drawn = block.at_size(side, side * (block.height / block.width))
        notes = size_notes(block, drawn, step=program.cutting_step, units=units_of(program))
        return replace(_found(program, drawn), notes=notes)
    except OtherSeamsNeeded as error:
        return Found(reason=_needed(error, step=side / board.width))
    except DrawingError as error:
        return Found(reason=remedy_text(error))


def _found(program: Program, drawn: Block) -> Found:
    work, _fault = work_or_fault(program)
    order = sewing_order(drawn)
    made = make(drawn, order=lambda: order, style=work.style if work else Style())
    return _shown(program, drawn, made)


def _shown(program: Program, drawn: Block, made: Made) -> Found:
    units = units_of(program)
    size = size_text((drawn.width, drawn.height), units)
    if made.recipe is None:
        return Found(size=size, reason=say(made.fault, units) if made.fault else "")
    return Found(
        size=size,
        units=tuple(
            (unit_name(row.kind, row.fabrics), row.count, measure_html(size_text(row.finished, units)))
            for row in made.recipe.units
        ),
        steps=tuple(fractions_html(say(step.title, units)) for step in made.recipe.steps),
        is_proved=made.proof is not None and made.proof.goes_together,
    )


def _needed(error: OtherSeamsNeeded, *, step: Number) -> str:
    words = _("From {place} it needs a {needs}: seams from side to side do not divide that part.")
    if isinstance(error.where, str):
        return words.format(place=error.where, needs=_(error.needs))
    x, y = error.where
    return words.format(place=point_text((x / step, y / step)), needs=_(error.needs))
