"""Sizes in words: that a block's seams fall beside the marks of a ruler, and where its patches are thin."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from patterns.domain.boards import point_text
from patterns.domain.wording import length_text
from patterns.engine.measure import Units, write_inches
from patterns.engine.sizes import nearest_sizes, slivers

if TYPE_CHECKING:
    from fractions import Fraction

    from patterns.engine.blocks import Block
    from patterns.engine.sizes import NearestSizes, Sliver


def size_notes(
    drawing: Block, drawn: Block, *, step: Fraction, units: Units = Units.INCHES
) -> tuple[str, ...]:
    """Say what a size asks of its maker; places are the drawing's own, lengths those of the drawn block."""
    nearest = nearest_sizes(drawn, step)
    thin = tuple(sliver_text(sliver) for sliver in slivers(drawing))
    return (nearest_text(nearest, units), *thin) if nearest else thin


def nearest_text(found: NearestSizes, units: Units = Units.INCHES) -> str:
    """Say what the block's parts measure, and offer the sizes next to its own."""
    part = f"{write_inches(found.part)} in" if units == Units.INCHES else length_text(found.part, units)
    words = _("Its parts are {part}, beside the marks of a ruler.").format(part=part)
    offered = [length_text(size, units) for size in (found.below, found.above) if size is not None]
    if not offered:
        return words
    nearest = _("{below} or {above}").format(below=offered[0], above=offered[-1])
    return (
        words
        + " "
        + _("Nearest sizes that lie on them: {sizes}.").format(
            sizes=nearest if len(offered) > 1 else offered[0]
        )
    )


def sliver_text(found: Sliver) -> str:
    """Say which patch is thin, and where."""
    words = _("Patch {number} at {place} is thinner than a hundredth of the block: move its corners apart.")
    return words.format(number=found.patch + 1, place=point_text(found.where))
