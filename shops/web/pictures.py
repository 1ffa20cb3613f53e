"""Pictures for the public page and the participant's: blocks, the quilt, and how it fills."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import get_language
from django.utils.translation import gettext as _

from bom.domain.cloth import cloths_of
from bom.domain.keeping import Kept, hash_of
from bom.domain.quilt_pictures import BORDER, SASHING, block_key, quilt_drawing, states_at
from patterns.domain.pictures import block_svg, quilt_svg
from patterns.domain.wording import length_text
from patterns.engine.drawing_quilts import PartState
from shops.domain.own_colorways import own_colorways
from shops.domain.progress import BlockState

if TYPE_CHECKING:
    from collections.abc import Mapping

    from django.utils.safestring import SafeString

    from bom.domain.work import ProgramWork
    from patterns.engine.drawing_quilts import QuiltDrawing
    from patterns.engine.hatches import Cloths
    from patterns.models import Colorway
    from shops.domain.year_rows import YearRow
    from shops.models import SignUp

PLATE_WIDE, PLATE_SMALL, FILL, MINE, BLOCK = 486, 358, 84, 358, 46  # px
_PUBLIC: Kept[dict[str, Any]] = Kept(most=16)  # by all that is drawn; about half a megabyte each
STATES = {
    BlockState.NOT_RELEASED: PartState.AHEAD,
    BlockState.RELEASED: PartState.RELEASED,
    BlockState.SEWN: PartState.SEWN,
}


def program_pictures(work: ProgramWork | None, colorway: Colorway | None) -> dict[str, Any]:
    """Draw the plate for desk and phone, and how the quilt fills from installment to installment."""
    if work is None or colorway is None:
        return {"fills": {}}
    cloths = cloths_of(colorway)
    key = hash_of([work.content_hash, get_language(), [str(cloth) for cloth in cloths.values()]])
    return _PUBLIC.get(key, lambda: _public_pictures(work, cloths))


def _public_pictures(work: ProgramWork, cloths: Cloths) -> dict[str, Any]:
    """Draw all pictures of the public page."""
    quilt = quilt_drawing(work)
    return {
        "top_size": quilt.size,
        "plate_wide": _plate(quilt, cloths, width_px=PLATE_WIDE),
        "plate_small": _plate(quilt, cloths, width_px=PLATE_SMALL),
        "fills": {
            each.number: quilt_svg(
                quilt,
                cloths=cloths,
                width_px=FILL,
                name=_("The quilt after installment {number}").format(number=each.number),
                states=states_at(work, each.number),
            )
            for each in work.installments
        },
    }


def my_quilt_picture(sign_up: SignUp, work: ProgramWork | None, rows: list[YearRow]) -> SafeString | str:
    """Draw the person's quilt: sewn in cloth, released in lines, the rest as numbers."""
    if work is None:
        return ""
    sewn = [block.placed.block.name for row in rows for block in row.blocks if block.is_sewn]
    return quilt_svg(
        quilt_drawing(work),
        cloths=_cloths(sign_up),
        width_px=MINE,
        name=_("My quilt; sewn: {names}").format(names=", ".join(sewn) or _("nothing yet")),
        states=_my_states(work, rows),
    )


def block_pictures(sign_up: SignUp, work: ProgramWork | None) -> dict[int, SafeString]:
    """Draw every block small, in the person's colorway, by the key of the placed block."""
    if work is None:
        return {}
    own = own_colorways(sign_up.terms)
    cloths = {each.number: cloths_of(own.at(sign_up.colorway, each.number)) for each in work.installments}
    parts = [(each.number, part) for each in work.installments for part in each.parts]
    return {
        part.placed_block_id: block_svg(
            part.drawing.cloth,
            (part.drawing.width, part.drawing.height),
            cloths=cloths[number],
            width_px=BLOCK,
            name=part.title,
            letters=False,
        )
        for number, part in parts
        if part.placed_block_id is not None and part.drawing is not None
    }


def _cloths(sign_up: SignUp) -> Cloths:
    """Give the cloths of the whole quilt: as they are at the end of the year."""
    last = sign_up.terms.program.installments.count()
    return cloths_of(own_colorways(sign_up.terms).at(sign_up.colorway, last))


def _my_states(work: ProgramWork, rows: list[YearRow]) -> Mapping[str, PartState]:
    """Say how each part is drawn; strips between and around the blocks wait for their installment."""
    released = max((row.installment.number for row in rows if row.is_open), default=0)
    strips = {
        key: PartState.RELEASED if state == PartState.SEWN else state
        for key, state in states_at(work, released).items()
        if key in (SASHING, BORDER)
    }
    blocks = {
        block_key((block.placed.row, block.placed.column)): STATES[block.state]
        for row in rows
        for block in row.blocks
    }
    return {**strips, **blocks}


def _plate(quilt: QuiltDrawing, cloths: Cloths, *, width_px: int) -> SafeString:
    """Draw the whole quilt with its finished size."""
    across, down = (_("{length} finished").format(length=length_text(side)) for side in quilt.size)
    name = _("The quilt, {across} wide and {down} high").format(across=across, down=down)
    return quilt_svg(quilt, cloths=cloths, width_px=width_px, name=name, measures=(across, down))
