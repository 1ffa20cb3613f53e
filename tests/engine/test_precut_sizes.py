"""The one table of precuts: what is sold, and what of it is planned on."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.precut_sizes import FAT_QUARTER, PRECUTS, Precut

USABLE = {
    "fat quarter 18 x 22": ("20 1/2", "17 1/2"),
    "fat quarter 18 x 21": ("20 1/2", "17 1/2"),
    "fat quarter 20 x 22": ("20 1/2", "19 1/2"),
    "fat quarter 50 x 55 cm": ("20 1/8", "19 1/8"),
    "fat quarter 50 x 50 cm": ("18 1/8", "19 1/8"),
    "fat eighth 9 x 22": ("20 1/2", "8 1/2"),
    "fat eighth 18 x 11": ("9 1/2", "17 1/2"),
    "5 in square": ("5", "5"),
    "10 in square": ("10", "10"),
    "2 1/2 in strip": ("40", "2 1/2"),
}


def length(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


@pytest.mark.parametrize("precut", PRECUTS, ids=[each.name for each in PRECUTS])
def test_usable_sizes_are_those_decided(precut: Precut) -> None:
    """18 x 22 in is usable as 17 1/2 x 20 to 21 in (common practice)."""
    usable = tuple(map(length, USABLE[precut.name]))
    assert precut.usable == usable
    assert all(less <= sold for less, sold in zip(usable, precut.nominal, strict=True))


def test_area_is_what_is_sold_and_washing_takes_from_what_is_usable() -> None:
    """5 % of 20 1/2 and 17 1/2 in leaves 19.475 and 16.625 in, rounded down to 1/8 in."""
    assert FAT_QUARTER.area == 396
    washed = FAT_QUARTER.washed(Fraction(1, 20))
    assert (washed.nominal, washed.usable) == (FAT_QUARTER.nominal, (length("19 3/8"), length("16 5/8")))
    assert FAT_QUARTER.washed(Fraction(0)) is FAT_QUARTER
