"""Corners sewn across and flipped, shared by flying geese, squares in a square and corner-flip squares."""

from __future__ import annotations

from typing import Any

from patterns.engine.steps import Phrase
from patterns.engine.surds import parse_number
from patterns.engine.units.base import Job, text

ACROSS = {  # from and to on the small square as it lies, so that the corner is to the left
    "top left": ("bottom left", "top right"),
    "top right": ("top left", "bottom right"),
    "bottom right": ("top right", "bottom left"),
    "bottom left": ("bottom right", "top left"),
}


def flip_words(job: Job) -> Phrase:
    """Say how the corner is trimmed and turned out."""
    words = "Trim {seam} beyond the seam, on the side of the corner. Flip the triangle outward and press."
    return Phrase(words, {"seam": job.seam})


def flip(job: Job, *, base: str, top: str, corner: str, gives: dict[str, Any]) -> dict[str, Any]:
    """Lay a square on a corner, sew across it, cut one seam beyond and open: the corner falls off."""
    start, end = ACROSS[corner]
    line = {"from": [0, start], "to": [0, end]}
    return {
        "op": "stack",
        "times": job.make,
        "base": base,
        "top": [{"ref": top, "corner": corner}],
        "sew": [{**line, "offset": "0"}],
        "cut": [{**line, "offset": f"-{text(job.seam)}"}],
        "seam": f"seam {corner}",
        "loose": 2,
        "gives": [{**gives, "at": "centre"}],
    }


def flip_twice(row: dict[str, Any], *, corner: str, gives: dict[str, Any]) -> dict[str, Any]:
    """Sew the corner that a flip cuts off together before it is cut: a second seam, and a bonus unit."""
    (seam,), (cut,) = row["sew"], row["cut"]
    second = {**seam, "offset": text(2 * parse_number(cut["offset"]))}
    return {
        **{key: fact for key, fact in row.items() if key != "loose"},
        "sew": [seam, second],
        "gives": [*row["gives"], {**gives, "at": corner}],
    }
