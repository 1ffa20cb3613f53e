"""The sewing order of a block, found from its drawing: units, rows, block; alike parts made together."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from patterns.engine import geometry
from patterns.engine.blocks import Block
from patterns.engine.dividing import MOST_PATCHES_SEARCHED, MOST_PATCHES_WITH_ROOTS, Divider
from patterns.engine.errors import OtherSeamsNeeded, TooManySeams
from patterns.engine.figure_frames import in_rows
from patterns.engine.figure_numbers import scale_for
from patterns.engine.figure_orders import Figures
from patterns.engine.figure_writing import FigureWriter
from patterns.engine.foundations import with_foundations
from patterns.engine.orders import joined
from patterns.engine.part_books import WHOLE, PartBook
from patterns.engine.parts import Assembly, Order, Placed
from patterns.engine.regions import Region, region
from patterns.engine.rows_writing import RowsWriter
from patterns.engine.surds import Number


def sewing_order(block: Block) -> Assembly:
    """Find the sewing order of a block drawn in finished inches.

    Appliqué shapes lie on what is sewn, and change nothing of its order.

    Straight seams square to the sides come first; what these do not divide into known units is sewn by
    straight seams at any angle, by partial and by set-in seams.  OtherSeamsNeeded: the drawing has two
    different roots even as parts of its width.  TooManySeams: some hundred seams follow each other.
    """
    try:
        return replace(_order(block), applique=block.applique)
    except RecursionError as error:
        raise TooManySeams(where="patches") from error


def _order(block: Block) -> Assembly:
    factor, whole = _whole_region(block)
    rooted = any(not isinstance(number, int) for number in _numbers(whole))
    most_patches = MOST_PATCHES_WITH_ROOTS if rooted else MOST_PATCHES_SEARCHED
    divider = Divider(most_patches=most_patches)
    if divider.plan(whole.least()[0]) is not None:
        writer = RowsWriter(step=Fraction(1, factor), divider=divider, book=PartBook())
    else:
        writer = _writer_with_figures(whole, factor, divider)
    placed = writer.placed(whole, at=(0, 0), name=WHOLE)
    return with_foundations(joined(writer.book.parts, placed))


def _writer_with_figures(whole: Region, factor: int, divider: Divider) -> RowsWriter:
    """Divide anew; this time a rectangle without seams square to its sides is taken as a figure."""
    scale = scale_for(_numbers(whole))
    if scale is None:
        raise OtherSeamsNeeded(where=(Fraction(0), Fraction(0)), patches=(), needs=Order.TEMPLATE)
    figures, inch, book = Figures(scale=scale), Fraction(1, factor), PartBook()
    anew = Divider(most_patches=divider.most_patches, forms=divider.forms, figured=figures.costs)
    anew.plan(whole.least()[0])

    def rows_of(upright: Region, *, step: Number, name: str) -> Placed:
        writer = RowsWriter(step=step, divider=figures.divider, book=book)
        return writer.placed(upright, at=(0, 0), name=name)

    figure_writer = FigureWriter(figures=figures, inch=inch, book=book, rows_of=rows_of)

    def figured(drawn: Region, *, name: str) -> Placed:
        sheet = figures.sheet(drawn)
        part, motion = figure_writer.lay(sheet, sheet.whole, name=name)
        return in_rows(part, motion, size=book.sizes[part])

    return RowsWriter(step=inch, divider=anew, book=book, figured=figured)


def _whole_region(block: Block) -> tuple[int, Region]:
    """Multiply the block by its common denominator."""
    numbers = [block.width, block.height]
    numbers += [number for patch in block.patches for point in patch.points for number in point]
    factor = geometry.common_denominator(numbers)
    patches = [
        (geometry.tidied([geometry.scaled_point(point, factor) for point in patch.points]), patch.fabric)
        for patch in block.patches
    ]
    return factor, region(size=geometry.scaled_point((block.width, block.height), factor), patches=patches)


def _numbers(whole: Region) -> list[geometry.Coordinate]:
    return [*whole.size, *(number for polygon in whole.polygons for corner in polygon for number in corner)]
