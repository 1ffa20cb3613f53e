"""Pages of templates and foundations at 1:1: which shape stands on which page, and its words."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain
from math import ceil
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bom.enums import Paper
from patterns.domain.pictures import data_uri, true_size_svg
from patterns.engine.drawing_true_size import AIR, Tile, size_px
from patterns.engine.likeness import are_mirrored
from patterns.engine.true_size import TrueShape, foundation_shape, template_shape

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import InstallmentWork
    from patterns.engine.drawing import Pixel
    from patterns.engine.hatches import Cloths
    from patterns.engine.steps import Piece

ROOM_PX = {Paper.LETTER: 620, Paper.A4: 680}  # below the words and the test squares of such a page
LARGE_WORDS_PX = 150  # more that these take in large print
CAPTION_PX, LARGE_CAPTION_PX = 58, 150
GAP_PX = 14
LEAST_WIDTH_PX = 150  # of a caption


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeRow:
    """One picture at its own size: a shape, or the part of it that one page holds."""

    picture: str
    alt: str
    name: str
    notes: tuple[str, ...]
    width: int  # px of picture and caption
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    """A shape with its words."""

    shape: TrueShape
    name: str
    words: tuple[str, ...]
    notes: tuple[str, ...]


def true_size_pages(mine: InstallmentWork, cloths: Cloths, variant: Variant) -> list[list[list[ShapeRow]]]:
    """Lay all shapes of an installment on pages, in rows; nothing is scaled, large ones are split."""
    named = chain(_templates(mine, cloths), _foundations(mine))
    return _paged(list(chain.from_iterable(_rows(each, variant) for each in named)), variant)


def _templates(mine: InstallmentWork, cloths: Cloths) -> Iterator[_Named]:
    seams = {piece.id: part.recipe.seam for part in mine.parts if part.recipe for piece in part.recipe.pieces}
    cut = [piece for pieces in mine.pieces.values() for piece in pieces if piece.outline]
    for number, piece in enumerate(cut):
        count = ngettext("cut {count}", "cut {count}", piece.count).format(count=piece.count)
        yield _Named(
            shape=template_shape(piece, seams[piece.id]),
            name=_("Template {piece}").format(piece=piece.id),
            words=(piece.id, count),
            notes=(f"{cloths[piece.fabric].name}, {count}", *_mirror_notes(piece, cut[:number])),
        )


def _mirror_notes(piece: Piece, earlier: Iterable[Piece]) -> Iterator[str]:
    """Say of which template before it a template is the mirror image."""
    for other in earlier:
        if are_mirrored(piece.outline, other.outline):
            yield _("mirror image of {piece}").format(piece=other.id)


def _foundations(mine: InstallmentWork) -> Iterator[_Named]:
    """Give every foundation with the number of its step, as the steps of the installment are counted."""
    recipes = [part.recipe for part in mine.parts if part.recipe]
    steps = ((recipe, step) for recipe in recipes for step in recipe.steps)
    for number, (recipe, step) in enumerate(steps, 1):
        fabrics = {piece.id: piece.fabric for piece in recipe.pieces}
        for row in step.operations:
            if row["op"] == "foundation":
                times = int(row["times"])
                copies = ngettext("print it {count} time", "print it {count} times", times)
                yield _Named(
                    shape=foundation_shape(row, recipe.seam, fabrics),
                    name=_("Foundation of step {number}").format(number=number),
                    words=(),
                    notes=(copies.format(count=times), _("in mirror image: this is the side you sew on")),
                )


def _rows(named: _Named, variant: Variant) -> Iterator[ShapeRow]:
    room, caption = _room(variant), LARGE_CAPTION_PX if variant.is_large else CAPTION_PX
    tiles = tiles_for(size_px(named.shape), (room[0], room[1] - caption - GAP_PX))
    for number, tile in enumerate(tiles, 1):
        part = _("part {number} of {count}").format(number=number, count=len(tiles))
        notes = named.notes
        if len(tiles) > 1:
            letters = ", ".join(letter for letter in tile.joins if letter)
            paste = _("paste letter on letter along the dashed lines: {letters}").format(letters=letters)
            notes = (part, *notes, paste)
        name = ", ".join((named.name, *notes))
        drawn = true_size_svg(named.shape, tile, words=named.words, name=name)
        width, height = (ceil(side) for side in tile.size)
        yield ShapeRow(
            picture=data_uri(drawn),
            alt=name,
            name=named.name,
            notes=notes,
            width=max(width, LEAST_WIDTH_PX),
            height=height + caption,
        )


def _room(variant: Variant) -> tuple[int, int]:
    """Give the width and height for rows on a page, px."""
    words = LARGE_WORDS_PX if variant.is_large else 0
    return variant.column_px - 2, ROOM_PX[Paper(variant.paper)] - words


def tiles_for(size: Pixel, room: tuple[int, int]) -> list[Tile]:
    """Split a picture into parts that fit a page, joined along lines named a, b, c; one where it fits."""
    width, height = room[0] - 2 * AIR, room[1] - 2 * AIR
    columns, rows = (
        max(1, ceil((side - 2 * AIR) / most)) for side, most in zip(size, (width, height), strict=True)
    )
    inner = ((size[0] - 2 * AIR) / columns, (size[1] - 2 * AIR) / rows)
    names = {cut: chr(ord("a") + n) for n, cut in enumerate(_joins(columns, rows))}
    return [
        Tile(
            corner=(column * inner[0], row * inner[1]),
            size=(inner[0] + 2 * AIR, inner[1] + 2 * AIR),
            joins=(
                names.get((column, row, "left"), ""),
                names.get((column, row, "top"), ""),
                names.get((column + 1, row, "left"), ""),
                names.get((column, row + 1, "top"), ""),
            ),
        )
        for row in range(rows)
        for column in range(columns)
    ]


def _joins(columns: int, rows: int) -> Iterator[tuple[int, int, str]]:
    """Name every join by the tile after it and the side of that tile."""
    for row in range(rows):
        for column in range(columns):
            if column:
                yield column, row, "left"
            if row:
                yield column, row, "top"


def _paged(rows: Sequence[ShapeRow], variant: Variant) -> list[list[list[ShapeRow]]]:
    """Fill rows from the left and pages from the top, in order."""
    width, height = _room(variant)
    pages: list[list[list[ShapeRow]]] = []
    for row in rows:
        if pages and sum(each.width + GAP_PX for each in pages[-1][-1]) + row.width <= width:
            shelf = [*pages[-1][-1], row]
            if _height([*pages[-1][:-1], shelf]) <= height:
                pages[-1][-1] = shelf
                continue
        if pages and _height([*pages[-1], [row]]) <= height:
            pages[-1].append([row])
        else:
            pages.append([[row]])
    return pages


def _height(shelves: Sequence[Sequence[ShapeRow]]) -> int:
    return sum(max(row.height for row in shelf) + GAP_PX for shelf in shelves)
