"""Traditional blocks: drawings that come with the program and belong to nobody."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from django.db import transaction
from django.utils.translation import get_language

from patterns.domain.pictures import plate_svg
from patterns.engine.blocks import block_from_data
from patterns.engine.hatches import Cloth
from patterns.enums import BlockCategory
from patterns.models import Block

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from django.utils.safestring import SafeString

__all__ = ("Family", "Plate", "drawings_in", "families", "keep_traditional")

PLATE_PX = 148
_COLOURS = ("#F4EFE3", "#31475E", "#B5563C", "#D9A441", "#6F8A6B", "#9FB4C0", "#5B3A4A", "#D8BFA6")
_CLOTHS = {letter: Cloth(letter, colour, 0) for letter, colour in zip("ABCDEFGH", _COLOURS, strict=True)}
_MOST_KEPT = 512  # pictures


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """A traditional block to choose: its names and its picture."""

    pk: int
    name: str
    names: tuple[str, ...]
    picture: SafeString


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """The traditional blocks of one category, by name."""

    value: str
    label: str
    plates: tuple[Plate, ...]


def drawings_in(folder: Path) -> dict[str, dict[str, Any]]:
    """Read the drawing files of a folder, by address."""
    return {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in sorted(folder.glob("*.json"))}


@transaction.atomic
def keep_traditional(drawings: Mapping[str, dict[str, Any]]) -> int:
    """Keep block drawings by address and give how many are new; one that is there stays as it is.

    All or none: PatternError, from the engine, says what is wrong with a drawing.
    """
    known = set(Block.objects.filter(owner=None).values_list("slug", flat=True))
    new = []
    for slug, drawing in drawings.items():
        block = block_from_data(drawing)
        if slug not in known:
            new.append(Block(slug=slug, name=block.name, category=block.category, drawing=drawing))
    Block.objects.bulk_create(new)
    return len(new)


def families(search: str = "") -> tuple[Family, ...]:
    """Give the kept traditional blocks by category; only those of whose names one has all words of `search`.

    A block of an unknown category stands in the last family, which has no name.
    """
    words = search.casefold().split()
    found: dict[str, list[Plate]] = {value: [] for value in (*BlockCategory.values, "")}
    for block in Block.objects.filter(owner=None).order_by("name"):
        names = tuple(map(str, block.drawing.get("names", ())))
        if _has_all(words, (block.name, *names)):
            found[block.category if block.category in found else ""].append(_plate(block, names))
    labels = {"": "", **dict(BlockCategory.choices)}
    return tuple(
        Family(value=value, label=str(labels[value]), plates=tuple(plates))
        for value, plates in found.items()
        if plates
    )


def _has_all(words: Iterable[str], names: Iterable[str]) -> bool:
    return any(all(word in name.casefold() for word in words) for name in names)


def _plate(block: Block, names: tuple[str, ...]) -> Plate:
    picture = _picture(json.dumps(block.drawing), block.name, get_language())
    return Plate(pk=block.pk, name=block.name, names=names, picture=picture)


@lru_cache(maxsize=_MOST_KEPT)
def _picture(drawing: str, name: str, _language: str | None) -> SafeString:
    block = block_from_data(json.loads(drawing))
    size = (block.width, block.height)
    return plate_svg(block.cloth, size, cloths=_CLOTHS, width_px=PLATE_PX, name=name)
