"""Faults of drawings in words: what to do, and where, for pages and commands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from patterns.domain.boards import point_text
from patterns.engine.errors import TooManyPatches

if TYPE_CHECKING:
    from patterns.engine.errors import DrawingError

REMEDIES = {  # by the engine's key
    "check-the-drawing": _("Check the drawing at this place."),
    "see-the-drawing-file": _("Give the field as the description of the drawing file has it."),
    "remove-the-field": _("Remove the field; it is not known."),
    "write-a-fraction-as-text": _('Write whole numbers, fractions "3/2", or one root "1+1/2r2".'),
    "give-a-size-above-zero": _("Give a size above zero."),
    "add-blocks-to-the-border": _("The border is too short for this side: take more blocks, or larger ones."),
    "fill-the-row": _("The row is narrower than the quilt: add to it, or name the fabric that fills it."),
    "use-letters-a-to-z": _("Name fabrics by letters: A to Z, then AA."),
    "give-the-letter-a-fabric": _("Give the letter a fabric."),
    "remove-the-patch": _("Remove the patch; it has no area."),
    "order-the-corners-round-the-patch": _("Give the corners in their order round the patch, each once."),
    "move-the-corner-inside-the-grid": _("Move the corner inside the grid."),
    "move-the-shared-edge": _("Two patches lie over each other: move their shared edge."),
    "close-the-gap": _("No patch covers this place: close the gap."),
    "redraw-with-straight-seams": _(
        "Redraw this part so that straight seams divide it, or use a known unit."
    ),
    "save-as-plain-svg": _(
        "Save it as plain SVG: no document type, scripts, clones, per cent, or style sheets beyond classes."
    ),
    "remove-the-reference": _("Remove the embedded picture, or the reference to another file."),
    "draw-it-as-several-blocks": _("This is more than one block holds: draw it as several."),
    "draw-fewer-patches": _(
        "It has {count} patches. A block may have {most}: nobody can follow a sheet for more. Draw it as "
        "several blocks."
    ),
    "draw-fewer-shapes": _(
        "It has {count} appliqué shapes. A block may have {most}. Draw it as several blocks."
    ),
    "draw-a-quarter-circle": _(
        "An arc is a quarter circle: give it a centre that lies square to, and as far from, the corner "
        "before it and the one after it."
    ),
    "draw-straight-or-quarter-circles": _(
        "Draw this edge as straight lines, or as quarter or half circles: arcs of a path, as wide as high."
    ),
    "turn-by-30-or-45-degrees": _("Turn by multiples of 30 or 45 degrees, and do not skew."),
    "fill-the-patches": _("Fill every patch with the colour of its fabric; lines alone are not read."),
    "move-the-corner-onto-a-grid": _(
        "Move this corner onto the grid of the others: up to 48 parts of the width; with 45 or 60 degree "
        "shapes write at least five decimals."
    ),
    "end-the-seam-inside-the-grid": _("End the seam inside the grid."),
    "give-two-different-ends": _("Give the seam two different ends."),
}


def advice(error: DrawingError) -> str:
    """Say what to do."""
    words = str(REMEDIES.get(error.remedy, REMEDIES["check-the-drawing"]))
    if isinstance(error, TooManyPatches):
        return words.format(count=error.count, most=error.most)
    return words


def remedy_text(error: DrawingError) -> str:
    """Say what to do, and where: the place on the grid, or the field of a file."""
    remedy = advice(error)
    if isinstance(error.where, str):
        return gettext("{remedy} ({where})").format(remedy=remedy, where=error.where)
    return gettext("At {place}: {remedy}").format(place=point_text(error.where), remedy=remedy)
