"""Blocks and units of an installment, as pictures and rows."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.unit_methods import unit_choices
from bom.enums import PartKind
from patterns.domain.pictures import block_svg, unit_svg
from patterns.domain.wording import fractions_html, measure_html, size_text
from patterns.engine.parts import Patch, UnitKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from django.utils.safestring import SafeString

    from bom.domain.unit_methods import UnitChoice
    from bom.domain.work import PartWork
    from patterns.engine.hatches import Cloths
    from patterns.engine.measure import Units
    from patterns.engine.methods import Style
    from patterns.engine.steps import UnitRow

PLATE, TALLEST_UNIT, WIDEST_UNIT, LEAST_UNIT = 300, 56, 96, 16  # px
TOP_PLATE = 358


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """A block with its picture and sizes."""

    title: str
    placed_block_id: int | None
    picture: SafeString
    words: SafeString


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitLine:
    """One line of the table of units."""

    block: str
    placed_block_id: int | None
    picture: SafeString | str
    name: str
    count: int
    finished: SafeString
    trim_to: SafeString
    method: str
    others: int


def plates(parts: Iterable[PartWork], cloths: Cloths, units: Units) -> list[Plate]:
    """Draw every part that has a drawing."""
    return [_plate(part, cloths, units) for part in parts if part.drawing]


def unit_rows(parts: Iterable[PartWork], cloths: Cloths, style: Style, *, units: Units) -> list[UnitLine]:
    """List the units of every part in sewing order, drawn, with the method each is made by."""
    rows = []
    for part in parts:
        if part.recipe and part.drawing:
            choices = unit_choices(part.drawing, style) if part.kind == PartKind.BLOCK else ()
            drawn = {each.unit.id: each for each in choices}
            rows += [
                _unit(part, row, drawn.get(row.part), cloths=cloths, units=units) for row in part.recipe.units
            ]
    return rows


def unit_picture(choice: UnitChoice, cloths: Cloths) -> SafeString:
    """Draw a unit so that it fits the line."""
    unit = choice.unit
    width = _width(float(unit.width) / float(unit.height))
    return unit_svg(unit, cloths=cloths, width_px=width, letters=width >= TALLEST_UNIT)


def _plain_picture(row: UnitRow, cloths: Cloths) -> SafeString | str:
    """Draw a square or a rectangle of a part that is joined from the whole top; nothing for other units."""
    if row.kind not in {UnitKind.SQUARE, UnitKind.RECTANGLE}:
        return ""
    (width, height), letter = row.finished, row.fabrics[0]
    corners = ((Fraction(0), Fraction(0)), (width, Fraction(0)), (width, height), (Fraction(0), height))
    patch = Patch(letter, corners)
    drawn = _width(float(width) / float(height))
    name = unit_name(row.kind, row.fabrics)
    return block_svg((patch,), row.finished, cloths=cloths, width_px=drawn, name=name, letters=False)


def _width(share: float) -> int:
    """Give the width in px of a picture so that it fits the line."""
    return min(WIDEST_UNIT, max(LEAST_UNIT, round(TALLEST_UNIT * share)))


def unit_name(kind: UnitKind, fabrics: Iterable[str]) -> str:
    """Name a unit with its letters: "Flying geese B A"."""
    return f"{_(kind.value).capitalize()} {' '.join(dict.fromkeys(fabrics))}"


def _plate(part: PartWork, cloths: Cloths, units: Units) -> Plate:
    drawing = part.drawing
    if drawing is None:
        raise ValueError(f"{part.title} has no drawing")
    size = (drawing.width, drawing.height)
    seams = 2 * part.recipe.seam if part.recipe else 0
    raw = (drawing.width + seams, drawing.height + seams)
    words = _("{finished} finished, {raw} unfinished. {count} patches.").format(
        finished=size_text(size, units), raw=size_text(raw, units), count=len(drawing.cloth)
    )
    is_block = part.kind == PartKind.BLOCK
    drawn = block_svg(
        drawing.cloth,
        size,
        cloths=cloths,
        width_px=PLATE if is_block else TOP_PLATE,
        name=part.title,
        letters=is_block,
    )
    return Plate(
        title=part.title[:1].upper() + part.title[1:],
        placed_block_id=part.placed_block_id,
        picture=drawn,
        words=fractions_html(words),
    )


def _unit(
    part: PartWork, row: UnitRow, choice: UnitChoice | None, *, cloths: Cloths, units: Units
) -> UnitLine:
    return UnitLine(
        block=part.title,
        placed_block_id=part.placed_block_id,
        picture=unit_picture(choice, cloths) if choice else _plain_picture(row, cloths),
        name=unit_name(row.kind, row.fabrics),
        count=row.count,
        finished=measure_html(size_text(row.finished, units)),
        trim_to=measure_html(size_text(row.trim_to, units) if row.trim_to else ""),
        method=_(row.method),
        others=len(choice.methods) - 1 if choice else 0,
    )
