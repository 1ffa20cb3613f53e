"""Which way to press seams between units, so that they nest where rows meet."""

from __future__ import annotations

from patterns.engine.parts import Rows
from patterns.engine.steps import Phrase

ONE = 1


def row_words(part: Rows, make: int) -> tuple[Phrase, ...]:
    """Say how rows are laid out, sewn and pressed: rows alternate, so that seams nest where they meet."""
    words = [Phrase("Make {count}.", {"count": make})] if make > ONE else []
    columns = max(len(row) for row in part.rows)
    words.append(Phrase("Lay out the parts as drawn."))
    if columns > ONE and len(part.rows) > ONE:
        words.append(
            Phrase(
                "Sew the parts of each row together. Press rows 1, 3 ... to the right and rows "
                "2, 4 ... to the left."
            )
        )
        words.append(Phrase("Sew the rows together, seams nested. Press the long seams downward."))
    elif columns > ONE:
        words.append(Phrase("Sew the parts together. Press the seams to the right."))
    else:
        words.append(Phrase("Sew the parts together. Press the seams downward."))
    return tuple(words)


def rightward(row: int) -> bool:
    """Say whether a row, counted from 0, is pressed to the right."""
    return row % 2 == 0
