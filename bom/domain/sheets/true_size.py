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
from patterns.engine.true_size import TrueShape, foundation_shape, template_shape, turned

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import InstallmentWork
    from patterns.engine.drawing import Pixel
    from patterns.engine.hatches import Cloths
    from patterns.engine.steps import Piece

ROOM_PX = {Paper.LETTER: 734, Paper.A4: 798}  # below the words and the test squares of such a page
LARGE_WORDS_PX = 290  # more that these take in large print
LINE_PX, LARGE_LINE_PX = 18, 36  # of a caption
LETTER_PX, LARGE_LETTER_PX = 7, 13  # the mean width of a letter of it
CAPTION_GAP_PX = 8
GAP_PX = 14
LEAST_WIDTH_PX = 150  # of a caption
LEAST_SPLIT_PX = 330  # of a part, nearly always: half a page


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeRow:
    """One picture at its own size: a shape, or the part of it that one page holds."""

    picture: str
    alt: str
    name: str
    notes: str
    width: int  # px of picture and caption
    height: int
    is_foundation: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TruePage:
    """One page of shapes, in rows."""

    shelves: list[list[ShapeRow]]

    @property
    def rows(self) -> list[ShapeRow]:
        """Give all shapes of the page."""
        return list(chain.from_iterable(self.shelves))

    @property
    def has_templates(self) -> bool:
        """Whether a template is among them."""
        return not all(row.is_foundation for row in self.rows)

    @property
    def has_foundations(self) -> bool:
        """Whether a foundation is among them."""
        return any(row.is_foundation for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    """A shape with its words."""

    shape: TrueShape
    name: str
    words: tuple[str, ...]
    notes: tuple[str, ...]


def true_size_pages(mine: InstallmentWork, cloths: Cloths, variant: Variant) -> list[TruePage]:
    """Lay all shapes of an installment on pages, in rows; nothing is scaled, large ones are split."""
    named = chain(_templates(mine, cloths), _foundations(mine))
    rows = list(chain.from_iterable(_rows(each, variant) for each in named))
    return [TruePage(shelves=shelves) for shelves in _paged(rows, variant)]


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
    room = _room(variant)
    least = _caption_px(_notes(named, None), room[0], variant)
    shape, tiles = _fewest(named.shape, (room[0], room[1] - least - GAP_PX))
    if len(tiles) > 1:
        least = _caption_px(_notes(named, tiles[0], number=1, count=len(tiles)), LEAST_SPLIT_PX, variant)
        shape, tiles = _fewest(named.shape, (room[0], room[1] - least - GAP_PX))
    for number, tile in enumerate(tiles, 1):
        notes = _notes(named, tile if len(tiles) > 1 else None, number=number, count=len(tiles))
        width, height = (ceil(side) for side in tile.size)
        width = max(width, LEAST_WIDTH_PX)
        name = f"{named.name}: {notes}"
        yield ShapeRow(
            picture=data_uri(true_size_svg(shape, tile, words=named.words, name=name)),
            alt=name,
            name=named.name,
            notes=notes,
            width=width,
            height=height + _caption_px(f"{named.name}: {notes}", width, variant),
            is_foundation=bool(shape.patches),
        )


def _notes(named: _Named, tile: Tile | None, *, number: int = 1, count: int = 1) -> str:
    """Say what a shape is cut from, how often, and where this part of it is pasted on."""
    if tile is None:
        return "; ".join(named.notes)
    part = _("part {number} of {count}").format(number=number, count=count)
    letters = ", ".join(letter for letter in tile.joins if letter)
    paste = _("paste letter on letter along the dashed lines: {letters}").format(letters=letters)
    return "; ".join((part, *named.notes, paste))


def _caption_px(words: str, width: int, variant: Variant) -> int:
    """Reckon the height of a caption that runs below a picture of this width."""
    letter, line = (LARGE_LETTER_PX, LARGE_LINE_PX) if variant.is_large else (LETTER_PX, LINE_PX)
    return ceil(len(words) * letter / width) * line + CAPTION_GAP_PX


def _fewest(shape: TrueShape, room: tuple[int, int]) -> tuple[TrueShape, list[Tile]]:
    """Lay a shape upright, or on its side where that takes fewer parts."""
    ways = [(each, tiles_for(size_px(each), room)) for each in (shape, turned(shape))]
    return min(ways, key=lambda way: len(way[1]))


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
