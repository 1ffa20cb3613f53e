"""Which way to press the seams of a row, so that seams nest where rows meet.

Where a seam of one row meets one of the next, the two are pressed opposite ways.  What is left free goes
toward the plain neighbour (less bulk), or else toward the darker one (common practice).
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence

from patterns.engine.parts import Part, Placed, Rows, Unit, UnitKind
from patterns.engine.steps import Phrase
from patterns.engine.surds import Number
from patterns.engine.units.base import Style

PLAIN = (UnitKind.SQUARE, UnitKind.RECTANGLE, UnitKind.CORNER_TRIANGLE)  # no seams of their own
RIGHT, LEFT = 1, -1
DOWN, UP = 1, -1
OPEN = 0
ARROWS = {RIGHT: "→", LEFT: "←", OPEN: "↔"}
PINNED = "Sew them together, pinned where seams meet."
BELOW = "Sew them together, one below the other."
LONG_ARROWS = {DOWN: "↓", UP: "↑", OPEN: "↕"}


def press_rows(part: Rows, parts: Mapping[str, Part], style: Style, *, before: int = 0) -> list[list[int]]:
    """Give the direction of every seam, row by row: 1 to the right, -1 to the left.

    `before` counts the rows above that are sewn in steps of their own: where nothing else speaks for a
    way, seams nest with theirs too.
    """
    rows = [list(itertools.pairwise(row)) for row in part.rows]
    directions: dict[tuple[int, Number], int] = {}
    for i, row in enumerate(rows):
        for _, after in row:
            start = (i, after.at[0])
            if start not in directions:
                run = _run(rows, i, after.at[0])
                sign = _better(run, i + before, parts=parts, style=style)
                directions |= {(i + k, after.at[0]): sign * (-1) ** k for k in range(len(run))}
    return [[directions[i, after.at[0]] for _, after in row] for i, row in enumerate(rows)]


def _run(rows: list[list[tuple[Placed, Placed]]], first: int, x: Number) -> list[tuple[Placed, Placed]]:
    """Give the seams one below the other at x, from row `first` on."""
    found = []
    for row in rows[first:]:
        seam = next((pair for pair in row if pair[1].at[0] == x), None)
        if seam is None:
            break
        found.append(seam)
    return found


def _better(run: list[tuple[Placed, Placed]], first: int, *, parts: Mapping[str, Part], style: Style) -> int:
    """Choose the direction of the topmost seam of a run; without a reason even rows go to the right."""
    score = sum((-1) ** k * seam_wish(seam, parts, style) for k, seam in enumerate(run))
    if score:
        return RIGHT if score > 0 else LEFT
    return RIGHT if first % 2 == 0 else LEFT


def seam_wish(seam: tuple[Placed, Placed], parts: Mapping[str, Part], style: Style) -> int:
    """Say which neighbour a seam goes toward: the plain one, or else the darker; 0 for neither."""
    left, right = (parts[placed.part] for placed in seam)
    plain = [is_plain(part) for part in (left, right)]
    if plain[0] != plain[1]:
        return RIGHT if plain[1] else LEFT
    letters = [part.fabrics[0] for part in (left, right) if isinstance(part, Unit)]
    if not all(plain) or letters[0] == letters[1]:
        return 0
    return RIGHT if style.darker((letters[0], letters[1])) == letters[1] else LEFT


def press_long(part: Rows, parts: Mapping[str, Part]) -> list[int]:
    """Give the direction of the seams between rows: 1 downward, -1 upward, to the row with less bulk."""
    bulks = [_bulk(row, parts) for row in part.rows]
    return [DOWN if lower <= upper else UP for upper, lower in itertools.pairwise(bulks)]


def _bulk(row: Sequence[Placed], parts: Mapping[str, Part]) -> int:
    """Count what ends at the long seam: parts of the row, those with seams of their own twice."""
    units = (parts[placed.part] for placed in row)
    return len(row) + sum(not is_plain(part) for part in units)


def press_words(press: list[list[int]], long: list[int], *, parts: Sequence[Part] = ()) -> tuple[Phrase, ...]:
    """Say how what is laid out in rows is sewn and pressed; no seams meet where `parts` have none."""
    ways = long_arrows(long)
    if any(press) and long:
        rows = {"rows": arrows(press)}
        return (
            Phrase("Sew each row. Press its seams as the arrows show (row {rows}).", rows),
            Phrase(
                "Pin the rows where their seams nest and sew them together. Press the long seams: {ways}.",
                {"ways": ways},
            ),
        )
    found = ways if long else arrows(press)
    below = BELOW if parts and all(is_plain(part) for part in parts) else PINNED
    sewn = below if long else "Sew them together side by side."
    several = "Press the seams: {ways}." if " " in found else "Press the seam: {ways}."
    return (Phrase(sewn), Phrase(several, {"ways": found}))


def is_plain(part: Part) -> bool:
    """Say whether a part has no seams of its own."""
    return isinstance(part, Unit) and part.kind in PLAIN


def long_arrows(long: Sequence[int]) -> str:
    """Write the directions of the seams between rows, from the top."""
    return " ".join(LONG_ARROWS[way] for way in long)


def arrows(press: list[list[int]]) -> str:
    """Write the directions by rows: "1, 3: ← →; 2: → ←"; a single row needs no number."""
    rows = [" ".join(ARROWS[d] for d in row) for row in press]
    if len(rows) == 1:
        return rows[0]
    alike: dict[str, list[str]] = {}
    for number, row in enumerate(rows, start=1):
        alike.setdefault(row, []).append(str(number))
    return "; ".join(f"{', '.join(numbers)}: {row}" for row, numbers in alike.items() if row)
