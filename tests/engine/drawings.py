"""Drawings for tests of the engine: short ways to write patches, and the traditional blocks."""

from __future__ import annotations

import json
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from patterns.engine.assembly import sewing_order
from patterns.engine.blocks import Block, block_from_data
from patterns.engine.parts import Assembly

FOLDER = Path(__file__).parents[2] / "fixtures" / "blocks"
TRADITIONAL = sorted(path.stem for path in FOLDER.glob("*.json"))
# square blocks of straight seams: a sample, for tests of single rules
SLUGS = [
    "bears-paw",
    "birds-in-the-air",
    "broken-dishes",
    "churn-dash",
    "double-nine-patch",
    "dutchmans-puzzle",
    "flock-of-geese",
    "four-patch",
    "friendship-star",
    "greek-cross",
    "hourglass",
    "irish-chain",
    "jacobs-ladder",
    "log-cabin",
    "nine-patch",
    "ohio-star",
    "pinwheel",
    "rail-fence",
    "rolling-stone",
    "sailboat",
    "sawtooth-star",
    "shoo-fly",
    "square-in-a-square",
    "turnstile",
    "yankee-puzzle",
]

Drawing = dict[str, Any]


def patch(fabric: str, *points: tuple[Any, Any]) -> Drawing:
    return {"fabric": fabric, "points": [list(point) for point in points]}


def box(fabric: str, x: Any, y: Any, *, width: int = 1, height: int = 1) -> Drawing:
    return patch(fabric, (x, y), (x + width, y), (x + width, y + height), (x, y + height))


def drawing(grid: tuple[Any, Any], *patches: Drawing) -> Drawing:
    return {"name": "Trial", "grid": list(grid), "patches": list(patches)}


def block(grid: tuple[Any, Any], *patches: Drawing) -> Block:
    return block_from_data(drawing(grid, *patches))


def inches(drawn: Block, size: int = 12) -> Block:
    """Draw to finished inches of the wider side."""
    scale = Fraction(size) / max(drawn.width, drawn.height)
    return drawn.at_size(drawn.width * scale, drawn.height * scale)


@cache
def traditional(slug: str, size: int = 12) -> Block:
    data = json.loads((FOLDER / f"{slug}.json").read_text("utf-8"))
    return inches(block_from_data(data), size)


@cache
def traditional_order(slug: str, size: int = 12) -> Assembly:
    return sewing_order(traditional(slug, size))
