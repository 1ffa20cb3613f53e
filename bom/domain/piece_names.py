"""One list of pieces for a whole installment: A1 means one thing in every block of a month."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from typing import TypeAlias

from patterns.engine.naming import renamed, renamed_words
from patterns.engine.parts import Point
from patterns.engine.steps import Picture, Piece, Recipe, Step

Size: TypeAlias = tuple[str, Fraction, Fraction, str, tuple[Point, ...]]


def size_of(piece: Piece) -> Size:
    """Give what makes two pieces the same on the cutting table: fabric, both sides, further cut, template."""
    return piece.fabric, piece.width, piece.length, piece.then, piece.outline


def names_for(recipe: Recipe, pieces: Iterable[Piece]) -> dict[str, str]:
    """Translate the names of a recipe's pieces into those of the installment's list."""
    known = {size_of(piece): piece.id for piece in pieces}
    return {piece.id: known[size_of(piece)] for piece in recipe.pieces}


def with_names(recipe: Recipe, names: Mapping[str, str]) -> Recipe:
    """Write a recipe with other names for its pieces: list, words, pictures, operations and spares."""
    if all(old == new for old, new in names.items()):
        return recipe
    place = dict(recipe.place)
    return replace(
        recipe,
        pieces=tuple(replace(piece, id=names[piece.id]) for piece in recipe.pieces),
        steps=tuple(_step(step, names) for step in recipe.steps),
        spares=tuple(replace(spare, ref=names.get(spare.ref, spare.ref)) for spare in recipe.spares),
        place={**place, "ref": names.get(place["ref"], place["ref"])},
    )


def _step(step: Step, names: Mapping[str, str]) -> Step:
    return replace(
        step,
        title=renamed_words(step.title, names),
        words=tuple(renamed_words(words, names) for words in step.words),
        pictures=tuple(_picture(picture, names) for picture in step.pictures),
        operations=tuple(renamed(row, lambda ref: names.get(ref, ref)) for row in step.operations),
    )


def _picture(picture: Picture, names: Mapping[str, str]) -> Picture:
    facets = tuple(replace(facet, label=names.get(facet.label, facet.label)) for facet in picture.facets)
    caption = renamed_words(picture.caption, names) if picture.caption else None
    return replace(picture, facets=facets, caption=caption)
