"""Make cut lists by chance, with the sizes and numbers that pieced blocks give, and write strip_lists.json.

Run: python -m tests.benchmarks.strip_lists
"""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from random import Random

LISTS = Path(__file__).with_name("strip_lists.json")
HOW_MANY = {1: 20, 2: 20, 3: 20, 4: 20, 5: 25, 6: 25, 7: 10, 8: 12, 9: 12, 10: 12, 11: 12, 12: 12}
BLOCKS = (6, 9, 12, 16, 20, 24, 30, 36, 42)  # of one quilt
UNITS = (Fraction(1), Fraction(3, 2), Fraction(2), Fraction(5, 2), Fraction(3), Fraction(4), Fraction(9, 2))
SEAMS = Fraction(1, 2)  # both seam allowances of a piece
WIDTHS = (40, 41, 42)
_TURNED = Fraction(2, 3)  # of the lists

Row = tuple[Fraction, Fraction, int]


def piece(chance: Random, blocks: int) -> Row:
    """Give one size as cut (inches) and its number: squares, squares for triangles, rectangles, sashing."""
    unit = chance.choice(UNITS)
    each = chance.choice((1, 2, 4, 4, 4, 8, 8, 12))
    kind = chance.choice(
        ("square", "square", "half-square", "quarter-square", "rectangle", "goose", "sashing")
    )
    long = Fraction(chance.choice((6, 8, 9, 10, 12)))
    shapes = {
        "square": (unit + SEAMS, unit + SEAMS, blocks * each),
        "half-square": (unit + Fraction(7, 8), unit + Fraction(7, 8), blocks * each // 2 or 1),
        "quarter-square": (unit + Fraction(5, 4), unit + Fraction(5, 4), blocks * each // 4 or 1),
        "rectangle": (unit * chance.choice((2, 3, 4)) + SEAMS, unit + SEAMS, blocks * each),
        "goose": (2 * unit + SEAMS, unit + SEAMS, blocks * each),
        "sashing": (long + SEAMS, unit / 2 + SEAMS, blocks * chance.choice((1, 2))),
    }
    return shapes[kind]


def cut_list(chance: Random, sizes: int) -> dict[str, object]:
    """Give a list with so many different sizes."""
    blocks = chance.choice(BLOCKS)
    rows: dict[tuple[Fraction, Fraction], int] = {}
    while len(rows) < sizes:
        width, length, count = piece(chance, blocks)
        rows[width, length] = count
    return {
        "width": chance.choice(WIDTHS),
        "turn": chance.random() < _TURNED,
        "eighths": [[int(width * 8), int(length * 8), count] for (width, length), count in rows.items()],
    }


def main() -> None:
    """Write the file, one list a line."""
    chance = Random("cut lists of pieced blocks")
    lists = [cut_list(chance, sizes) for sizes, number in HOW_MANY.items() for _ in range(number)]
    rows = ",\n".join(json.dumps(each, separators=(",", ":")) for each in lists)
    LISTS.write_text(f"[\n{rows}\n]\n", encoding="utf-8")


if __name__ == "__main__":
    main()
