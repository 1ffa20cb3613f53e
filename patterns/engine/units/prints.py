"""A direction in the print: how many ways a method turns the patches of one fabric.

Pieces that are cut to size, strips, bodies and templates keep it; triangles of one square or rectangle lie
in two or in all four directions (derived: the halves of a square are each other turned by half a turn, its
quarters by a quarter).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from patterns.engine.parts import Unit, UnitKind

Quarters: TypeAlias = tuple[int, ...]

KEPT: Quarters = (0,)
HALF: Quarters = (0, 2)
ALL: Quarters = (0, 1, 2, 3)
TWO_WAY = ("two-way", "stripe")  # look the same after half a turn
NONE = "none"
TURNED: Mapping[tuple[UnitKind, str], tuple[Quarters, Quarters]] = {  # of the first fabric, of the others
    (UnitKind.HALF_SQUARE, "two at a time"): (HALF, HALF),
    (UnitKind.HALF_SQUARE, "eight at a time"): (ALL, ALL),
    (UnitKind.HALF_SQUARE, "four at a time"): (ALL, ALL),
    (UnitKind.HALF_SQUARE, "one at a time from triangles"): (HALF, HALF),
    (UnitKind.QUARTER_SQUARE, "from two half-square triangles"): (ALL, ALL),
    (UnitKind.QUARTER_SQUARE, "from triangles"): (ALL, ALL),
    (UnitKind.THREE_PATCH, "from a half-square triangle and a square"): (HALF, ALL),
    (UnitKind.THREE_PATCH, "from triangles"): (HALF, ALL),
    (UnitKind.FLYING_GEESE, "four at a time"): (ALL, ALL),
    (UnitKind.FLYING_GEESE, "one at a time from triangles"): (ALL, ALL),
    (UnitKind.SQUARE_IN_A_SQUARE, "from triangles"): (KEPT, ALL),
    (UnitKind.HALF_RECTANGLE, "from oversized triangles"): (HALF, HALF),
    (UnitKind.HALF_RECTANGLE, "from triangles"): (HALF, HALF),
    (UnitKind.TRIANGLE_IN_A_SQUARE, "from oversized triangles"): (KEPT, HALF),
    (UnitKind.FOUR_PATCH, "from strip sets"): (HALF, HALF),
    (UnitKind.SIDE_TRIANGLE, "squares cut twice"): (ALL, ALL),
    (UnitKind.CORNER_TRIANGLE, "squares cut once"): (HALF, HALF),
    (UnitKind.TRIANGLE, "from squares cut once diagonally"): (HALF, HALF),
    (UnitKind.TRIANGLE, "from squares cut twice diagonally"): (ALL, ALL),
}


def quarters(kind: UnitKind, method: str, role: int) -> Quarters:
    """Give the quarter turns in which a method leaves the print of a unit's fabric, by its role."""
    return TURNED.get((kind, method), (KEPT, KEPT))[min(role, 1)]


def scattered(unit: Unit, method: str, directions: Mapping[str, str]) -> tuple[str, ...]:
    """Give the letters with a direction in the print that a method leaves lying in several."""
    found = {
        letter: None
        for role, letter in enumerate(unit.fabrics)
        if directions.get(letter, NONE) != NONE
        and len({_seen(turn, directions[letter]) for turn in quarters(unit.kind, method, role)}) > 1
    }
    return tuple(found)


def _seen(turn: int, direction: str) -> int:
    return turn % 2 if direction in TWO_WAY else turn
