"""The colouring page: the whole quilt in outlines, with its letters and nothing else."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _

from bom.domain.chain import work_of
from patterns.domain.pictures import block_svg, data_uri
from patterns.engine.drawing import rational
from patterns.engine.hatches import Cloth

if TYPE_CHECKING:
    from bom.domain.sheets.documents import Wish

PAPER, PLAIN = "#FFFFFF", 0  # the ground, and the hatch that draws nothing
TALLEST_PX = 690  # what the head and the list of letters leave of a page


def colouring_content(wish: Wish) -> dict[str, Any]:
    """Gather what the template sets.  ProgramError as `work_of`."""
    work, letters = work_of(wish.program), list(wish.program.quilt.letters.all())
    top = work.top.drawing
    used = set(top.letters)
    blank = {row.letter: Cloth(row.letter, PAPER, PLAIN) for row in letters}
    shape = Fraction(rational(top.width)) / rational(top.height)
    width = min(wish.variant.column_px, int(TALLEST_PX * shape))
    name = wish.program.quilt.name
    drawn = block_svg(top.patches, (top.width, top.height), cloths=blank, width_px=width, name=name)
    return {
        "picture": data_uri(drawn),
        "alt": _("{name} in outlines, with the letters of its fabrics").format(name=name),
        "letters": [(row.letter, row.role) for row in letters if row.letter in used],
    }
