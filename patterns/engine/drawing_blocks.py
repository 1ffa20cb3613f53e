"""Drawings of finished cloth: patches, units and blocks, lettered and hatched."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from patterns.engine.drawing import (
    SMALL_PATCH,
    THIN,
    Canvas,
    Frame,
    Pixel,
    Stroke,
    bounds,
    letter_disc,
    rational,
)
from patterns.engine.drawing_labels import best_spot, boxed, meeting
from patterns.engine.hatches import INK, Cloth, Cloths, edge_colour
from patterns.engine.parts import Shape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from patterns.engine.parts import Patch, Unit
    from patterns.engine.steps import Size

FAINT = Stroke(INK, Fraction(2, 5))

_SMALL_PICTURE = 160  # px; below it hatches are drawn finer
_LETTERED_PICTURE = 120  # px
_FEW_PATCHES = 5
_LETTER_ROOM = 7  # px from the letter's middle to the nearest edge


def draw_block(
    canvas: Canvas,
    patches: Sequence[Patch],
    size: Size,
    *,
    cloths: Cloths,
    width_px: int,
    letters: bool = True,
) -> None:
    """Draw a block `width_px` wide from patches in finished inches within `size`.

    Small pictures of many patches have no letters; a larger one is nearby.
    """
    letters = letters and (width_px >= _LETTERED_PICTURE or len(patches) <= _FEW_PATCHES)
    frame = Frame(scale=(width_px - 2) / rational(size[0]))
    canvas.page(Fraction(width_px), frame.length(size[1]) + 2)
    draw_patches(canvas, patches, frame=frame, cloths=cloths, letters=letters)


def draw_plate(
    canvas: Canvas, patches: Sequence[Patch], size: Size, *, cloths: Cloths, width_px: int
) -> None:
    """Draw a block for a page of many: flat colours, thin seams, one shape for each letter.

    It fits into a square `width_px` wide.
    """
    frame = Frame(scale=(width_px - 2) / rational(max(size)))
    canvas.page(frame.length(size[0]) + 2, frame.length(size[1]) + 2)
    outlines: dict[str, list[Sequence[Pixel]]] = {}
    pieced, shapes = apart(patches)
    for patch in pieced:
        outlines.setdefault(patch.fabric, []).append(frame.all(patch.points))
    for letter, drawn in outlines.items():
        canvas.polygons(drawn, fill=cloth_of(cloths, letter).colour, edge=FAINT)
    for shape in shapes:
        outline = frame.all(shape.points)
        canvas.polygon(outline, fill=cloth_of(cloths, shape.fabric).colour, edge=FAINT)


def draw_unit(canvas: Canvas, unit: Unit, *, cloths: Cloths, width_px: int, letters: bool = True) -> None:
    """Draw a unit `width_px` wide, from its own finished patches."""
    size = (unit.width, unit.height)
    draw_block(canvas, unit.patches, size, cloths=cloths, width_px=width_px, letters=letters)


def draw_patches(
    canvas: Canvas,
    patches: Sequence[Patch],
    *,
    frame: Frame,
    cloths: Cloths,
    letters: bool = True,
    tile: Fraction | None = None,
) -> None:
    """Draw patches as cloth: grounds and hatches, then pale edges, dark edges, letters on top.

    Appliqué shapes lie on all patches, in their order.
    """
    pieced, shapes = apart(patches)
    ground, layers = (
        [(frame.all(patch.points), cloth_of(cloths, patch.fabric)) for patch in drawn]
        for drawn in (pieced, shapes)
    )
    tile = tile or tile_for([point for outline, _ in (*ground, *layers) for point in outline])
    for layer in (ground, *([shape] for shape in layers)):
        for outline, cloth in layer:
            draw_ground(canvas, outline, cloth=cloth, tile=tile)
        draw_edges(canvas, [(each, edge_colour(cloth.colour)) for each, cloth in layer if is_large(each)])
    if letters:
        above = [outline for outline, _ in layers]
        for outline, cloth in ground:
            draw_letter(canvas, outline, cloth.letter, above=above)
        for number, (outline, cloth) in enumerate(layers, start=1):
            draw_letter(canvas, outline, cloth.letter, above=above[number:])


def apart(patches: Sequence[Patch]) -> tuple[list[Patch], list[Patch]]:
    """Tell what is pieced from the appliqué shapes on it."""
    return (
        [patch for patch in patches if not isinstance(patch, Shape)],
        [patch for patch in patches if isinstance(patch, Shape)],
    )


def draw_ground(canvas: Canvas, outline: Sequence[Pixel], *, cloth: Cloth, tile: Fraction) -> None:
    """Draw the flat colour of a patch with the hatch over it; a small one has a faint edge instead."""
    if is_large(outline):
        canvas.polygon(outline, fill=cloth.colour)
        canvas.hatch(outline, cloth=cloth, tile=tile)
    else:
        canvas.polygon(outline, fill=cloth.colour, edge=FAINT)


def is_large(outline: Sequence[Pixel]) -> bool:
    """Whether a patch is large enough on the page for hatch and edge."""
    left, top, right, bottom = bounds(outline)
    return min(right - left, bottom - top) >= SMALL_PATCH


def draw_edges(canvas: Canvas, edges: Sequence[tuple[Sequence[Pixel], str]]) -> None:
    """Draw edges of patches, the pale ones of dark cloth first: only dark beside dark shows them."""
    for outline, colour in sorted(edges, key=lambda edge: edge[1] == INK):
        canvas.polygon(outline, edge=Stroke(colour, THIN.width))


def draw_letter(
    canvas: Canvas, outline: Sequence[Pixel], letters: str, *, above: Sequence[Sequence[Pixel]] = ()
) -> None:
    """Set the letter into a patch that has room for it, where nothing lies `above` it."""
    room, spot = best_spot(outline, above=meeting(boxed(outline), map(boxed, above)), lines=(), taken=())
    if room >= letter_room(letters) ** 2:
        letter_disc(canvas, spot, letters)


def letter_room(letters: str) -> int:
    """Give how far the edges must be from the middle of a letter, px."""
    return _LETTER_ROOM + len(letters)


def tile_for(points: Sequence[Pixel]) -> Fraction:
    """Give the size of the hatch: 6 px, in small pictures 4."""
    left, _, right, _ = bounds(points)
    return Fraction(6 if right - left >= _SMALL_PICTURE else 4)


def cloth_of(cloths: Cloths, letter: str) -> Cloth:
    """Give the cloth of a letter; a letter without one is drawn plain white."""
    return cloths.get(letter) or Cloth(letter, "#FFFFFF", 0)
