"""The cloth that stands for each letter in one colorway, for every picture of a program."""

from __future__ import annotations

from typing import TYPE_CHECKING

from patterns.engine.hatches import Cloth, Cloths

if TYPE_CHECKING:
    from patterns.models import Colorway


def cloths_of(colorway: Colorway) -> Cloths:
    """Give letter -> cloth; hatches are the quilt's, colours and names the colorway's.

    Reads `fabrics` with letter and fabric: prefetch them where many are drawn.
    """
    rows = colorway.fabrics.all()
    if not getattr(colorway, "_prefetched_objects_cache", None):
        rows = colorway.fabrics.select_related("letter", "fabric")
    return {
        row.letter.letter: Cloth(row.letter.letter, row.fabric.colour, row.letter.hatch, row.fabric.name)
        for row in rows
    }
