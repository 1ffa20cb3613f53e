"""Words of a shop's pages: lengths on bolts, installments in short, files that hold no formula."""

from __future__ import annotations

from fractions import Fraction

import pytest
from django.utils.html import strip_tags

from patterns.engine.measure import Units
from shops.web.shop_csv import csv_file
from shops.web.shop_order_page import numbers_text
from shops.web.shop_words import left_html, letters_text, stock_text


@pytest.mark.parametrize(
    ("length", "words"),
    [("524", "14 yd 20 in"), ("540", "15 yd"), ("39/2", "19 1/2 in"), ("0", "0 in"), ("73/2", "1 yd 1/2 in")],
)
def test_cloth_on_a_bolt_is_said_in_yards_and_inches(length: str, words: str) -> None:
    assert stock_text(Fraction(length), Units.INCHES) == words


def test_metres_on_a_bolt_are_never_more_than_there_are() -> None:
    """15 yd are 13.716 m."""
    assert stock_text(Fraction(540), Units.CENTIMETRES) == "13.7 m"


@pytest.mark.parametrize(
    ("length", "units", "words"),
    [
        ("442", Units.INCHES, "12 1/4 yd"),
        ("4", Units.INCHES, "4 in"),
        ("540", Units.CENTIMETRES, "13.7 m"),
        ("1", Units.CENTIMETRES, "2.6 cm"),
    ],
)
def test_what_is_left_over_is_rounded_down(length: str, units: Units, words: str) -> None:
    said = strip_tags(left_html(Fraction(length), units)).replace("\u00a0", " ").replace("⁄", "/")
    assert said == words


@pytest.mark.parametrize(
    ("numbers", "words"), [((1, 2, 3, 4, 5, 7), "1 to 5, 7"), ((2, 3, 5), "2, 3, 5"), ((10,), "10"), ((), "")]
)
def test_installments_are_said_in_runs(numbers: tuple[int, ...], words: str) -> None:
    assert numbers_text(numbers) == words


def test_one_letter_needs_no_words() -> None:
    assert letters_text(("A",)) == ""
    assert letters_text(("A", "H")) == "letters A, H"


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@x", "\tx"])
def test_a_cell_that_reads_like_a_formula_is_text(cell: str) -> None:
    assert f"'{cell}" in csv_file("x.csv", [[cell]]).content.decode()
