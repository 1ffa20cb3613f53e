"""Traditional blocks from the drawing files, their recipes and proofs, for the tests of the whole chain."""

from __future__ import annotations

import json
from copy import deepcopy
from fractions import Fraction
from functools import cache
from typing import Any

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import block_from_data
from patterns.engine.methods import Style
from patterns.engine.rebuild import Proof, prove
from patterns.engine.recipes import write_recipe
from patterns.engine.steps import Recipe
from tests.engine.drawings import FOLDER, SLUGS

__all__ = ["SLUGS", "drawing", "plain_data", "proof_of", "recipe", "written_anew"]


@cache
def drawing(slug: str) -> dict[str, Any]:
    return json.loads((FOLDER / f"{slug}.json").read_text(encoding="utf-8"))


def recipe(slug: str, *, size: object = 12, style: Style | None = None) -> Recipe:
    """Give a block's recipe, written once; what `as_data` gives of it is not to be spoilt."""
    return _written_once(slug, Fraction(size), style or Style())


def written_anew(slug: str, size: Fraction, style: Style) -> Recipe:
    block = block_from_data(drawing(slug))
    sized = block.at_size(size, size * block.height / block.width)
    return write_recipe(sewing_order(sized), name=block.name, style=style)


_written_once = cache(written_anew)


@cache
def _plain_data(slug: str) -> str:
    return json.dumps(recipe(slug).as_data())


def plain_data(slug: str) -> dict[str, Any]:
    """Give a copy of a block's recipe as data, 12 in and exact style, that a test may spoil."""
    return deepcopy(json.loads(_plain_data(slug)))


def proof_of(slug: str, made: Recipe) -> Proof:
    return prove(made.as_data(), drawing(slug))
