"""The quilt as parts that come month by month, ready to be drawn in any state."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bom.enums import PartKind
from patterns.engine.drawing_quilts import PartState, QuiltDrawing, QuiltPart

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bom.domain.work import ProgramWork
    from patterns.engine.parts import Patch

SASHING = "sashing"
BORDER = "border"


def block_key(place: tuple[int, int]) -> str:
    """Name a block's part by its row and column."""
    return f"block {place[0]}, {place[1]}"


def quilt_drawing(work: ProgramWork) -> QuiltDrawing:
    """Give the quilt's parts, each with the number of the installment that it comes in."""
    top, numbers = work.top, _numbers(work)
    parts = [_strips(BORDER, top.border_strips), _strips(SASHING, top.joining)]
    for laid in top.blocks:
        key = block_key(laid.place)
        parts.append(
            QuiltPart(key=key, number=numbers.get(key, 0), outlines=(laid.outline,), patches=laid.cloth)
        )
    return QuiltDrawing(size=(top.width, top.height), parts=tuple(part for part in parts if part.patches))


def states_at(work: ProgramWork, released: int, *, lit: int | None = None) -> Mapping[str, PartState]:
    """Give how each part is drawn when so many installments are out; `lit` alone is shown in cloth."""
    numbers = _numbers(work)
    if lit is not None:
        return {key: PartState.SEWN if n == lit else PartState.AHEAD for key, n in numbers.items()}
    return {key: PartState.SEWN if n <= released else PartState.AHEAD for key, n in numbers.items()}


def _strips(key: str, patches: tuple[Patch, ...]) -> QuiltPart:
    return QuiltPart(key=key, number=0, outlines=tuple(patch.points for patch in patches), patches=patches)


def _numbers(work: ProgramWork) -> dict[str, int]:
    """Give each part's installment, by key."""
    found: dict[str, int] = {}
    for installment in work.installments:
        for part in installment.parts:
            if part.place:
                found[block_key(part.place)] = installment.number
            elif part.kind in (PartKind.SASHING, PartKind.BORDER):
                found[SASHING if part.kind == PartKind.SASHING else BORDER] = installment.number
    return found
