"""Pictures for the public page and the participant's: blocks, the quilt, and how it fills."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from bom.domain.cloth import cloths_of
from bom.enums import PartKind
from patterns.domain.pictures import block_svg, quilt_svg
from patterns.domain.wording import length_text
from patterns.engine.drawing_quilts import PartState, QuiltPart
from shops.domain.progress import BlockState

if TYPE_CHECKING:
    from collections.abc import Iterable

    from django.utils.safestring import SafeString

    from bom.domain.work import ProgramWork
    from bom.models import Installment
    from patterns.models import Colorway
    from shops.domain.year_rows import YearRow
    from shops.models import SignUp

PLATE_WIDE, PLATE_SMALL, FILL, MINE, BLOCK = 486, 358, 84, 358, 46  # px
JOINING, BORDER = "joining", "border"
STATES = {
    BlockState.NOT_RELEASED: PartState.AHEAD,
    BlockState.RELEASED: PartState.RELEASED,
    BlockState.SEWN: PartState.SEWN,
}


def quilt_parts(work: ProgramWork, installments: Iterable[Installment]) -> list[QuiltPart]:
    """Cut the top into what comes in one installment: every block, the joining strips, the border."""
    parts = [(each.number, part) for each in installments for part in each.parts.all()]
    numbers = {part.kind: number for number, part in parts}
    placed = {
        (part.placed_block.row, part.placed_block.column): (number, part.placed_block_id)
        for number, part in parts
        if part.placed_block
    }
    blocks = []
    for laid in work.top.blocks:
        number, key = placed.get(laid.place, (0, "plain"))
        outlines = (laid.outline,)
        blocks.append(QuiltPart(key=str(key), number=number, outlines=outlines, patches=laid.patches))
    rest = (
        (JOINING, numbers.get(PartKind.SASHING, 0), work.top.joining),
        (BORDER, numbers.get(PartKind.BORDER, 0), work.top.border_strips),
    )
    strips = [
        QuiltPart(key=key, number=n, outlines=(), patches=patches) for key, n, patches in rest if patches
    ]
    return [*blocks, *strips]


def program_pictures(
    work: ProgramWork | None, installments: list[Installment], colorway: Colorway | None
) -> dict[str, Any]:
    """Draw the plate for desk and phone, and how the quilt fills from installment to installment."""
    if work is None or colorway is None:
        return {"fills": []}
    cloths, parts = cloths_of(colorway), quilt_parts(work, installments)
    size = (work.top.width, work.top.height)
    across, down = (_("{length} finished").format(length=length_text(side)) for side in size)
    name = _("The quilt, {across} wide and {down} high").format(across=across, down=down)

    def plate(width_px: int) -> SafeString:
        return quilt_svg(parts, size, cloths=cloths, width_px=width_px, name=name, measures=(across, down))

    def fill(number: int) -> SafeString:
        ahead = {part.key: PartState.AHEAD for part in parts if part.number > number}
        spoken = _("The quilt after installment {number}").format(number=number)
        return quilt_svg(parts, size, cloths=cloths, width_px=FILL, name=spoken, states=ahead)

    return {
        "top_size": size,
        "plate_wide": plate(PLATE_WIDE),
        "plate_small": plate(PLATE_SMALL),
        "fills": [(each, fill(each.number)) for each in installments],
    }


def my_quilt_picture(sign_up: SignUp, work: ProgramWork | None, rows: list[YearRow]) -> SafeString | str:
    """Draw the person's quilt: sewn in cloth, released in lines, the rest as numbers."""
    if work is None:
        return ""
    states = {str(block.placed.pk): STATES[block.state] for row in rows for block in row.blocks}
    opened = {row.installment.number for row in rows if row.is_open}
    parts = quilt_parts(work, [row.installment for row in rows])
    for part in parts:
        if part.key in (JOINING, BORDER):
            states[part.key] = PartState.RELEASED if part.number in opened else PartState.AHEAD
    sewn = [block.placed.block.name for row in rows for block in row.blocks if block.is_sewn]
    name = _("My quilt; sewn: {names}").format(names=", ".join(sewn) or _("nothing yet"))
    size = (work.top.width, work.top.height)
    return quilt_svg(parts, size, cloths=cloths_of(sign_up.colorway), width_px=MINE, name=name, states=states)


def block_pictures(sign_up: SignUp, work: ProgramWork | None) -> dict[int, SafeString]:
    """Draw every block small, in the person's colorway, by the key of the placed block."""
    if work is None:
        return {}
    cloths = cloths_of(sign_up.colorway)
    pictures = {}
    for part in (part for each in work.installments for part in each.parts):
        if part.placed_block_id is not None and part.drawing is not None:
            drawing = part.drawing
            pictures[part.placed_block_id] = block_svg(
                drawing.patches,
                (drawing.width, drawing.height),
                cloths=cloths,
                width_px=BLOCK,
                name=part.title,
                letters=False,
            )
    return pictures
