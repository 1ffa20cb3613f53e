"""The steps of a sheet: words and drawings, numbered through the installment."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from bom.domain.making import illustrated
from bom.domain.sheets.large import enlarged, layouts, small_width
from bom.enums import PartKind
from patterns.domain.pictures import data_uri, step_svg
from patterns.domain.wording import measure_html, say, say_fact, say_html, size_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from django.utils.safestring import SafeString

    from bom.domain.sheets.variants import Variant
    from bom.domain.work import PartWork
    from patterns.engine.hatches import Cloths
    from patterns.engine.steps import Picture, Recipe, Step

PICTURE_PX, TALLEST_PX, WIDE_PX = 148, 148, 288
LARGE_TALLEST_PX = 190  # before it is enlarged
MANY_PIECES = 30  # a picture of more than so many pieces is drawn wide, below its words


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureRow:
    """A drawing, what is read aloud for it, and its caption."""

    picture: str
    alt: str
    caption: SafeString | str


@dataclass(frozen=True, slots=True, kw_only=True)
class StepRow:
    """A numbered step as it is printed."""

    number: int
    title: SafeString
    words: tuple[SafeString, ...]
    check: SafeString | str
    pictures: tuple[PictureRow, ...]
    is_wide: bool
    layout: tuple[str, ...] = ()  # in words, in large print


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRows:
    """A part of the installment: its name, its steps, and what must be known before."""

    title: str
    unfinished: SafeString | str
    warnings: tuple[SafeString, ...]
    steps: tuple[StepRow, ...]
    patches: int


def part_rows(
    parts: tuple[PartWork, ...], cloths: Cloths, variant: Variant, *, before: int = 0
) -> list[PartRows]:
    """Set the steps of every sewn part, numbered on from part to part, `before` having been told already."""
    rows: list[PartRows] = []
    for part in parts:
        if part.recipe:
            first = before + 1 + sum(len(row.steps) for row in rows)
            rows.append(_part(part, illustrated(part), cloths, variant=variant, first=first))
    return rows


def _part(part: PartWork, recipe: Recipe, cloths: Cloths, *, variant: Variant, first: int) -> PartRows:
    sizes = tuple(side + 2 * recipe.seam for side in recipe.finished)
    said = layouts(recipe, part.drawing) if variant.is_large and part.kind == PartKind.BLOCK else {}
    steps = (_step(step, cloths, variant, number=first + at) for at, step in enumerate(recipe.steps))
    return PartRows(
        title=_title(part, recipe),
        unfinished=measure_html(size_text((sizes[0], sizes[1]), variant.measures)),
        warnings=tuple(dict.fromkeys(_warnings(recipe, variant))),
        steps=tuple(
            replace(row, layout=said.get(step.number, ()))
            for row, step in zip(steps, recipe.steps, strict=True)
        ),
        patches=len(part.drawing.cloth) if part.drawing else 0,
    )


def _title(part: PartWork, recipe: Recipe) -> str:
    """Name the part; a top that has no sashing is the quilt centre."""
    joins = any(piece.purpose in ("sashing", "cornerstones") for piece in recipe.pieces)
    return part.title if part.kind != PartKind.SASHING or joins else _("Quilt centre")


def _warnings(recipe: Recipe, variant: Variant) -> Iterator[SafeString]:
    """Say what must be known before; not where sizes differ by less than the sheet shows."""
    for warning in recipe.warnings:
        size, cut = (warning.facts.get(name) for name in ("size", "cut"))
        shown = [say_fact(fact, variant.measures) for fact in (size, cut) if fact is not None]
        if len(set(shown)) == len(shown):
            yield say_html(warning, variant.measures)


def _step(step: Step, cloths: Cloths, variant: Variant, *, number: int) -> StepRow:
    wide = any(len(picture.facets) > MANY_PIECES for picture in step.pictures)
    name = _("Step {number}, {title}").format(number=number, title=say(step.title, variant.measures))
    return StepRow(
        number=number,
        title=say_html(step.title, variant.measures),
        words=tuple(say_html(words, variant.measures) for words in step.words),
        check=measure_html(size_text(step.check, variant.measures)) if step.check else "",
        pictures=tuple(_picture(each, cloths, variant, name=name, is_wide=wide) for each in step.pictures),
        is_wide=wide or variant.is_large,
    )


def _picture(picture: Picture, cloths: Cloths, variant: Variant, *, name: str, is_wide: bool) -> PictureRow:
    width, tallest = (WIDE_PX, WIDE_PX) if is_wide else (PICTURE_PX, TALLEST_PX)
    if variant.is_large:
        width, tallest = small_width(variant.column_px), LARGE_TALLEST_PX
    drawn = step_svg(
        picture, cloths=cloths, width_px=width, tallest_px=tallest, name=name, units=variant.measures
    )
    caption = picture.caption
    return PictureRow(
        picture=data_uri(enlarged(drawn) if variant.is_large else drawn),
        alt=f"{name}: {say(caption, variant.measures)}" if caption else name,
        caption=say_html(caption, variant.measures) if caption else "",
    )
