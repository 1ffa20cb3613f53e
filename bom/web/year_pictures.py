"""Small pictures of what each installment makes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.cloth import cloths_of
from bom.domain.lengths import units_of
from bom.domain.quilt_pictures import quilt_drawing, states_at
from bom.domain.records import read_colorways
from bom.enums import PartKind
from patterns.domain.pictures import block_svg, quilt_svg
from patterns.domain.wording import length_text

if TYPE_CHECKING:
    from django.utils.safestring import SafeString

    from bom.domain.work import InstallmentWork, PartWork, ProgramWork
    from bom.models import Program
    from patterns.engine.blocks import Block
    from patterns.engine.hatches import Cloths
    from patterns.models import Colorway, Quilt

ONE, TWO, MORE = 60, 35, 24  # px of a block beside none, one or more others
PLATES = {"quilt_picture": 440, "quilt_small": 340}  # px; the small one on a phone
OF_THE_TOP = {PartKind.SASHING, PartKind.BORDER}


def first_colorway(program: Program) -> Colorway | None:
    """Give the colorway that pages draw in, with its cloths: three queries."""
    return next(iter(read_colorways(program)), None)


def year_pictures(program: Program, work: ProgramWork | None) -> dict[int, list[SafeString]]:
    """Draw the blocks of every installment in the first colorway; the top where it is joined or bordered."""
    colorway = first_colorway(program)
    if work is None or colorway is None:
        return {}
    cloths = cloths_of(colorway)
    return {each.number: _pictures(each, work, cloths) for each in work.installments}


def quilt_plates(work: ProgramWork, cloths: Cloths, setting: Quilt) -> dict[str, SafeString]:
    """Draw the whole quilt with its measures, for a desk and for a phone."""
    drawing, units = quilt_drawing(work), units_of(setting.program)
    measures = (length_text(work.top.width, units), length_text(work.top.height, units))
    return {
        key: quilt_svg(drawing, cloths=cloths, width_px=width, name=setting.name, measures=measures)
        for key, width in PLATES.items()
    }


def small_block(part: PartWork, cloths: Cloths, *, width_px: int) -> SafeString | str:
    """Draw one part's block without letters."""
    return _block(part.drawing, part.title, cloths, width_px=width_px) if part.drawing else ""


def _block(drawing: Block, name: str, cloths: Cloths, *, width_px: int) -> SafeString:
    size = (drawing.width, drawing.height)
    return block_svg(drawing.cloth, size, cloths=cloths, width_px=width_px, name=name, letters=False)


def _pictures(month: InstallmentWork, work: ProgramWork, cloths: Cloths) -> list[SafeString]:
    blocks = [part for part in month.parts if part.kind == PartKind.BLOCK and part.drawing]
    width = {1: ONE, 2: TWO}.get(len(blocks), MORE)
    drawn = [_block(part.drawing, part.title, cloths, width_px=width) for part in blocks if part.drawing]
    if not blocks and any(part.kind in OF_THE_TOP for part in month.parts):
        name = _("The parts of the quilt that come in installment {number}").format(number=month.number)
        states = states_at(work, 0, lit=month.number)
        drawn.append(quilt_svg(quilt_drawing(work), cloths=cloths, width_px=ONE, name=name, states=states))
    return drawn
