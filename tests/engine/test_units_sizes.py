"""Cut sizes of every method against published and derived values; the id of each value stands beside it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patterns.engine.measure import CENTIMETRE
from patterns.engine.surds import ceiling, root
from patterns.engine.units.base import HALF_SQUARE, QUARTER_SQUARE, HouseStyle, Job, Style
from patterns.engine.units.square_in_a_square import centre
from tests.engine.unit_samples import (
    METRIC,
    cut_sizes,
    goose,
    half_square,
    method,
    quarter_square,
    square_in_a_square,
)

S = Fraction(1, 4)
CLOSE = Fraction(1, 1_000_000)


@pytest.mark.parametrize(
    ("finished", "expected"),
    [
        (Fraction(1), "1.853553"),
        (Fraction(3, 2), "2.353553"),
        (Fraction(2), "2.853553"),
    ],  # HST-01, -02, -03: derived geometry
)
def test_exact_square_for_half_squares(finished: Fraction, expected: str) -> None:
    assert abs(finished + HALF_SQUARE * S - Fraction(expected)) < CLOSE


def test_three_inch_half_square_is_cut_three_and_seven_eighths() -> None:
    """HST-07: Half Square and Quarter Square Triangles, North Hampshire Quilters."""
    assert cut_sizes(half_square(3), "two at a time")["A"][:2] == (Fraction(31, 8), Fraction(31, 8))


def test_oversized_half_square_follows_the_guild_and_is_never_under_the_exact_size() -> None:
    """HST-11: 1/4 in more, North Hampshire Quilters; HST-15: 3.5 seams, a personal blog, 2012."""
    style = Style(house=HouseStyle.OVERSIZED, half_square_over=Fraction(1, 4))
    assert cut_sizes(half_square(3), "two at a time", style=style)["A"][0] == Fraction(33, 8)
    assert Fraction(7, 2) > HALF_SQUARE
    tight = Style(house=HouseStyle.OVERSIZED, half_square_over=Fraction(0))
    assert cut_sizes(half_square(3), "two at a time", style=tight)["A"][0] == Fraction(31, 8)


def test_metric_half_square_addition() -> None:
    """HST-16: derived; HST-17: 2.5 cm, Metric flying geese, a personal blog, 2012, comes out small."""
    exact = HALF_SQUARE * Fraction(3, 4)
    assert abs(exact - Fraction("2.56066")) < Fraction(1, 100_000)
    assert exact > Fraction(5, 2)
    cut = cut_sizes(half_square(Fraction(1000, 254)), "two at a time", style=METRIC)["A"][0]
    assert cut == Fraction(1275, 254)  # 10 cm finished: 12.56 up to 12.75 cm


@pytest.mark.parametrize(
    ("seam", "step", "added"),
    [
        (Fraction(1, 4), Fraction(1, 8), ("1", "3/2")),  # common practice
        (Fraction(3, 8), Fraction(1, 8), ("3/2", "17/8")),  # exact 1.2803 and 1.8107
        (CENTIMETRE / 2, CENTIMETRE / 4, ("225/254", "325/254")),  # 2.25 and 3.25 cm; exact 1.7071 and 2.4142
        (CENTIMETRE * 3 / 4, CENTIMETRE / 4, ("300/254", "450/254")),  # 3 and 4.5 cm; HST-16, QST-07 exact
        (CENTIMETRE, CENTIMETRE / 4, ("375/254", "550/254")),  # 3.75 and 5.5 cm; exact 3.4142 and 4.8284
    ],
)
def test_oversized_squares_leave_the_stated_amount_to_trim_at_any_seam(
    seam: Fraction, step: Fraction, added: tuple[str, str]
) -> None:
    style = Style(seam=seam, step=step, house=HouseStyle.OVERSIZED)
    size = 24 * step
    halves = cut_sizes(half_square(size), "two at a time", style=style)["A"][0] - size
    quarters = cut_sizes(quarter_square(size, "ABCD"), "from triangles", style=style)["A"][0] - size
    assert (halves, quarters) == tuple(map(Fraction, added))
    assert halves >= HALF_SQUARE * seam + style.half_square_over
    assert quarters >= QUARTER_SQUARE * seam + style.quarter_square_over


def test_crossed_half_squares_have_room_at_both_trims() -> None:
    """Squares finished + 1 1/2, half-square triangles trimmed to finished + 1 in (common practice)."""
    style = Style(house=HouseStyle.OVERSIZED)
    crossed = quarter_square(2, "ABAB")
    assert cut_sizes(crossed, "from two half-square triangles", style=style)["A"][0] == Fraction(7, 2)
    made = method(crossed, "from two half-square triangles").draft(Job(unit=crossed, make=2, style=style))
    assert any(words.facts.get("size") == (Fraction(3), Fraction(3)) for words in made.words)


def test_eight_at_a_time() -> None:
    """H8-03 derived; H8-04 How to make eight triangle-squares at once, a magazine; H8-07 a forum."""
    assert abs(2 * (4 + HALF_SQUARE * S) - Fraction("9.707107")) < CLOSE
    assert cut_sizes(half_square(Fraction(3, 2)), "eight at a time")["A"][0] == Fraction(19, 4)
    assert cut_sizes(half_square(4), "eight at a time")["A"][0] == Fraction(39, 4)
    assert cut_sizes(half_square(4), "eight at a time", style=Style(house=HouseStyle.OVERSIZED))["A"][0] == 10


@pytest.mark.parametrize(("finished", "exact", "cut"), [(2, "4.035534", "33/8"), (3, "5.449747", "11/2")])
def test_half_squares_four_at_a_time(finished: int, exact: str, cut: str) -> None:
    """H4-03 and H4-04: derived, sqrt 2 x unfinished + 2 seams."""
    assert abs(root(2) * (finished + 2 * S) + 2 * S - Fraction(exact)) < CLOSE
    sizes = cut_sizes(half_square(finished), "four at a time", make=4)
    assert sizes == {letter: (Fraction(cut), Fraction(cut), 1) for letter in "AB"}


def test_what_a_square_sewn_all_round_gives() -> None:
    """H4-01, H4-02 derived; H4-06 and H4-07: The real maths for four-at-a-time ..., a discussion thread."""
    assert abs((5 - 2 * S) / root(2) - Fraction("3.181981")) < CLOSE
    assert abs((10 - 2 * S) / root(2) - Fraction("6.717514")) < CLOSE
    assert abs((5 - 2 * S) / root(2) - Fraction("3.18")) < Fraction(1, 100)
    assert cut_sizes(half_square(3), "four at a time", make=4)["A"][0] >= Fraction("5.46875")


def test_half_squares_one_at_a_time() -> None:
    """Derived: the same square as in pairs, cut once diagonally."""
    sizes = cut_sizes(half_square(3), "one at a time from triangles", make=5)
    assert sizes == {letter: (Fraction(31, 8), Fraction(31, 8), 3) for letter in "AB"}


def test_four_at_a_time_from_a_published_error() -> None:
    """ERR-05: As easy as ..., a personal blog: 4 3/4 in squares do not give 3 1/2 in units."""
    needed = root(2) * Fraction(7, 2) + 2 * S
    assert abs(needed - Fraction("5.449747")) < CLOSE
    assert ceiling(needed, Fraction(1, 8)) > Fraction(19, 4)


@pytest.mark.parametrize(
    ("finished", "expected"),
    [
        (Fraction(2), "3.207107"),
        (Fraction(3), "4.207107"),
        (Fraction(6), "7.207107"),
    ],  # QST-01, -02, -04: derived geometry
)
def test_exact_square_for_quarter_squares(finished: Fraction, expected: str) -> None:
    assert abs(finished + QUARTER_SQUARE * S - Fraction(expected)) < CLOSE


def test_quarter_squares_as_cut() -> None:
    """QST-05 and QST-06, North Hampshire Quilters; QST-07 derived; QST-09: 5 seams, a personal blog, 2012."""
    assert cut_sizes(quarter_square(3, "ABCD"), "from triangles")["A"][0] == Fraction(17, 4)
    style = Style(house=HouseStyle.OVERSIZED)
    assert cut_sizes(quarter_square(3, "ABCD"), "from triangles", style=style)["A"][0] == Fraction(9, 2)
    assert abs(QUARTER_SQUARE * Fraction(3, 4) - Fraction("3.62132")) < Fraction(1, 100_000)
    assert QUARTER_SQUARE < 5


@pytest.mark.parametrize(
    ("width", "large", "small"),
    [
        (3, "17/4", "19/8"),  # FG-03, FG-04: Fast flying geese table, a personal quilting page
        (4, "21/4", "23/8"),  # FG-06 (small)
        (5, "25/4", "27/8"),  # FG-07, FG-08
        (6, "29/4", "31/8"),  # FG-09, FG-10
        (7, "33/4", "35/8"),  # FG-11 (large)
        (8, "37/4", "39/8"),  # FG-13 (large)
    ],
)
def test_four_geese_at_a_time(width: int, large: str, small: str) -> None:
    sizes = cut_sizes(goose(width), "four at a time", make=4)
    assert sizes == {"A": (Fraction(large), Fraction(large), 1), "B": (Fraction(small), Fraction(small), 4)}


def test_flipped_geese() -> None:
    """FG-16: Sawtooth star block, 8 inch, a quilt magazine, 2013."""
    assert cut_sizes(goose(4), "corners flipped")["A"][:2] == (Fraction(9, 2), Fraction(5, 2))


@pytest.mark.parametrize(
    ("finished", "exact", "corner"),
    [
        (4, "3.328427", "23/8"),  # SIS-01, SIS-02: derived geometry
        (6, "4.742641", "31/8"),  # SIS-03, SIS-04
        (9, "6.863961", "43/8"),  # SIS-05, SIS-06
        (12, "8.985281", "55/8"),  # SIS-08; W08: Lesson 5: Square in a Square, quilt-math course handouts
    ],
)
def test_square_in_a_square(finished: int, exact: str, corner: str) -> None:
    sample = square_in_a_square(finished)
    assert abs(centre(Job(unit=sample, make=1, style=Style())) - Fraction(exact)) < CLOSE
    sizes = cut_sizes(sample, "from triangles", make=2)
    assert sizes["A"][0] == ceiling(Fraction(exact), Fraction(1, 8))  # SIS-09, W08: 9 in for 12
    assert sizes["B"] == (Fraction(corner), Fraction(corner), 4)


def test_flipped_corners_of_a_square_in_a_square() -> None:
    """SIS-12: block / 2 + 1/2, derived geometry."""
    assert cut_sizes(square_in_a_square(6), "corners flipped")["B"] == (Fraction(7, 2), Fraction(7, 2), 4)


def test_corner_squares_from_a_published_error() -> None:
    """ERR-04: Square in a square, a quilting forum, 2011: 4.03 in; C06: 6 7/8 in was far too large.

    The side of the finished centre is the long side of the corner triangle.
    """
    needed = 5 / root(2) + HALF_SQUARE * S
    assert abs(needed - Fraction("4.389087")) < CLOSE
    assert needed > Fraction("4.03")
    assert ceiling(6 / root(2) + HALF_SQUARE * S, Fraction(1, 8)) == Fraction(41, 8)


def test_forty_eight_half_squares_take_twenty_four_squares_of_each_fabric() -> None:
    """C01: 2 1/2 in finished, two at a time: 24 squares of 3 3/8 in (a public account, common practice)."""
    assert cut_sizes(half_square(Fraction(5, 2)), "two at a time", make=48)["A"] == (
        Fraction(27, 8),
        Fraction(27, 8),
        24,
    )


def test_side_triangle_square_exactly() -> None:
    """SET-29: 6 in blocks on point, derived geometry."""
    assert abs(6 * root(2) + QUARTER_SQUARE * S - Fraction("9.692388")) < CLOSE


def test_rolling_pinwheel_cut_list() -> None:
    """W10: Block of the Month directions, July 2023, LLQG (guild): 2 1/2, 2 7/8, 4 7/8, 5 1/4 in."""
    assert cut_sizes(half_square(2), "two at a time")["A"][0] == Fraction(23, 8)
    assert cut_sizes(half_square(4), "two at a time")["A"][0] == Fraction(39, 8)
    assert cut_sizes(quarter_square(4, "ABCD"), "from triangles")["A"][0] == Fraction(21, 4)
