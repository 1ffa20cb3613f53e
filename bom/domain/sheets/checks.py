"""What to measure before a block is put away, from the geometry of its drawing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.enums import PartKind
from patterns.domain.wording import fractions_html, length_text, size_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import PartWork
    from patterns.engine.blocks import Block
    from patterns.engine.surds import Number


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRow:
    """What to look at, what it should be, and what to do when it is not."""

    look_at: str
    should: SafeString
    otherwise: str


def check_rows(parts: tuple[PartWork, ...], variant: Variant) -> list[CheckRow]:
    """List the measures of every block of the installment."""
    rows: list[CheckRow] = []
    for part in parts:
        if part.kind == PartKind.BLOCK and part.drawing and part.recipe:
            rows.append(_size_row(part, variant))
            rows.extend(_edge_rows(part, variant))
    return list(dict.fromkeys(rows))


def seam_meets(drawing: Block, seam: Number) -> dict[str, tuple[Number, ...]]:
    """Give where seams meet the raw edge, side by side: inches from the left or top raw corner."""
    points = {point for patch in drawing.patches for point in patch.points}
    width, height = drawing.width, drawing.height
    sides = {
        "top": [x for x, y in points if y == 0 and 0 < x < width],
        "right": [y for x, y in points if x == width and 0 < y < height],
        "bottom": [x for x, y in points if y == height and 0 < x < width],
        "left": [y for x, y in points if x == 0 and 0 < y < height],
    }
    return {side: tuple(sorted(at + seam for at in marks)) for side, marks in sides.items()}


def _size_row(part: PartWork, variant: Variant) -> CheckRow:
    if part.recipe is None:
        raise ValueError(f"{part.title} is not sewn")
    seams = 2 * part.recipe.seam
    size = (part.recipe.finished[0] + seams, part.recipe.finished[1] + seams)
    words = _("{size} unfinished").format(size=size_text(size, variant.measures))
    remedy = _(
        "Too small: the seam is too wide. Too large: too narrow, or not pressed flat. "
        "Measure the units first."
    )
    return CheckRow(look_at=part.title, should=fractions_html(words), otherwise=remedy)


def _edge_rows(part: PartWork, variant: Variant) -> Iterator[CheckRow]:
    """Say where seams meet the edges, once when all four sides are alike."""
    if part.drawing is None or part.recipe is None:
        return
    meets = seam_meets(part.drawing, part.recipe.seam)
    if any(meets.values()):
        yield CheckRow(
            look_at=_("{block}, edges").format(block=part.title),
            should=fractions_html(_edge_words(meets, variant)),
            otherwise=_("Unpick the long seam only, pin the matching points, sew again."),
        )


def _edge_words(meets: dict[str, tuple[Number, ...]], variant: Variant) -> str:
    """Say the places side by side; a side that no seam meets is left out."""
    lengths = {
        side: ", ".join(length_text(mark, variant.measures) for mark in marks)
        for side, marks in meets.items()
        if marks
    }
    if set(lengths) == set(meets) and len(set(lengths.values())) == 1:
        words = _("On every side seams meet the raw edge at {lengths} from the corner")
        return words.format(lengths=lengths["top"])
    sides = {"top": _("top"), "right": _("right"), "bottom": _("bottom"), "left": _("left")}
    lines = [f"{sides[side]}: {words}" for side, words in lengths.items()]
    return "\n".join([_("Seams meet the raw edge, from the left or the top corner:"), *lines])
