"""Traditional blocks: drawings that come with the program and belong to nobody."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import transaction

from patterns.engine.blocks import block_from_data
from patterns.models import Block

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ("keep_traditional",)


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
