"""A recipe whose pieces carry the names of a longer cut list, such as a whole installment's."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from patterns.engine.naming import renamed, renamed_words
from patterns.engine.steps import Picture, Piece, Recipe, Step


def with_names_of(recipe: Recipe, cut_list: Iterable[Piece]) -> Recipe:
    """Give the recipe with each piece named as the piece of that fabric, size and further cut in the list.

    Steps, pictures and spares follow, so that cutting table and steps speak of the same A1.  KeyError
    when the list lacks a piece of the recipe.
    """
    listed = {_key(piece): piece.id for piece in cut_list}
    names = {piece.id: listed[_key(piece)] for piece in recipe.pieces}
    return replace(
        recipe,
        pieces=tuple(replace(piece, id=names[piece.id]) for piece in recipe.pieces),
        steps=tuple(_step(step, names) for step in recipe.steps),
        spares=tuple(replace(spare, ref=names.get(spare.ref, spare.ref)) for spare in recipe.spares),
        place={**recipe.place, "ref": names.get(recipe.place["ref"], recipe.place["ref"])},
    )


def _key(piece: Piece) -> tuple[object, ...]:
    return (piece.fabric, piece.width, piece.length, piece.then)


def _step(step: Step, names: Mapping[str, str]) -> Step:
    return replace(
        step,
        words=tuple(renamed_words(words, names) for words in step.words),
        operations=tuple(renamed(row, lambda ref: names.get(ref, ref)) for row in step.operations),
        pictures=tuple(_picture(picture, names) for picture in step.pictures),
    )


def _picture(picture: Picture, names: Mapping[str, str]) -> Picture:
    facets = tuple(replace(facet, label=names.get(facet.label, facet.label)) for facet in picture.facets)
    caption = renamed_words(picture.caption, names) if picture.caption else None
    return replace(picture, facets=facets, caption=caption)
