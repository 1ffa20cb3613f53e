"""Every published number that concerns the engine is a check value with its source, or says why it is none.

Rows are counted by their id; what follows the id after a space, a dash or a letter is one part of a row.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

FOLDER = Path(__file__).parents[2] / "fixtures" / "check_values"
FILES = sorted(FOLDER.glob("*.toml"))
ID = re.compile(r"[CW][0-9]{2}|[A-Z]+[0-9]*-[0-9]{2}")
ROWS = {
    "HST": "01 02 03 07 11 15 16 17",
    "H8": "03 04 07",
    "H4": "01 02 03 04 06 07",
    "QST": "01 02 04 05 06 07 09",
    "FG": "03 04 06 07 08 09 10 11 13 16",
    "SIS": "01 02 03 04 05 06 08 09 12",
    "SET": "01 03 04 05 06 07 09 11 12 14 16 18 19 20 22 23 24 25 27 28 29 32 33",
    "STR": "01 02 03 04 05 06 07",
    "SQS": "01 02 04 06 08",
    "SFQ": "01 02 03 04 05 06 07 09 12",
    "SQC": "01 02 03 05 06 08 10",
    "ERR": "03 04 05",
    "YD": "01 02 03 04 07 08 09 10 12 13 14 15",
    "UNI": "01 02 03 05 07",
    "FAB": "01 03 04 08 09 10 11",
    "PC": "01 03 04 05 06 08 09 10",
    "BIN": "02 03 04 05 06 07 08 09 10 11 12 13 14",
    "BOR": "01",
    "SAS": "01 03",
    "BAK": "01 03 05 06 07",
    "WAD": "01 02 03 05 06",
    "BED": "01 02 03 04 05 06",
    "QSZ": "01 02 03",
    "SHR": "01 02 03 04 06 07",
    "W": "01 02 04 06 07 08 10 12",
    "C": "01 02 04 06 08 11 13 14 16 17 19 21 23 25 26 28 29 32 33 35 37 38 39 40 42 43 44 47 48 51 52 55 68",
}
NO_CHECK = {
    "QSZ": "rules of a charity for what it takes, not of how a quilt is made",
    "FAB-09": "how bolts are measured in a mill; the program holds the length that the label says",
    "SHR-01": "the name of a test method; the share is a setting",
}


def values(file: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tomllib.loads(file.read_text("utf-8"))["value"]
    return found


def named() -> set[str]:
    rows = set()
    for group, numbers in ROWS.items():
        dash = "" if group in {"C", "W"} else "-"
        rows |= {f"{group}{dash}{number}" for number in numbers.split()}
    return rows


def test_every_row_is_checked_or_says_why_not() -> None:
    checked = {match[0] for file in FILES for row in values(file) if (match := ID.match(row["id"]))}
    excused = {row for row in named() if row in NO_CHECK or row.partition("-")[0] in NO_CHECK}
    assert named() - checked == excused
    assert not excused & checked


@pytest.mark.parametrize("file", FILES, ids=[file.stem for file in FILES])
def test_a_row_is_named_once_and_names_its_source(file: Path) -> None:
    rows = values(file)
    assert len({row["id"] for row in rows}) == len(rows)
    for row in rows:
        assert ID.match(row["id"]), row["id"]
        assert all(row[key] for key in ("title", "publisher", "year")), row["id"]
