"""What the page of the drawing board shows: pictures, what divides nothing, units, sewing order, drawings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from bom.domain.cloth import cloths_of
from bom.domain.lengths import units_of
from bom.web.drawing_found import found_in
from bom.web.year_pictures import first_colorway
from patterns.domain.boards import number_text, point_text
from patterns.domain.pictures import board_svg
from patterns.domain.wording import fractions_html, length_text
from patterns.engine.subdivision import Loose
from patterns.models import Block

if TYPE_CHECKING:
    from bom.models import Program
    from bom.web.drawing_forms import BoardForm
    from patterns.domain.boards import Board
    from patterns.engine.subdivision import LooseSeam

WIDE, SMALL, NUMBERED = 618, 350, 350  # px


def drawing_page(program: Program, board: Board, *, form: BoardForm, block: Block | None) -> dict[str, Any]:
    """Give the context of the drawing board."""
    divided = board.divided()
    colorway = first_colorway(program)
    cloths = cloths_of(colorway) if colorway else {}
    grid = {"across": number_text(board.width), "down": number_text(board.height)}
    name = _("{name}, drawn on a grid of {across} by {down}").format(name=board.name or _("Block"), **grid)
    numbers = _("The patches of {name}, numbered").format(name=board.name or _("the block"))
    step = program.quilt.block_size / board.width
    return {
        "board": board,
        "kept": block,
        "form": form,
        "grid": grid,
        "step": fractions_html(length_text(step, units_of(program))),
        "count": len(divided.patches),
        "picture": board_svg(divided, cloths=cloths, width_px=WIDE, name=name, shapes=board.applique),
        "small_picture": board_svg(divided, cloths=cloths, width_px=SMALL, name=name, shapes=board.applique),
        "numbered": board_svg(divided, cloths={}, width_px=NUMBERED, name=numbers, numbered=True),
        "loose": [_loose(each) for each in divided.loose],
        "found": found_in(program, board),
        "own": Block.objects.filter(owner=program.designer).only("pk", "name"),
        "traditional": Block.objects.filter(owner=None).count(),
    }


def _loose(loose: LooseSeam) -> str:
    places = "; ".join(map(point_text, loose.places))
    if loose.why == Loose.RING:
        words = _("The ring of seams at {places} hangs together with nothing and makes no patch.")
    else:
        words = _("A seam ends at {places} and meets nothing: it makes no patch yet.")
    return words.format(places=places)
