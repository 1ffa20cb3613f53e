"""Drawings with appliqué shapes, for tests."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from patterns.engine.blocks import Block, block_from_data
from tests.engine.drawings import Drawing, box, drawing, inches

FOLDER = Path(__file__).parents[2] / "fixtures" / "applique"
SLUGS = sorted(path.stem for path in FOLDER.glob("*.json"))
GROUND = box("A", 0, 0, width=4, height=4)


def sample(slug: str) -> Block:
    return block_from_data(json.loads((FOLDER / f"{slug}.json").read_text("utf-8")))


def shape(fabric: str, *points: Any) -> Drawing:
    return {"fabric": fabric, "points": [list(p) if isinstance(p, tuple) else p for p in points]}


def circle(fabric: str, x: int, y: int, *, radius: int) -> Drawing:
    arc = {"arc": [x, y]}
    ends = ((x, y - radius), (x + radius, y), (x, y + radius), (x - radius, y))
    return shape(fabric, *(each for end in ends for each in (end, arc)))


def on_ground(*shapes: Drawing) -> Drawing:
    """Lay shapes on one square of 4 by 4."""
    return drawing((4, 4), GROUND) | {"applique": list(shapes)}


def appliqued(*shapes: Drawing, size: int = 12) -> Block:
    return inches(block_from_data(on_ground(*shapes)), size)
